import { evaluateRules } from "../../src/guidelines/evaluate-rules.ts";
import { populationOutcome } from "../../src/guidelines/population.ts";
import { hasLimit, type Rule } from "../../src/guidelines/rule.ts";
import { sizeAnswer } from "../../src/guidelines/size-limit.ts";
import { type GrowthRuleRow, growthRuleRows } from "./growth-rule-rows.ts";
import { asOf, inventedCase } from "./invented-case.ts";
import { type FactName, type PatientName, patients, withoutFact } from "./patients.ts";
import { type AnySizeRow, anySizeRows, type BelowRow, belowRows } from "./small-size-rows.ts";
import { bandEnds, type SizeRuleRow, sizeRuleRows } from "./size-rule-rows.ts";

/** The five kinds of case that every criterion with a limit has. */
export const caseKinds = [
  "met",
  "not met",
  "not applicable",
  "not assessable",
  "on the limit",
] as const;

/** Those of a criterion that holds at any size: no size can miss it. */
export const caseKindsOfAnySize = ["met", "not applicable", "not assessable"] as const;

/** One case of a criterion: what a rule makes of it, in words, and what the rule that ships must make of it. */
export interface RuleCase {
  kind: (typeof caseKinds)[number];
  words: string;
  expected: string;
  found: (rule: Rule) => string;
}

function patientCase(name: PatientName, place: string, mm: number, without?: FactName) {
  const { facts, patient = {} } = { patient: undefined, ...patients[name] };
  const blank = without === undefined ? { facts: {} } : withoutFact[without];
  return inventedCase(
    [{ place, mm }],
    { ...facts, ...blank.facts },
    { ...patient, ...("patient" in blank ? blank.patient : {}) },
  );
}

/** "met at zone-4", "not-assessable, missing sex": the assessment of the part that was measured, or the only one. */
function assess(rule: Rule, one: ReturnType<typeof patientCase>): string {
  const found = evaluateRules(one, [rule], { asOf, readingSdMmOf: () => null });
  const judged = found.find(({ about }) => about !== null) ?? found[0];
  if (!judged) throw new Error(`no assessment by ${rule.id}`);
  const { outcome, about, missing } = judged;
  if (about !== null) return `${outcome} at ${about.id}${missing.length > 0 ? ", open" : ""}`;
  return missing.length > 0 ? `${outcome}, missing ${missing.join(" and ")}` : outcome;
}

/** The rule where all the conditions that no sheet states are true. */
function withConditionsTrue(rule: Rule): Rule {
  const { statements: _, statementsAnyOf: __, ...population } = rule.population;
  return { ...rule, population };
}

function sizeCases(row: SizeRuleRow): RuleCase[] {
  const { patient, place, below, on, above, outcomeOn, outcomeAbove, notFor, fact } = row;
  const at = (mm: number) => (rule: Rule) => assess(rule, patientCase(patient, place, mm));
  const answered = (mm: number) => (rule: Rule) => at(mm)(withConditionsTrue(rule));
  const isOpen = (outcome: string) => outcome === "not-assessable";
  const words = (outcome: string) => `${outcome} at ${place}${isOpen(outcome) ? ", open" : ""}`;
  const onLimit = { kind: "on the limit", words: `${on} mm` } as const;
  const cases: RuleCase[] = [
    { kind: "not met", words: `${below} mm`, expected: words("not-met"), found: at(below) },
    { ...onLimit, expected: words(outcomeOn), found: at(on) },
    {
      ...onLimit,
      words: `${on} mm, all conditions true`,
      expected: words(isOpen(outcomeOn) ? "met" : outcomeOn),
      found: answered(on),
    },
    {
      kind: isOpen(outcomeAbove) ? "not assessable" : "met",
      words: `${above} mm`,
      expected: words(outcomeAbove),
      found: at(above),
    },
    {
      kind: "met",
      words: `${above} mm, all conditions true`,
      expected: words("met"),
      found: answered(above),
    },
    {
      kind: "not applicable",
      words: `${above} mm, ${notFor}`,
      expected: "not-applicable",
      found: (rule) => assess(rule, patientCase(notFor, place, above)),
    },
    {
      kind: "not assessable",
      words: `${above} mm without ${fact}`,
      expected: `not-assessable, missing ${fact}`,
      found: (rule) => assess(rule, patientCase(patient, place, above, fact)),
    },
  ];
  const end = bandEnds[row.rule];
  if (end === undefined) return cases;
  const inside = Number((end - 0.1).toFixed(1));
  const band = (mm: number, outcome: string): RuleCase => ({
    kind: "on the limit",
    words: `${mm} mm at the end of the band, all conditions true`,
    expected: words(outcome),
    found: answered(mm),
  });
  return [...cases, band(inside, "met"), band(end, "not-met")];
}

