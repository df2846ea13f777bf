import type { CaseFacts, PatientCase } from "../cases/patient-case.ts";
import { type FamilyEvent, isHeritable } from "../cases/vocabulary.ts";
import { ageInYears } from "../quantities/age-in-years.ts";
import type { Rule } from "./rule.ts";
import { symptomsFromParts } from "./symptoms.ts";

/** True, false, or null where the case sheet does not say. */
type Answer = boolean | null;
type AnswerOf = (patientCase: PatientCase, asOf: string, rule: Rule) => Answer;

/** True where the sheet names the event in the family; one that it does not name may have happened, unless it says "none". */
const familyEvent =
  (event: FamilyEvent): AnswerOf =>
  ({ facts: { familyEvents } }) =>
    familyEvents?.includes(event) ? true : noFamilyEvent(familyEvents);
/** For an event of which the sheet does not hold the details: only "none" answers. */
const familyDetail: AnswerOf = ({ facts }) => noFamilyEvent(facts.familyEvents);
const noFamilyEvent = (events: CaseFacts["familyEvents"]): Answer =>
  events?.length === 0 ? false : null;

/** The statements of rules that the case sheet can answer after all, by their words. */
const answers: Readonly<Record<string, AnswerOf>> = {
  "age below 50 years": ({ patient }, asOf) =>
    patient.birthDate === null ? null : ageInYears(patient.birthDate, asOf) < 50,
  "height below 1.69 m": ({ facts }) => (facts.heightCm === null ? null : facts.heightCm < 169),
  "height of 1.50 to 1.69 m": ({ facts }) =>
    facts.heightCm === null ? null : facts.heightCm >= 150 && facts.heightCm <= 169,
  "wish for pregnancy": ({ patient }) => (patient.sex === "M" ? false : null),
  "woman of small body size": ({ patient }) => (patient.sex === "M" ? false : null),
  "female sex": ({ patient: { sex } }) => (sex === "F" || sex === "M" ? sex === "F" : null),
  // A sheet that names no coarctation does not say that there is none.
  coarctation: ({ facts }) => (facts.diagnoses?.includes("coarctation") ? true : null),
  "heritable aortic disease": ({ facts: { aetiology } }) =>
    aetiology === null ? null : isHeritable(aetiology),
  "symptoms from the aneurysm": ({ facts }, _, rule) => {
    const symptoms = symptomsFromParts(rule, facts);
    return symptoms === null ? null : symptoms === "yes";
  },
  "no symptoms from the aneurysm": ({ facts }, _, rule) => {
    const symptoms = symptomsFromParts(rule, facts);
    return symptoms === null ? null : symptoms === "none";
  },
  "family history of aortic dissection": familyEvent("aortic dissection"),
  "family history of acute aortic syndrome": familyEvent("aortic dissection"),
  // "Above all" is no further condition.
  "family history of aortic dissection, above all young or at a small diameter":
    familyEvent("aortic dissection"),
  // The sources do not say of what: a dissection counts whichever is meant.
  "family history": familyEvent("aortic dissection"),
  "dissection in the family below 50 mm": familyDetail,
  "dissection in the family below 5.0 cm": familyDetail,
  "unexplained sudden death in the family before 50 years": familyDetail,
  "no risk factor for dissection beside the valve": ({ facts }) =>
    facts.familyEvents?.includes("aortic dissection") ? false : null,
};

/** The statements that have an answer. */
export const answeredStatements: readonly string[] = Object.keys(answers);

/** What the case sheet says of a statement of a rule; null where it says nothing or holds no such fact. `asOf` is YYYY-MM-DD. */
export function answerTo(
  statement: string,
  rule: Rule,
  patientCase: PatientCase,
  asOf: string,
): Answer {
  return answers[statement]?.(patientCase, asOf, rule) ?? null;
}
