import { describe, expect, test } from "vitest";
import { buildDictionary } from "../../src/anatomy/dictionary.ts";
import { buildCases } from "../../src/cases/build-cases.ts";
import { loadRules } from "../../src/guidelines/load-rules.ts";
import { buildPlan } from "../../src/report/build-plan.ts";
import { planSchema } from "../../src/report/plan.ts";
import { noSiteConfig, type SiteConfig } from "../../src/site/site-config.ts";
import { sampleCaseRow, sampleDocument, sampleReading } from "../cases/sample-documents.ts";

const asOf = "2026-01-15";
const rules = loadRules();

function planOf(site: Partial<SiteConfig>, part = "descending thoracic") {
  const readings = [
    sampleReading(`${part} aorta`, "57"),
    sampleReading("zone 3", "32", { edge: "inner" }),
    sampleReading("zone 3", "28", { edge: "inner", statistic: "minimum" }, "the smallest"),
  ];
  const row = sampleCaseRow({
    birthDate: "1954-02-01",
    diagnosis: `${part} aneurysm`,
    aetiology: "degenerative",
    priorRepair: "none",
  });
  const { cases } = buildCases([sampleDocument("2026-01-12", readings)], [{ row, night: 1 }], {
    asOf,
    issuer: null,
    dictionary: buildDictionary({ codes: {}, words: {} }),
    scanPosition: null,
    neighbourStepMm: 25,
    reportMessages: new Map(),
    identities: [],
  });
  const [patientCase] = cases;
  if (!patientCase) throw new Error("the invented case was not built");
  const basis = {
    asOf,
    version: "1",
    rules,
    rulesDigest: "d",
    hiddenRules: [],
    schedules: [],
    readingErrorEstimates: [],
    inventory: null,
    site: { ...noSiteConfig, ...site },
  };
  return buildPlan(patientCase, basis);
}

const esc55 = (plan: ReturnType<typeof planOf>) =>
  plan.assessments.find(({ rule }) => rule === "esc-2024-descending-55-mm")?.value;

describe("buildPlan", () => {
  test("gives a plan of the published schema, plain JSON, with the age at the as-of date", () => {
    const plan = planOf({});
    expect(planSchema.parse(plan)).toEqual(plan);
    expect(JSON.parse(JSON.stringify(plan))).toEqual(plan);
    expect(plan.patient.ageYears).toBe(71);
  });

  test("without a reading error of the site the published range stands, with its cautious end", () => {
    expect(esc55(planOf({}))).toEqual({
      value: 57,
      low: 57 - 1.96 * 1.9,
      high: 57 + 1.96 * 1.9,
      unit: "mm",
    });
  });

  test("the site's reading error of the method goes into criteria and landing options", () => {
    const plan = planOf({
      readingErrors: [
        { sdMm: 1, source: "invented", appliesTo: {} },
        { sdMm: 0.5, source: "invented", appliesTo: { edge: "inner" } },
      ],
    });
    expect(esc55(plan)).toMatchObject({ low: 57 - 1.96, high: 57 + 1.96 });
    const check = plan.options[3]?.checks.find(({ id }) => id === "diameter-40");
    expect(check?.value).toMatchObject({ value: 32, low: 32 - 0.98, high: 32 + 0.98 });
  });

  test("the preferred body stands first where sources differ", () => {
    const [disagreement] = planOf(
      { preferredGuideline: "EACTS/STS" },
      "thoraco-abdominal",
    ).disagreements;
    expect(disagreement?.statements.map(({ body }) => body)).toEqual([
      "EACTS/STS",
      "ACC/AHA",
      "ESC",
    ]);
  });
});
