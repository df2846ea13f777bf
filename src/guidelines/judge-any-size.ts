import type { PatientCase } from "../cases/patient-case.ts";
import { type Finding, findingWithoutSize } from "./assessment.ts";
import { statedRepairs } from "./judge-part.ts";
import { repairState } from "./repair-state.ts";
import type { Rule } from "./rule.ts";
import type { RulePart } from "./rule-places.ts";
import { openStatements, trueFactors } from "./statements.ts";

/**
 * Applies a criterion that holds at any size to one part of the aorta; the population is known to fit. No measurement is
 * used. The part is named where the sheet states symptoms that the criterion asks for, or where it is met.
 */
export function judgeAnySize(
  rule: Rule,
  part: RulePart,
  patientCase: PatientCase,
  asOf: string,
): Finding {
  const { facts } = patientCase;
  if (part.range === null) throw new Error(`${part.label} is no part that an aneurysm is named of`);
  const repairs = statedRepairs(facts);
  if ("outcome" in repairs) return repairs;
  const state = repairState(part.range, repairs);
  if (state === "repaired") {
    return findingWithoutSize("not-applicable", `The part is repaired: ${part.label}.`);
  }
  if (state !== "native") {
    const missing = `whether the aneurysm was repaired: ${part.label}`;
    return findingWithoutSize("not-assessable", "Part of the aorta was repaired.", [missing]);
  }
  const symptoms = rule.population.symptoms === undefined ? [] : (facts.symptoms ?? []);
  const stated = [...symptoms, ...trueFactors(rule, patientCase, asOf)];
  const words = stated.length === 0 ? "" : `Stated: ${stated.join("; ")}. `;
  const open = openStatements(rule, patientCase, asOf);
  if (open.length > 0) {
    const reason = `${words}The criterion holds at any size; the other conditions are not stated.`;
    const about = symptoms.length === 0 ? null : part.range;
    return { ...findingWithoutSize("not-assessable", reason, open), about };
  }
  const reason = `${words}The criterion holds at any size.`;
  return { ...findingWithoutSize("met", reason), about: part.range };
}
