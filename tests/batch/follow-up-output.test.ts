import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import {
  followUpCsv,
  followUpList,
  readFollowUp,
  writeFollowUp,
} from "../../src/batch/follow-up-output.ts";
import { jsonText, writeOutput } from "../../src/batch/write-output.ts";
import { noSiteConfig } from "../../src/site/site-config.ts";
import { sampleBatch, samplePatientRow } from "../report/sample-batch.ts";
import { assessment } from "../report/sample-criteria.ts";
import { quietPlan, sampleDue, surveillanceOf } from "../report/sample-follow-up.ts";
import { samplePlan } from "../report/sample-plan.ts";

const overdue = quietPlan("TEST-0001", {
  patient: { ...samplePlan.patient, id: "TEST-0001", key: "k0001", name: '=HYPERLINK("x")' },
  assessments: [assessment("invented", { confirmed: false })],
  surveillance: surveillanceOf([
    sampleDue("2025-12-10", "2025-12-10", { statements: ["size stable"] }),
  ]),
});

test("the CSV holds one row for each patient, also without a report, and no formula", () => {
  expect(followUpCsv(followUpList(sampleBatch, [overdue], noSiteConfig.followUp))).toBe(
    [
      "patient_key,patient_id,issuer,name,report,last_exam_date,last_exam_modality,since_last_exam_months,due_earliest_date,due_latest_date,due_imaging,due_sources,due_holds_if,overdue_days,no_due_date,schedules_not_judged,growth_beyond_limits,growth_largest_rate_mm_per_year,growth_not_told_places,size_criteria_met,size_reached_conditions_not_stated,size_nearing_limit,size_projected,no_exam_for_long,reasons",
      `k0001,TEST-0001,Invented Hospital,"'=HYPERLINK(""x"")",yes,2026-01-12,CT,0,2025-12-10,2025-12-10,CT of descending aorta,Northbody 2022,size stable,35,,0,,,0,57.4 mm at mid-descending aorta: Size of the descending thoracic aorta (Northbody 2022 [not confirmed]),,,,,"overdue by 35 days: CT of descending aorta (Northbody 2022), holds if size stable | meets a size criterion: 57.4 mm at mid-descending aorta: Size of the descending thoracic aorta (Northbody 2022 [not confirmed])"`,
      "k0002,TEST-0002,Invented Hospital,,no,,,,,,,,,,,,,,,,,,,,no report: Two files disagree on the birth date of TEST-0002.. Correct one of them and drop it again.",
      "",
    ].join("\r\n"),
  );
});

test("growth stands with its rate in mm per year", () => {
  const [, csvRow = ""] = followUpCsv(
    followUpList({ ...sampleBatch, patients: [] }, [samplePlan], noSiteConfig.followUp),
  ).split("\r\n");
  expect(csvRow).toContain(
    '"proximal descending aorta 4.0 mm per year, exceeds 3 mm per year (Northbody 2022)",4.00,1,',
  );
});

test("thresholds can be those of a site", () => {
  const plan = quietPlan("P1", { exams: samplePlan.exams.slice(0, 1) });
  const lostOf = (lostAfterMonths: number) =>
    followUpList(sampleBatch, [plan], { ...noSiteConfig.followUp, lostAfterMonths }).rows[0]?.lost;
  expect([lostOf(38), lostOf(39)]).toEqual(["no exam for 38 months", null]);
});

test("the files are written for the owner only, and the list is read back from the plans", async () => {
  const out = mkdtempSync(join(tmpdir(), "follow-up-"));
  const patients = [samplePatientRow(1), ...sampleBatch.patients.slice(1, 2)];
  const batch = { ...sampleBatch, patients };
  await writeFollowUp(out, batch, [overdue], { ...noSiteConfig, paper: "Letter" });
  expect(readdirSync(out).toSorted()).toEqual(["follow-up.csv", "follow-up.html"]);
  for (const name of readdirSync(out)) expect(statSync(join(out, name)).mode % 0o100).toBe(0);
  expect(readFileSync(join(out, "follow-up.html"), "utf8")).toContain("size:Letter landscape");
  await writeOutput(out, "patients/k0001/plan.json", jsonText(overdue));
  expect(readFollowUp(out, batch, noSiteConfig.followUp)).toEqual(
    followUpList(batch, [overdue], noSiteConfig.followUp),
  );
  rmSync(out, { recursive: true });
});
