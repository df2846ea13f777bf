import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { takeIn } from "../../src/batch/intake.ts";
import { History } from "../../src/history/history.ts";
import { parseSiteConfig } from "../../src/site/site-config.ts";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "inbox-"));
});
afterEach(() => rmSync(folder, { recursive: true }));

const asOf = "2026-01-01";
const headings = "patient_id;exam_date;place;quantity;value;unit";
const night = (history: History, yaml: string) => {
  const { site } = parseSiteConfig(yaml, "site.yaml");
  if (!site) throw new Error("site file");
  const intake = takeIn(folder, history, { asOf, site, onFile: () => {} });
  history.addNight(intake.night, asOf);
  return {
    outcomes: intake.files.map(({ row }) => row.outcome),
    values: intake.cases.flatMap(({ measurements }) => measurements.map(({ value }) => value)),
    messages: intake.cases.flatMap(({ messages }) => messages.map(({ code }) => code)),
    changed: intake.changed.size,
  };
};

test("a sheet is read again where the site file now says how, and only then", () => {
  writeFileSync(
    join(folder, "a.csv"),
    `${headings}\nP1;2025-02-03;zone 3;diameter;41;mm\nP1;2025-02-03;zone 5;diameter;4,2;cm\n`,
  );
  const history = new History(":memory:");
  const first = night(history, "{}");
  expect(first).toMatchObject({ outcomes: ["used"], values: [41], changed: 1 });
  expect(first.messages).toContain("csv-number-comma");
  expect(night(history, "{}")).toMatchObject({ outcomes: ["already-known"], changed: 0 });
  const after = night(history, "decimal: comma\n");
  expect(after).toMatchObject({ outcomes: ["used"], values: [41, 42], changed: 1 });
  expect(after.messages).not.toContain("csv-number-comma");
  expect(night(history, "decimal: comma\n").outcomes).toEqual(["already-known"]);
  history.close();
});

test("a case sheet that is read again stays as old as it is", () => {
  const history = new History(":memory:");
  writeFileSync(join(folder, "a.csv"), "patient_id;height_cm;onset_date\nP1;170;03.02.2020\n");
  night(history, "{}");
  writeFileSync(join(folder, "b.csv"), "patient_id;height_cm\nP1;171\n");
  night(history, "{}");
  expect(night(history, "dates: day-month-year\n").outcomes).toEqual(["used", "already-known"]);
  expect(history.caseRows().map(({ row, night: since }) => [row.heightCm, since])).toEqual(
    expect.arrayContaining([
      [170, 1],
      [171, 2],
    ]),
  );
  history.close();
});
