import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { History, HistoryFault } from "../../src/history/history.ts";
import type { ReadFile } from "../../src/readers/reading.ts";
import { sampleCaseRow, sampleDocument, sampleReading } from "../cases/sample-documents.ts";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "history-"));
});
afterEach(() => rmSync(folder, { recursive: true }));

const document = sampleDocument("2024-01-10", [sampleReading("aortic arch", "50")], { sop: "1.1" });
const fileOf = (sha256: string, rest: Partial<ReadFile> = {}): ReadFile => ({
  file: `${sha256}.dcm`,
  sha256,
  kind: "structured report",
  documents: [document],
  caseRows: [],
  meetingRows: [],
  setAside: null,
  messages: [],
  ...rest,
});

describe("History", () => {
  test("gives back what was stored, after closing and opening again", () => {
    const path = join(folder, "history.sqlite");
    const first = new History(path);
    const row = sampleCaseRow({ heightCm: 170 });
    first.addNight([{ read: fileOf("aa"), isWhole: true }], "2024-01-11");
    first.addNight(
      [{ read: fileOf("bb", { documents: [], caseRows: [row] }), isWhole: true }],
      "2024-01-12",
    );
    first.close();
    const again = new History(path);
    expect(again.knows("aa")).toBe(true);
    expect(again.knows("cc")).toBe(false);
    expect(again.documents()).toEqual([document]);
    expect(again.caseRows()).toEqual([{ row, night: 2 }]);
    expect(again.latestNight()).toBe(2);
    again.close();
  });

  test("a file stored in part is not known and is replaced when it comes again", () => {
    const history = new History(":memory:");
    history.addNight([{ read: fileOf("aa", { documents: [] }), isWhole: false }], "2024-01-11");
    expect(history.knows("aa")).toBe(false);
    history.addNight([{ read: fileOf("aa"), isWhole: true }], "2024-01-12");
    expect(history.knows("aa")).toBe(true);
    expect(history.documents()).toHaveLength(1);
    history.close();
  });

  test("a night is stored whole or not at all", () => {
    const history = new History(":memory:");
    const broken = { ...fileOf("bb"), file: null as unknown as string };
    const night = [
      { read: fileOf("aa"), isWhole: true },
      { read: broken, isWhole: true },
    ];
    expect(() => history.addNight(night, "2024-01-11")).toThrow();
    expect(history.documents()).toEqual([]);
    expect(history.latestNight()).toBe(0);
    history.close();
  });

  test.each([
    ["is not a store", "this is no SQLite file, and long enough to be looked at as one"],
    ["is damaged", null],
  ])("a file that %s is refused and left as it is", (_, content) => {
    const path = join(folder, "history.sqlite");
    if (content === null) {
      const history = new History(path);
      history.addNight([{ read: fileOf("aa"), isWhole: true }], "2024-01-11");
      history.close();
      const bytes = readFileSync(path);
      bytes.fill(0xff, 4096, 12_288);
      writeFileSync(path, bytes);
    } else writeFileSync(path, content);
    const before = readFileSync(path);
    expect(() => new History(path)).toThrow(HistoryFault);
    expect(readFileSync(path).equals(before)).toBe(true);
  });

  test("a store of a newer program is refused", async () => {
    const path = join(folder, "history.sqlite");
    const { DatabaseSync } = await import("node:sqlite");
    const newer = new DatabaseSync(path);
    newer.exec("PRAGMA user_version = 99");
    newer.close();
    expect(() => new History(path)).toThrow("schema 99");
  });
});
