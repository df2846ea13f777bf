import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DatabaseSync } from "node:sqlite";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { patientFiles } from "../../src/cases/patient-files.ts";
import { HistoryFault } from "../../src/history/history-fault.ts";
import { History, type Night } from "../../src/history/history.ts";
import { openToWrite } from "../../src/history/open-to-write.ts";
import type { Message } from "../../src/message.ts";
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
    const { findings: __, ...before } = document;
    const add = old.prepare("INSERT INTO document VALUES (?, ?)");
    add.run("aa", JSON.stringify({ ...before, report }));
    add.run("bb", JSON.stringify({ ...before, report: null }));
    old.close();
    expect(() => new History(path, { readOnly: true })).toThrow("schema 1");
    const history = new History(path);
    expect(history.documents()).toEqual([document, { ...document, report: null }]);
    expect(history.stored("aa")?.isSettled).toBe(true);
    expect(history.stored("bb")?.isSettled).toBe(false);
    history.close();
  });

  test("a store of version 2 is brought up to date: no findings, and facts that no case sheet stated yet", () => {
    const path = join(folder, "history.sqlite");
    const old = new DatabaseSync(path);
    old.exec(`
      CREATE TABLE night (night INTEGER PRIMARY KEY, as_of TEXT NOT NULL) STRICT;
      CREATE TABLE file (sha256 TEXT PRIMARY KEY, name TEXT NOT NULL, kind TEXT NOT NULL,
        night INTEGER NOT NULL REFERENCES night, is_settled INTEGER NOT NULL, messages TEXT NOT NULL) STRICT;
      CREATE TABLE document (sha256 TEXT NOT NULL REFERENCES file, content TEXT NOT NULL) STRICT;
      CREATE TABLE case_row (sha256 TEXT NOT NULL REFERENCES file, content TEXT NOT NULL) STRICT;
      PRAGMA user_version = 2;
      INSERT INTO night VALUES (1, '2024-01-11');
      INSERT INTO file VALUES ('aa', 'aa.dcm', 'structured report', 1, 1, '[]');
      INSERT INTO file VALUES ('bb', 'bb.csv', 'case sheet', 1, 1, '[]');
    `);
    const row = sampleCaseRow({ heightCm: 170 });
    const { findings: _, ...documentBefore } = document;
    const {
      dissection: __,
      malperfusion: ___,
      archVariant: ____,
      symptoms: _____,
      ...rowBefore
    } = row;
    old.prepare("INSERT INTO document VALUES ('aa', ?)").run(JSON.stringify(documentBefore));
    old.prepare("INSERT INTO case_row VALUES ('bb', ?)").run(JSON.stringify(rowBefore));
    old.close();
    expect(() => new History(path, { readOnly: true })).toThrow("schema 2");
    expect(readdirSync(folder)).toEqual(["history.sqlite"]);
    const history = new History(path);
    expect(history.documents()).toEqual([document]);
    expect(history.caseRows()).toEqual([{ row, night: 1 }]);
    expect(history.notes.map(({ code, data }) => [code, data["copy"]])).toEqual([
      ["history-migrated", "history.sqlite.version-2.bak"],
    ]);
    history.close();
    const copy = new DatabaseSync(`${path}.version-2.bak`, { readOnly: true });
    expect(copy.prepare("PRAGMA user_version").get()).toEqual({ user_version: 2 });
    expect(copy.prepare("SELECT content FROM document").get()).toEqual({
      content: JSON.stringify(documentBefore),
    });
    copy.close();
    const again = new History(path, { readOnly: true });
    expect(again.documents()).toEqual([document]);
    again.close();
  });

  test("a store of version 3 is brought up to date: no symptoms were stated yet", () => {
    const path = join(folder, "history.sqlite");
    const row = sampleCaseRow({ onsetDate: "2024-01-01", symptoms: null });
    const first = new History(path);
    const sheet = fileOf("bb", { kind: "case sheet", documents: [], caseRows: [row] });
    first.addNight(night([fileOf("aa"), sheet]), "2024-01-11");
    first.close();
    const old = new DatabaseSync(path);
    const { symptoms: _, ...rowBefore } = row;
    old.prepare("UPDATE case_row SET content = ?").run(JSON.stringify(rowBefore));
    old.exec("PRAGMA user_version = 3");
    old.close();
    const history = new History(path);
    expect(history.caseRows()).toEqual([{ row, night: 1 }]);
    expect(history.documents()).toEqual([document]);
    expect(history.notes.map(({ data }) => data["copy"])).toEqual(["history.sqlite.version-3.bak"]);
    history.close();
  });

  test("the copy of an old store never overwrites an earlier one", () => {
    const path = join(folder, "history.sqlite");
    new History(path).close();
    const old = new DatabaseSync(path);
    old.exec("PRAGMA user_version = 2");
    old.close();
    writeFileSync(`${path}.version-2.bak`, "kept");
    const history = new History(path);
    expect(history.notes[0]?.data["copy"]).toBe("history.sqlite.version-2-2.bak");
    history.close();
    expect(readFileSync(`${path}.version-2.bak`, "utf8")).toBe("kept");
  });

  /** A store of several pages, as bytes. */
  const storeBytes = (): Buffer => {
    const path = join(folder, "sound.sqlite");
    const history = new History(path);
    const files = ["aa", "bb", "cc"].map((sha256) => fileOf(sha256, { messages: [] }));
    const readings = Array.from({ length: 40 }, (_, at) => sampleReading("aortic arch", `${at}`));
    history.addNight(
      night([...files, fileOf("dd", { documents: [{ ...document, readings }] })]),
      "2024-01-11",
    );
    history.close();
    return readFileSync(path);
  };
  const codeOf = (open: () => unknown): string => {
    try {
      open();
    } catch (error) {
      if (error instanceof HistoryFault) return error.reason.code;
    }
    return "opened";
  };

  test.each<[string, (sound: Buffer) => Uint8Array]>([
    [
      "is text",
      () => new TextEncoder().encode("this is no SQLite file, and long enough to be looked at"),
    ],
    ["is empty", () => new Uint8Array()],
    ["ends after its first page", (sound) => sound.subarray(0, 4096)],
    ["ends inside its first page", (sound) => sound.subarray(0, 100)],
    ["lacks its last page", (sound) => sound.subarray(0, -4096)],
    ["lacks its last byte", (sound) => sound.subarray(0, -1)],
    ["has pages overwritten", (sound) => Buffer.from(sound).fill(0xff, 4096, 12_288)],
    ["has its header overwritten", (sound) => Buffer.from(sound).fill(0xff, 0, 64)],
    [
      "is another program's database",
      () => {
        const path = join(folder, "other.sqlite");
        const other = new DatabaseSync(path);
        other.exec("CREATE TABLE note (words TEXT)");
        other.close();
        return readFileSync(path);
      },
    ],
  ])("a file that %s is refused as damaged and left byte for byte as it is", (_, damage) => {
    const path = join(folder, "history.sqlite");
    writeFileSync(path, damage(storeBytes()));
    const before = readFileSync(path);
    expect(codeOf(() => new History(path))).toBe("history-damaged");
    expect(codeOf(() => openToWrite(path, "full"))).toBe("history-damaged");
    expect(readFileSync(path).equals(before)).toBe(true);
    expect(existsSync(`${path}.lock`)).toBe(false);
  });

  test("a stored text that is no JSON any more is damage, which SQLite can't see", () => {
    const path = join(folder, "history.sqlite");
    const bytes = storeBytes();
    const at = bytes.indexOf('{"source"');
    bytes.fill("!", at, at + 1);
    writeFileSync(path, bytes);
    const history = new History(path, { check: "full" });
    expect(codeOf(() => history.documents())).toBe("history-damaged");
    expect(codeOf(() => history.holdings())).toBe("history-damaged");
    history.close();
  });

  test("a path that can't be opened is told as such", () => {
    expect(codeOf(() => new History(folder))).toBe("history-unusable");
    expect(codeOf(() => openToWrite(join(folder, "none", "history.sqlite")))).toBe(
      "history-unusable",
    );
  });

  test.each([99, -1])("a store of the unknown version %i is refused", (version) => {
    const path = join(folder, "history.sqlite");
    new History(path).close();
    const unknown = new DatabaseSync(path);
    unknown.exec(`PRAGMA user_version = ${version}`);
    unknown.close();
    expect(() => new History(path)).toThrow(`schema ${version}`);
    expect(codeOf(() => new History(path))).toBe("history-version-unknown");
    expect(readdirSync(folder)).toEqual(["history.sqlite"]);
  });

  test("an older store is not brought up to date by reading it", () => {
    const path = join(folder, "history.sqlite");
    new History(path).close();
    const old = new DatabaseSync(path);
    old.exec("PRAGMA user_version = 2");
    old.close();
    expect(codeOf(() => new History(path, { readOnly: true }))).toBe("history-version-old");
  });

  test("a copy holds the same, and never replaces a file", () => {
    const path = join(folder, "history.sqlite");
    writeFileSync(path, storeBytes());
    const history = new History(path, { readOnly: true });
    const to = join(folder, "copy.sqlite");
    history.copyTo(to);
    const copy = new History(to, { readOnly: true, check: "full" });
    expect(copy.holdings()).toEqual(history.holdings());
    copy.close();
    const before = readFileSync(to);
    expect(() => history.copyTo(to)).toThrow("EEXIST");
    expect(readFileSync(to).equals(before)).toBe(true);
    history.close();
  });
});

