import { describe, expect, test } from "vitest";
import { z } from "zod";
import { parseDataFile, parseOwnDataFile } from "../src/data-file.ts";

const schema = z.strictObject({ limit: z.number(), source: z.strictObject({ year: z.number() }) });

describe("parseDataFile", () => {
  test("gives the value of a file without mistakes", () => {
    const text = "limit: 55\nsource:\n  year: 2022\n";
    expect(parseDataFile(text, schema).value).toEqual({ limit: 55, source: { year: 2022 } });
  });

  test.each([
    ["a value of the wrong kind", "limit: 55\nsource:\n  year: soon\n", 3, "source.year"],
    ["an unknown key", "limit: 55\nsource:\n  year: 2022\n  colour: red\n", 4, "source.colour"],
    ["a missing key, at what should hold it", "limit: 55\nsource: {}\n", 2, "source.year"],
    ["a key that stands twice", "limit: 55\nlimit: 56\n", 2, ""],
    ["broken YAML", "limit: [55\n", 2, ""],
  ])("names the line of %s", (_, text, line, path) => {
    const { value, problems } = parseDataFile(text, schema);
    expect(value).toBeNull();
    expect(problems[0]).toMatchObject({ line, path });
  });

  test("a mistake in a file that ships with the program throws with file and line", () => {
    expect(() => parseOwnDataFile("limit: a\nsource: {year: 1}", schema, "own.yaml")).toThrow(
      /own\.yaml does not load:\n {2}line 1 limit/,
    );
  });
});
