import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DatabaseSync } from "node:sqlite";
import { afterEach, beforeEach, expect, test } from "vitest";
import { takeIn } from "../../src/batch/intake.ts";
import { History } from "../../src/history/history.ts";
import { noSiteConfig, parseSiteConfig } from "../../src/site/site-config.ts";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "inbox-"));
});
afterEach(() => rmSync(folder, { recursive: true }));

const asOf = "2026-01-01";
const put = (name: string, ...lines: string[]): void =>
  writeFileSync(join(folder, name), `${lines.join("\n")}\n`);
const night = (history: History, site = noSiteConfig) => {
  const intake = takeIn(folder, history, { asOf, site, onFile: () => {} });
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
const headings = "patient_id,exam_date,distance_mm,vessel,max_diameter_mm,wall";

test("centreline sheets are told by their kind, their sections counted, and set aside where none is understood", () => {
  put(
    "line.csv",
    headings,
    "P1,2025-02-03,0,,31,native",
    "P1,2025-02-03,10,,abc,native",
    "P1,2025-02-03,,,32,native",
  );
  put("nothing.csv", headings, "P1,2025-02-03,0,elbow,31,native");
  const { files, cases, details } = night(new History(":memory:"));
  expect(files).toEqual([
    ["line.csv", "centreline sheet", "used", null, 2, 1],
    ["nothing.csv", "centreline sheet", "set-aside", "file-nothing-placed", 0, 1],
  ]);
  expect(details.map((messages) => messages.map(({ code }) => code))).toEqual([
    ["csv-number-not-understood", "csv-cell-missing"],
    ["station-vessel-not-understood"],
  ]);
  expect(cases).toMatchObject([
    {
      exams: [{ key: "2025-02-03" }],
      measurements: [],
      centrelines: [{ vessel: "aorta", stations: [{ maximumMm: 31 }, { maximumMm: null }] }],
    },
  ]);
  const said = cases[0]?.messages.map(({ code }) => code);
  expect(said).toEqual(expect.arrayContaining(["csv-number-not-understood", "csv-cell-missing"]));
});

test("sections of an earlier night join the numbers of a later one, with the position by the site file", () => {
  const { site } = parseSiteConfig(
    "planning: { scanPosition: { position: HFS, by: imaging lab, date: 2026-01-15 } }",
    "site.yaml",
  );
  if (!site) throw new Error("no site");
  const history = new History(":memory:");
  put("line.csv", headings, "P1,2025-02-03,0,,31,native");
  night(history, site);
  rmSync(join(folder, "line.csv"));
  put(
    "sizes.csv",
    "patient_id,exam_date,place,quantity,value,unit",
    "P1,2025-02-03,zone 3,diameter,41,mm",
  );
  expect(night(history, site).cases).toMatchObject([
    {
      exams: [{ key: "2025-02-03" }],
      measurements: [{ value: 41 }],
      centrelines: [
        {
          exam: "2025-02-03",
          patientPosition: "HFS",
          positionBy: "site file, imaging lab, 2026-01-15",
        },
      ],
    },
  ]);
  history.close();
});

test("after the store has come up to date, the files of before are known and not read as new", () => {
  put(
    "sizes.csv",
    "patient_id,exam_date,place,quantity,value,unit",
    "P1,2025-02-03,zone 3,diameter,41,mm",
  );
  const path = join(folder, ".history.sqlite");
  const first = new History(path);
  night(first);
  first.close();
  const old = new DatabaseSync(path);
  old.exec(`
    UPDATE document SET content = json_remove(content, '$.stations', '$.readings[0].graphic');
    PRAGMA user_version = 4;
  `);
  old.close();
  const history = new History(path);
  expect(night(history).files.map(([, , outcome]) => outcome)).toEqual(["already-known"]);
  history.close();
});
