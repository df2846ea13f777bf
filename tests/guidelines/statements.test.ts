import { expect, test } from "vitest";
import { loadRules } from "../../src/guidelines/load-rules.ts";
import type { CaseFacts } from "../../src/cases/patient-case.ts";
import { answeredStatements, answerTo } from "../../src/guidelines/statement-answers.ts";
import { openStatements, trueFactors } from "../../src/guidelines/statements.ts";
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

test("every statement that the sheet can answer stands in a rule", () => {
  const stated = new Set(
    rules.flatMap(({ population: { statements = [], statementsAnyOf = [] } }) => [
      ...statements,
      ...statementsAnyOf,
    ]),
  );
  expect(answeredStatements.filter((statement) => !stated.has(statement))).toEqual([]);
});

const dissected = { familyEvents: ["aortic dissection"] } satisfies Partial<CaseFacts>;
const died = { familyEvents: ["sudden death"] } satisfies Partial<CaseFacts>;
const nobody = { familyEvents: [] } satisfies Partial<CaseFacts>;
const hoarse = { diagnoses: ["arch aneurysm"], symptoms: ["hoarseness"] };

/** Of a rule on the arch, for a man with a degenerative aneurysm unless said otherwise. */
test.each([
  ["family history of aortic dissection", dissected, true],
  ["family history of aortic dissection", died, null],
  ["family history of aortic dissection", nobody, false],
  ["family history of aortic dissection", {}, null],
  ["family history of acute aortic syndrome", dissected, true],
  ["family history of aortic dissection, above all young or at a small diameter", dissected, true],
  ["family history", dissected, true],
  ["family history", died, null],
  ["family history", nobody, false],
  ["dissection in the family below 50 mm", dissected, null],
  ["dissection in the family below 50 mm", nobody, false],
  ["dissection in the family below 5.0 cm", dissected, null],
  ["dissection in the family below 5.0 cm", nobody, false],
  ["unexplained sudden death in the family before 50 years", died, null],
  ["unexplained sudden death in the family before 50 years", nobody, false],
  ["no risk factor for dissection beside the valve", dissected, false],
  ["no risk factor for dissection beside the valve", nobody, null],
  ["symptoms from the aneurysm", {}, null],
  ["symptoms from the aneurysm", hoarse, true],
  ["symptoms from the aneurysm", { ...hoarse, diagnoses: ["abdominal aneurysm"] }, null],
  ["symptoms from the aneurysm", { ...hoarse, diagnoses: null }, null],
  ["symptoms from the aneurysm", { symptoms: [] }, false],
  ["no symptoms from the aneurysm", {}, null],
  ["no symptoms from the aneurysm", hoarse, false],
  ["no symptoms from the aneurysm", { ...hoarse, diagnoses: ["aneurysm"] }, null],
  ["no symptoms from the aneurysm", { symptoms: [] }, true],
  ["heritable aortic disease", {}, false],
  ["heritable aortic disease", { aetiology: "bicuspid valve" }, false],
  ["heritable aortic disease", { aetiology: "ACTA2" }, true],
  ["heritable aortic disease", { aetiology: null }, null],
  ["female sex", {}, false],
  ["a statement that no sheet answers", {}, null],
])("%s, with %o: %j", (statement, facts, answer) => {
  const rule = rules.find(({ id }) => id === "acc-aha-2022-arch-55-mm");
  if (!rule) throw new Error("no rule");
  expect(answerTo(statement, rule, inventedCase([], facts), asOf)).toBe(answer);
});

test("a statement that must be true leaves the question where the sheet says so", () => {
  expect(openFor("eacts-sts-2024-arch-55-mm", [], { symptoms: [] })).toEqual([
    "isolated arch aneurysm",
  ]);
});

test("the factors that the sheet states are named", () => {
  const rule = rules.find(({ id }) => id === bicuspid);
  if (!rule) throw new Error("no rule");
  const one = inventedCase([], { ...dissected, heightCm: 160 });
  expect(trueFactors(rule, one, asOf)).toEqual([
    "height below 1.69 m",
    "family history of aortic dissection",
  ]);
});

test("only women are asked for a pregnancy or a small body", () => {
  const turner = "esc-2024-turner-size-index-2-3-with-risk-factor";
  const tgfbr2 = "acc-aha-2022-loeys-dietz-tgfbr2-40-mm-with-high-risk-feature";
  const questions = (id: string, sex: "F" | "M") => openFor(id, [], {}, { sex })[0];
  expect(questions(turner, "F")).toContain("pregnancy");
  expect(questions(turner, "M")).not.toContain("pregnancy");
  expect(questions(tgfbr2, "F")).toContain("small body size");
  expect(questions(tgfbr2, "M")).not.toContain("small body size");
});