function growthCases(row: GrowthRuleRow): RuleCase[] {
  const { patient, below, on, above, answerOn, notFor, fact } = row;
  const grows = (mm: number) => (rule: Rule) =>
    hasLimit(rule) ? sizeAnswer(mm, rule.check) : "no limit";
  const speaksTo = (who: PatientName, without?: FactName) => (rule: Rule) => {
    const outcome = populationOutcome(rule, patientCase(who, "zone-9", 40, without), asOf);
    if ("unknown" in outcome) return `missing ${outcome.unknown.join(" and ")}`;
    return outcome.applies ? "applies" : "does not apply";
  };
  return [
    { kind: "not met", words: `${below} mm`, expected: "below", found: grows(below) },
    { kind: "on the limit", words: `${on} mm`, expected: answerOn, found: grows(on) },
    { kind: "met", words: `${above} mm`, expected: "met", found: grows(above) },
    { kind: "met", words: patient, expected: "applies", found: speaksTo(patient) },
    { kind: "not applicable", words: notFor, expected: "does not apply", found: speaksTo(notFor) },
    {
      kind: "not assessable",
      words: `${patient} without ${fact}`,
      expected: `missing ${fact}`,
      found: speaksTo(patient, fact),
    },
  ];
}

/** The cases that do not turn on a size: of a patient who has one of so many mm. */
function anySizeCases(row: AnySizeRow, mm = 30): RuleCase[] {
  const { patient, place, expected, notFor, fact } = row;
  const of = (who: PatientName, without?: FactName) => (rule: Rule) =>
    assess(rule, patientCase(who, place, mm, without));
  return [
    {
      kind: expected.startsWith("met") ? "met" : "not assessable",
      words: patient,
      expected,
      found: of(patient),
    },
    {
      kind: "met",
      words: `${patient}, all conditions true`,
      expected: `met at ${place}`,
      found: (rule) => of(patient)(withConditionsTrue(rule)),
    },
    {
      kind: "not applicable",
      words: notFor,
      expected: "not-applicable",
      found: of(notFor),
    },
    {
      kind: "not assessable",
      words: `${patient} without ${fact}`,
      expected: `not-assessable, missing ${fact}`,
      found: of(patient, fact),
    },
  ];
}

function belowCases(row: BelowRow): RuleCase[] {
  const { patient, place, below, on, above } = row;
  const missed = (kind: RuleCase["kind"], mm: number): RuleCase => ({
    kind,
    words: `${mm} mm, all conditions true`,
    expected: `not-met at ${place}`,
    found: (rule) => assess(withConditionsTrue(rule), patientCase(patient, place, mm)),
  });
  return [...anySizeCases(row, below), missed("on the limit", on), missed("not met", above)];
}

/** The cases of each criterion, by rule id. */
export const casesOfRules: ReadonlyMap<string, RuleCase[]> = new Map([
  ...sizeRuleRows.map((row) => [row.rule, sizeCases(row)] as const),
  ...anySizeRows.map((row) => [row.rule, anySizeCases(row)] as const),
  ...belowRows.map((row) => [row.rule, belowCases(row)] as const),
  ...growthRuleRows.map((row) => [row.rule, growthCases(row)] as const),
]);
