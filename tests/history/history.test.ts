import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DatabaseSync } from "node:sqlite";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { patientFiles } from "../../src/cases/patient-files.ts";
import { History, HistoryFault, type Night } from "../../src/history/history.ts";
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

const night = (files: ReadFile[], rest: Partial<Night> = {}): Night => ({
  files,
  held: new Set(),
  withdrawn: [],
  ...rest,
});

describe("History", () => {
  test("gives back what was stored, after closing and opening again", () => {
    const path = join(folder, "history.sqlite");
    const first = new History(path);
    const row = sampleCaseRow({ heightCm: 170 });
    first.addNight(night([fileOf("aa")]), "2024-01-11");
    first.addNight(night([fileOf("bb", { documents: [], caseRows: [row] })]), "2024-01-12");
    first.close();
    const again = new History(path, { readOnly: true });
    expect(again.stored("aa")).toEqual({ night: 1, isSettled: true });
    expect(again.stored("cc")).toBeNull();
    expect(again.documents()).toEqual([document]);
    expect(again.caseRows()).toEqual([{ row, night: 2 }]);
    expect(again.latestNight()).toBe(2);
    expect(() => again.addNight(night([fileOf("dd")]), "2024-01-13")).toThrow("readonly");
    again.close();
  });

  test("a held file is stored and not settled, keeps its first night, and is settled when it waits no more", () => {
    const history = new History(":memory:");
    const held = new Set(["aa"]);
    history.addNight(night([fileOf("aa")], { held }), "2024-01-11");
    history.addNight(night([fileOf("aa"), fileOf("bb")], { held }), "2024-01-12");
    expect(history.stored("aa")).toEqual({ night: 1, isSettled: false });
    expect(history.stored("bb")).toEqual({ night: 2, isSettled: true });
    expect(history.documents()).toHaveLength(2);
    history.addNight(night([]), "2024-01-13");
    expect(history.stored("aa")).toEqual({ night: 1, isSettled: true });
    expect(history.latestNight()).toBe(2);
    history.close();
  });

  test("what is withdrawn goes, and its file with the last of it", () => {
    const history = new History(":memory:");
    const rows = [1, 2].map((record) =>
      sampleCaseRow({ source: { file: "c.csv", sha256: "bb", at: `record ${record}` } }),
    );
    const sheet = fileOf("bb", { kind: "case sheet", documents: [], caseRows: rows });
    const report = { ...document, source: { ...document.source, sha256: "aa" } };
    history.addNight(night([fileOf("aa", { documents: [report] }), sheet]), "2024-01-11");
    const withdrawn = patientFiles(
      [report],
      rows.slice(0, 1).map((row) => ({ row, night: 1 })),
    );
    history.addNight(night([], { withdrawn }), "2024-01-12");
    expect(history.documents()).toEqual([]);
    expect(history.stored("aa")).toBeNull();
    expect(history.caseRows().map(({ row }) => row.source.at)).toEqual(["record 2"]);
    expect(history.stored("bb")).not.toBeNull();
    history.close();
  });

  test("a night is stored whole or not at all", () => {
    const history = new History(":memory:");
    const broken = { ...fileOf("bb"), file: null as unknown as string };
    expect(() => history.addNight(night([fileOf("aa"), broken]), "2024-01-11")).toThrow();
    expect(history.documents()).toEqual([]);
    expect(history.latestNight()).toBe(0);
    history.close();
  });

  test("a store of version 1 is brought up to date: files stored in part are judged again", () => {
    const path = join(folder, "history.sqlite");
    const old = new DatabaseSync(path);
    old.exec(`
      CREATE TABLE night (night INTEGER PRIMARY KEY, as_of TEXT NOT NULL) STRICT;
      CREATE TABLE file (sha256 TEXT PRIMARY KEY, name TEXT NOT NULL, kind TEXT NOT NULL,
        night INTEGER NOT NULL REFERENCES night, is_whole INTEGER NOT NULL, messages TEXT NOT NULL) STRICT;
      CREATE TABLE document (sha256 TEXT NOT NULL REFERENCES file, content TEXT NOT NULL) STRICT;
      CREATE TABLE case_row (sha256 TEXT NOT NULL REFERENCES file, content TEXT NOT NULL) STRICT;
      PRAGMA user_version = 1;
      INSERT INTO night VALUES (1, '2024-01-11');
      INSERT INTO file VALUES ('aa', 'aa.dcm', 'structured report', 1, 1, '[]');
      INSERT INTO file VALUES ('bb', 'bb.csv', 'measurement sheet', 1, 0, '[]');
    `);
    const { identicalUids: _, ...report } = document.report ?? {};
    const add = old.prepare("INSERT INTO document VALUES (?, ?)");
    add.run("aa", JSON.stringify({ ...document, report }));
    add.run("bb", JSON.stringify({ ...document, report: null }));
    old.close();
    expect(() => new History(path, { readOnly: true })).toThrow("schema 1");
    const history = new History(path);
    expect(history.documents()).toEqual([document, { ...document, report: null }]);
    expect(history.stored("aa")?.isSettled).toBe(true);
    expect(history.stored("bb")?.isSettled).toBe(false);
    history.close();
  });

  test.each([
    ["is not a store", "this is no SQLite file, and long enough to be looked at as one"],
    ["is damaged", null],
  ])("a file that %s is refused and left as it is", (_, content) => {
    const path = join(folder, "history.sqlite");
    if (content === null) {
      const history = new History(path);
      history.addNight(night([fileOf("aa")]), "2024-01-11");
      history.close();
      const bytes = readFileSync(path);
      bytes.fill(0xff, 4096, 12_288);
      writeFileSync(path, bytes);
    } else writeFileSync(path, content);
    const before = readFileSync(path);
    expect(() => new History(path)).toThrow(HistoryFault);
    expect(readFileSync(path).equals(before)).toBe(true);
  });

  test("a store of a newer program is refused", () => {
    const path = join(folder, "history.sqlite");
    const newer = new DatabaseSync(path);
    newer.exec("PRAGMA user_version = 99");
    newer.close();
    expect(() => new History(path)).toThrow("schema 99");
  });
});
