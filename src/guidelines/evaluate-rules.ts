import { sentenceCase } from "../quantities/sentence-case.ts";
import type { PatientCase } from "../cases/patient-case.ts";
import { type Assessment, assessmentOf, type Finding, findingWithoutSize } from "./assessment.ts";
import { judgeAnySize } from "./judge-any-size.ts";
import { judgePart, type RuleContext } from "./judge-part.ts";
import { populationOutcome } from "./population.ts";
import { hasLimit, isGrowthRule, type Rule } from "./rule.ts";
import { partsOf, partsWithAneurysm } from "./rule-places.ts";
import { usableDiameters } from "./usable-diameters.ts";

/**
 * Applies every criterion on sizes, and every one that holds at any size, to a patient: one assessment for each rule and
 * part of the aorta, in the order of the rule ids. Growth criteria are left out. `asOf` is YYYY-MM-DD; later exams do not count. `readingSdMmOf`
 * gives the standard deviation of a reading in mm, null where none is known. A rule that fails says so; the others go on.
 */
export function evaluateRules(
  patientCase: PatientCase,
  rules: readonly Rule[],
  { asOf, readingSdMmOf }: Pick<RuleContext, "asOf" | "readingSdMmOf">,
): Assessment[] {
  const diameters = usableDiameters(patientCase, asOf);
  const context: RuleContext = { patientCase, diameters, asOf, readingSdMmOf };
  return rules
    .filter((rule) => !isGrowthRule(rule))
    .toSorted((a, b) => (a.id < b.id ? -1 : 1))
    .flatMap((rule) => findingsOf(rule, context).map((finding) => assessmentOf(rule, finding)));
}

function findingsOf(rule: Rule, context: RuleContext): Finding[] {
  try {
    const population = populationOutcome(rule, context.patientCase, context.asOf);
    if ("unknown" in population) {
      const names = population.unknown.join(", ");
      const reason = `Whether the criterion speaks of this patient is not known: ${names} not stated.`;
      return [findingWithoutSize("not-assessable", reason, population.unknown)];
    }
    if (!population.applies) {
      const reason = `${sentenceCase(population.reason)}.`;
      return [findingWithoutSize("not-applicable", reason)];
    }
    if (hasLimit(rule)) return partsOf(rule).map((part) => judgePart(rule, part, context));
    const { patientCase, asOf } = context;
    return partsWithAneurysm(rule, patientCase.facts).map((part) =>
      judgeAnySize(rule, part, patientCase, asOf),
    );
  } catch (error) {
    const words = error instanceof Error ? error.message : String(error);
    return [findingWithoutSize("rule-failed", `The rule could not be applied: ${words}.`)];
  }
}
