import type { CaseFacts } from "../cases/patient-case.ts";
import type { Rule } from "./rule.ts";
import { partsOf } from "./rule-places.ts";

/**
 * Whether the stated symptoms come from an aneurysm of the parts that a rule speaks of: "yes" where no other diagnosis
 * is stated that may cause them, "none" where there are no symptoms; null where it is not known.
 */
export function symptomsFromParts(
  rule: Rule,
  { symptoms, diagnoses }: CaseFacts,
): "yes" | "none" | null {
  if (symptoms === null) return null;
  if (symptoms.length === 0) return "none";
  const ofRule = new Set<string | null>(partsOf(rule).map(({ aneurysm }) => aneurysm));
  const isAlone = diagnoses !== null && diagnoses.length > 0;
  return isAlone && diagnoses.every((word) => ofRule.has(word)) ? "yes" : null;
}
