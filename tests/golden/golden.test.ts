import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { describe, expect, test } from "vitest";
import { takeIn } from "../../src/batch/intake.ts";
import { History } from "../../src/history/history.ts";
import { buildPlan } from "../../src/report/build-plan.ts";
import { planHtml } from "../../src/report/pages/plan-page.ts";
import { summaryHtml } from "../../src/report/pages/summary-page.ts";
import { planSchema } from "../../src/report/plan.ts";
import { demoBasis } from "../demo-basis.ts";

const { asOf, site } = demoBasis;
const history = new History(":memory:");
const { cases } = takeIn("fixtures/demo/inbox", history, { asOf, site, onFile: () => {} });
history.close();

/** Invented cases for what an aorta can be besides whole and usual: see the sheets in the folder. */
const anatomyHistory = new History(":memory:");
const { cases: anatomyCases } = takeIn("fixtures/anatomy", anatomyHistory, {
  asOf,
  site,
  onFile: () => {},
});
anatomyHistory.close();

/** Compares with the stored text, or writes it where UPDATE_GOLDEN is set. */
function expectGolden(name: string, text: string): void {
  const path = `tests/golden/${name}`;
  if (process.env["UPDATE_GOLDEN"]) {
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text);
  }
  expect(existsSync(path), `${path} is missing; run npm run golden and read it`).toBe(true);
  expect(text).toBe(readFileSync(path, "utf8"));
}

/** A page without its fonts and style sheet, which have their own tests. */
const body = (html: string): string =>
  html.replaceAll(/<style[\s\S]*?<\/style>/g, "").replaceAll(/[ \t]+\n/g, "\n");

describe("golden reports of the demo", () => {
  test("every patient of the demo with a report is here", () => {
    expect(cases.map(({ patient }) => patient.id).toSorted()).toEqual(
      ["001", "002", "003", "004", "005", "006", "007", "008", "009", "011", "012"].map(
        (number) => `DEMO-${number}`,
      ),
    );
  });

  test.each(cases.map((patientCase) => [patientCase.patient.id, patientCase] as const))(
    "%s",
    (id, patientCase) => {
      const plan = buildPlan(patientCase, demoBasis);
      expect(planSchema.parse(plan)).toEqual(plan);
      expect(JSON.parse(JSON.stringify(plan))).toEqual(plan);
      expectGolden(`${id}.plan.json`, `${JSON.stringify(plan, null, 1)}\n`);
    },
  );

  test.each(["DEMO-001", "DEMO-005"])("pages of %s", (id) => {
    const patientCase = cases.find(({ patient }) => patient.id === id);
    if (!patientCase) throw new Error(`no case ${id}`);
    const plan = buildPlan(patientCase, demoBasis);
    expectGolden(`${id}.plan.html`, body(planHtml(plan)));
    expectGolden(`${id}.summary.html`, body(summaryHtml(plan)));
  });
});

describe("golden reports of the anatomy cases", () => {
  const caseOf = (id: string) => {
    const found = anatomyCases.find(({ patient }) => patient.id === id);
    if (!found) throw new Error(`no case ${id}`);
    return found;
  };

  test.each([
    ["ANATOMY-1", "a common origin of the innominate and left common carotid arteries"],
    ["ANATOMY-2", "an aberrant right subclavian artery"],
    ["ANATOMY-3", "a replaced ascending aorta with residual dissection of the arch"],
    ["ANATOMY-4", "a thoraco-abdominal aneurysm beyond a stent graft"],
    ["ANATOMY-5", "an infrarenal aneurysm only"],
  ])("%s: %s", (id) => {
    const plan = buildPlan(caseOf(id), demoBasis);
    expect(planSchema.parse(plan)).toEqual(plan);
    expectGolden(`${id}.plan.json`, `${JSON.stringify(plan, null, 1)}\n`);
  });

  test("the page of the residual dissection", () => {
    expectGolden("ANATOMY-3.plan.html", body(planHtml(buildPlan(caseOf("ANATOMY-3"), demoBasis))));
  });
});