describe("forget", () => {
  const gone = {
    patient: { id: "TEST-GONE", issuer: null, name: "Vanished^Vera" },
    file: "vera.dcm",
  };
  const sheetPart = (id: string, at: string) =>
    sampleCaseRow({
      source: { file: "cases.csv", sha256: "cc", at },
      patientId: id,
      issuer: null,
      name: id === "TEST-GONE" ? "Vera Vanished" : "Stella Staying",
    });
  const said: Message = {
    code: "csv-choice-not-understood",
    severity: "warning",
    place: { file: "cases.csv", sha256: "cc", at: "record 2" },
    data: { met: "Veras-cell" },
    text: "sex Veras-cell is not one of F, M, O",
    remedy: "Write one of F, M, O.",
  };
  const fill = (path: string): History => {
    const history = new History(path);
    const held = (name: string, rest: Parameters<typeof sampleDocument>[2]): ReadFile => {
      const one = sampleDocument("2024-01-10", [sampleReading("aortic arch", "50")], rest);
      return fileOf(name, { documents: [{ ...one, source: { ...one.source, sha256: name } }] });
    };
    const own = held("aa", { ...gone, sop: "1.1" });
    const other = held("bb", { patient: { id: "TEST-STAYS" }, sop: "1.2" });
    const rows = [sheetPart("TEST-GONE", "record 2"), sheetPart("TEST-STAYS", "record 3")];
    const sheet = fileOf("cc", {
      file: "cases.csv",
      kind: "case sheet",
      documents: [],
      caseRows: rows,
      messages: [said],
    });
    history.addNight(night([own, other, sheet]), "2024-01-11");
    return history;
  };
  const words = ["TEST-GONE", "Vanished", "Vera", "vera.dcm"];
  /** All bytes of the store, its journal and what else lies beside it. */
  const bytesIn = (): string =>
    readdirSync(folder)
      .map((name) => readFileSync(join(folder, name), "latin1"))
      .join("");

  test("takes the patient's ID, name and words out of the bytes, and nothing of the others", () => {
    const path = join(folder, "history.sqlite");
    const history = fill(path);
    for (const word of words) expect(bytesIn(), word).toContain(word);
    history.forget({ id: "TEST-GONE", issuers: [null] });
    for (const word of words) expect(bytesIn(), word).not.toContain(word);
    expect(history.holdings().map(({ stated, file }) => [stated.id, file.name])).toEqual([
      ["TEST-STAYS", "bb.dcm"],
      ["TEST-STAYS", "cases.csv"],
    ]);
    expect(history.stored("aa")).toBeNull();
    expect(history.stored("cc")).toEqual({ night: 1, isSettled: true });
    history.close();
    for (const word of words) expect(bytesIn(), word).not.toContain(word);
    expect(bytesIn()).toContain("Stella Staying");
    new History(path, { readOnly: true, check: "full" }).close();
  });

  test("knows issuers apart", () => {
    const history = fill(":memory:");
    history.forget({ id: "TEST-GONE", issuers: ["LAB"] });
    expect(history.holdings()).toHaveLength(4);
    history.forget({ id: "TEST-STAYS", issuers: ["LAB"] });
    expect(history.holdings().map(({ stated }) => [stated.id, stated.issuer])).toEqual([
      ["TEST-GONE", null],
      ["TEST-GONE", null],
      ["TEST-STAYS", null],
    ]);
    history.close();
  });
});
