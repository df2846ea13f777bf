import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DatabaseSync } from "node:sqlite";
import { afterEach, beforeEach, expect, test } from "vitest";
import { History, type Night } from "../../src/history/history.ts";
import type { ReadDocument } from "../../src/readers/reading.ts";
import { sampleDocument, sampleReading, sampleStation } from "../cases/sample-documents.ts";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "history-"));
});
afterEach(() => rmSync(folder, { recursive: true }));

const document = sampleDocument("2024-01-10", [sampleReading("aortic arch", "50")], { sop: "1.1" });
const nightOf = (documents: ReadDocument[]): Night => ({
  files: [
    {
      file: "aa.dcm",
      sha256: "aa",
      kind: "structured report",
      documents,
      caseRows: [],
      meetingRows: [],
      setAside: null,
      messages: [],
    },
  ],
  held: new Set(),
  withdrawn: [],
});

test("a store of version 4 is brought up to date: no sections, and no figure under any number", () => {
  const path = join(folder, "history.sqlite");
  const readings = ["50", "41", "62.5"].map((value, index) => ({
    ...sampleReading("aortic arch", value, {}, `item 1.${index}`),
    comment: 'with "quotes" and ä',
  }));
  const documents = [
    { ...document, readings },
    { ...document, readings: [] },
  ];
  const first = new History(path);
  first.addNight(nightOf(documents), "2024-01-11");
  first.close();
  const old = new DatabaseSync(path);
  const update = old.prepare("UPDATE document SET content = ? WHERE rowid = ?");
  for (const [index, { stations: _, ...before }] of documents.entries()) {
    const readingsBefore = before.readings.map(({ graphic: __, ...reading }) => reading);
    update.run(JSON.stringify({ ...before, readings: readingsBefore }), index + 1);
  }
  old.exec("PRAGMA user_version = 4");
  old.close();
  const history = new History(path);
  expect(history.documents()).toEqual(documents);
  expect(history.notes.map(({ data }) => data["copy"])).toEqual(["history.sqlite.version-4.bak"]);
  history.close();
});

test("sections and figures come back from the store as they were read", () => {
  const graphic = {
    source: { file: "aa.dcm", sha256: "aa", at: "item 1.4.1" },
    graphicType: "POLYLINE",
    points: [[Math.fround(0.1), -12.5, 3] as const, [1, 2, 3] as const],
    frameOfReferenceUid: "2.25.1009",
  };
  const [reading] = document.readings;
  if (!reading) throw new Error("no reading");
  const full = {
    ...document,
    readings: [{ ...reading, graphic }],
    stations: [sampleStation(12.5, { maximumMm: 31, x: -1.25, mark: "LSA, distal edge" })],
  };
  const path = join(folder, "history.sqlite");
  const first = new History(path);
  first.addNight(nightOf([full]), "2024-01-11");
  first.close();
  const again = new History(path, { readOnly: true });
  expect(again.documents()).toEqual([full]);
  again.close();
});
