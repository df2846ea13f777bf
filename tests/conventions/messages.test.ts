import { globSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { messageDocument, messageTables } from "../../fixtures/message-tables.ts";

const tables = await messageTables();
const entries = tables.flatMap((table) => table.entries);
const codes = entries.map(([code]) => code);
const textOf = (pattern: string): string =>
  globSync(pattern)
    .filter((file) => !file.endsWith("messages.ts") && !file.startsWith("tests/golden/"))
    .map((file) => readFileSync(file, "utf8"))
    .join("\n");
const source = textOf("src/**/*.ts");
const tests = textOf("tests/**/*.ts");

/** Codes that are put together, as `report-${failure}`: the begin in a template, the end in quotes. */
const isPutTogether = (code: string): boolean =>
  [...code.matchAll(/-/g)].some(({ index }) => {
    const [begin, end] = [code.slice(0, index + 1), code.slice(index + 1)];
    return source.includes(`\`${begin}\${`) && source.includes(`"${end}"`);
  });

describe("messages", () => {
  test("every folder that makes messages has its table in messages.ts", () => {
    const makers = globSync("src/**/*.ts").filter((file) => {
      const text = readFileSync(file, "utf8");
      return /messageMaker\(\s*\{/.test(text);
    });
    expect(makers).toEqual([]);
    expect(tables.map(({ file }) => file)).toContain("src/cases/messages.ts");
    expect(tables.every((table) => table.entries.length > 0)).toBe(true);
  });

  test("every code is unique over all tables", () => {
    expect(codes.filter((code, index) => codes.indexOf(code) !== index)).toEqual([]);
  });

  test.each(entries)(
    "%s is a plain code and says what is wrong and what to do",
    (code, definition) => {
      expect(code).toMatch(/^[a-z]+(?:-[a-z]+)+$/);
      expect(definition.text.trim()).not.toBe("");
      expect(definition.remedy).toMatch(/^\S[^]*\.$/);
      expect(["error", "warning", "note"]).toContain(definition.severity);
    },
  );

  test("every code is raised somewhere in the code", () => {
    expect(codes.filter((code) => !source.includes(`"${code}"`) && !isPutTogether(code))).toEqual(
      [],
    );
  });

  test("every code is raised in a test", () => {
    expect(codes.filter((code) => !tests.includes(code))).toEqual([]);
  });

  test("the printed table is that of the code (npm run messages)", async () => {
    const unpadded = (text: string) => text.replaceAll(/ +/g, " ").replaceAll(/-{3,}/g, "---");
    const printed = readFileSync("src/messages.md", "utf8");
    expect(unpadded(printed)).toBe(unpadded(await messageDocument()));
  });
});
