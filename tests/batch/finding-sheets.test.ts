import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DatabaseSync } from "node:sqlite";
import { afterEach, beforeEach, expect, test } from "vitest";
import { takeIn } from "../../src/batch/intake.ts";
import { History } from "../../src/history/history.ts";
import { noSiteConfig } from "../../src/site/site-config.ts";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "inbox-"));
});
afterEach(() => rmSync(folder, { recursive: true }));

const asOf = "2026-01-01";
const put = (name: string, ...lines: string[]): void =>
  writeFileSync(join(folder, name), `${lines.join("\n")}\n`);
const night = (history: History) => {
  const intake = takeIn(folder, history, { asOf, site: noSiteConfig, onFile: () => {} });
  history.addNight(intake.night, asOf);
  const files = intake.files.map(({ row }) => [
    row.file,
    row.kind,
    row.outcome,
    row.reason?.code ?? null,
    row.placed,
    row.leftOut,
  ]);
  return { files, cases: intake.cases, details: intake.files.map(({ details }) => details) };
};
const headings = "patient_id,exam_date,place,finding,state";

test("finding sheets are told by their kind, counted, and set aside where nothing of them is understood", () => {
  put(
    "found.csv",
    headings,
    "P1,2025-02-03,zone 3,entry tear,present",
    "P1,2025-02-03,zone 4,false lumen,thrombosed",
    "P1,2025-02-03,zone 4,false lumen,",
  );
  put("nothing.csv", headings, "P1,2025-02-03,elbow,entry tear,present");
  const { files, cases, details } = night(new History(":memory:"));
  expect(files).toEqual([
    ["found.csv", "finding sheet", "used", null, 1, 2],
    ["nothing.csv", "finding sheet", "set-aside", "file-nothing-placed", 0, 1],
  ]);
  expect(details.map((messages) => messages.map(({ code }) => code))).toEqual([
    ["finding-state-not-understood", "csv-cell-missing"],
    ["place-not-understood"],
  ]);
  expect(cases.map(({ findings }) => findings.length)).toEqual([1]);
});

test("findings of an earlier night join the numbers of a later one", () => {
  const history = new History(":memory:");
  put("found.csv", headings, "P1,2025-02-03,zone 3,entry tear,present");
  expect(night(history).cases[0]).toMatchObject({ measurements: [], exams: [{}] });
  rmSync(join(folder, "found.csv"));
  put(
    "sizes.csv",
    "patient_id,exam_date,place,quantity,value,unit",
    "P1,2025-02-03,zone 3,diameter,41,mm",
  );
  const [found] = night(history).cases;
  expect(found).toMatchObject({
    exams: [{ key: "2025-02-03" }],
    measurements: [{ value: 41 }],
    findings: [{ finding: "entry tear", exam: "2025-02-03" }],
  });
  history.close();
});

test("after the store has come up to date, the files of before are known and not read as new", () => {
  put(
    "sizes.csv",
    "patient_id,exam_date,place,quantity,value,unit",
    "P1,2025-02-03,zone 3,diameter,41,mm",
  );
  put("people.csv", "patient_id,height_cm,question", "P1,170,Why?");
  const path = join(folder, ".history.sqlite");
  const first = new History(path);
  night(first);
  first.close();
  const old = new DatabaseSync(path);
  old.exec(`
    UPDATE document SET content = json_remove(content, '$.findings');
    UPDATE case_row SET content = json_remove(content, '$.dissection', '$.malperfusion', '$.archVariant');
    PRAGMA user_version = 2;
  `);
  old.close();
  const history = new History(path);
  const { files } = night(history);
  expect(files.map(([, , outcome]) => outcome)).toEqual(["already-known", "already-known"]);
  history.close();
});
