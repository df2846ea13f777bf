import { expect, test } from "vitest";
import { loadRules } from "../../src/guidelines/load-rules.ts";
import { openStatements } from "../../src/guidelines/statements.ts";
import { asOf, inventedCase } from "./invented-case.ts";

const rules = loadRules();
const openFor = (id: string, ...given: Parameters<typeof inventedCase>) => {
  const rule = rules.find((one) => one.id === id);
  if (!rule) throw new Error(`no rule ${id}`);
  return openStatements(rule, inventedCase(...given), asOf);
};
const bicuspid = "eacts-sts-2024-bicuspid-ascending-50-mm-with-risk-factor";

test("a rule without statements leaves nothing open", () => {
  expect(openFor("esc-2024-descending-55-mm", [])).toEqual([]);
});

test("factors that the sheet denies are left out of the question", () => {
  expect(openFor(bicuspid, [], { heightCm: 170 })).toEqual([
    "any one of: ascending length above 11 cm; growth above 3 mm per year; family history of aortic dissection; coarctation; resistant hypertension",
  ]);
});

test.each([
  [{ heightCm: 168.9 }, {}],
  [{ diagnoses: ["aneurysm", "coarctation"] }, {}],
  [{}, { birthDate: "1976-06-02" }],
])("a factor that the sheet states is enough: %o %o", (facts, patient) => {
  expect(openFor(bicuspid, [], facts, patient)).toEqual([]);
});

test.each([
  [{ heightCm: null }, {}, "height below 1.69 m"],
  [{}, { birthDate: null }, "age below 50 years"],
])("a fact that is missing stays in the question: %o %o", (facts, patient, factor) => {
  expect(openFor(bicuspid, [], facts, patient)[0]).toContain(factor);
});

test.each([
  [149.9, false],
  [150, true],
  [169, true],
  [169.1, false],
])("a height of %d cm in a range of 1.50 to 1.69 m: %s", (heightCm, isIn) => {
  const open = openFor("esc-2024-bicuspid-ascending-50-mm-with-risk-factor", [], { heightCm });
  expect(open.length === 2).toBe(isIn);
});

test("every word that the sheet can answer stands in a rule, and only women are asked for a pregnancy", () => {
  const factors = new Set(rules.flatMap(({ population }) => population.statementsAnyOf ?? []));
  const answered = [
    "age below 50 years",
    "height below 1.69 m",
    "height of 1.50 to 1.69 m",
    "wish for pregnancy",
    "woman of small body size",
    "coarctation",
  ];
  for (const factor of answered) expect([...factors], factor).toContain(factor);
  const turner = "esc-2024-turner-size-index-2-3-with-risk-factor";
  const tgfbr2 = "acc-aha-2022-loeys-dietz-tgfbr2-40-mm-with-high-risk-feature";
  const questions = (id: string, sex: "F" | "M") => openFor(id, [], {}, { sex })[0];
  expect(questions(turner, "F")).toContain("pregnancy");
  expect(questions(turner, "M")).not.toContain("pregnancy");
  expect(questions(tgfbr2, "F")).toContain("small body size");
  expect(questions(tgfbr2, "M")).not.toContain("small body size");
});
