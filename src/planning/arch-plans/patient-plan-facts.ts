import { placeById } from "../../anatomy/places.ts";
import { type FindingId, isHeritable } from "../../cases/vocabulary.ts";
import { ageInYears } from "../../quantities/age-in-years.ts";
import { sentenceCase } from "../../quantities/sentence-case.ts";
import { dependantsOf } from "../branch-dependants.ts";
import { findingPhrase, latestFinding } from "../latest-finding.ts";
import type { PlanContext } from "./plan-context.ts";

/** A fact beside a plan: of the patient, or published; `confirmed` is false where a published text was not seen in print. */
export interface PlanFact {
  of: "patient" | "publication";
  text: string;
  source: string;
  confirmed: boolean;
}

const supraAortic = [
  "innominate-artery",
  "right-common-carotid-artery",
  "right-subclavian-artery",
  "left-common-carotid-artery",
  "left-subclavian-artery",
  "aberrant-right-subclavian-artery",
  "left-vertebral-artery",
  "right-vertebral-artery",
  "common-origin-innominate-left-carotid",
] as const;

/** Causes that the class 1 advice on stent grafting leaves out by name. */
const excludedByName = (aetiology: string): boolean =>
  aetiology === "Marfan" ||
  aetiology === "vascular Ehlers-Danlos" ||
  aetiology.startsWith("Loeys-Dietz");

const ofPatient = (text: string, source: string): PlanFact => ({
  of: "patient",
  text,
  source,
  confirmed: true,
});

/** What a meeting knows of the patient beside every plan. */
export interface PatientPlanFacts {
  facts: PlanFact[];
  /** In words: arch branches that are narrowed, closed, calcified or dissected. */
  diseasedBranches: string[];
  /** What would be a fact and is not stated. */
  missing: string[];
}

/** The facts of the patient that stand beside every plan. */
export function patientPlanFacts(context: PlanContext): PatientPlanFacts {
  const { patientCase, asOf } = context;
  const { patient } = patientCase;
  const { aetiology, priorRepairs } = patientCase.facts;
  const missing = [
    ...(patient.birthDate === null ? ["birth date"] : []),
    ...(aetiology === null ? ["aetiology"] : []),
    ...(priorRepairs === null ? ["prior repair (or none)"] : []),
  ];
  const told: PlanFact[] = [];
  if (patient.birthDate !== null) {
    const age = ageInYears(patient.birthDate, asOf);
    told.push(
      ofPatient(
        `Age ${age} on ${asOf}. No source seen gives an age below which a patient counts as young.`,
        "birth date",
      ),
    );
  }
  if (aetiology !== null && isHeritable(aetiology)) {
    told.push(ofPatient(heritableWords(aetiology), "case sheet"));
  }
  for (const { words } of priorRepairs ?? []) {
    told.push(ofPatient(`Prior repair: ${words}.`, "case sheet"));
  }
  const diseasedBranches = diseaseOfBranches(context);
  const findings = [...diseasedBranches, ...suppliesOf(context)].map((text) =>
    ofPatient(`${sentenceCase(text)}.`, "findings"),
  );
  return {
    facts: [...told, ...findings, ...malperfusionFacts(context)],
    diseasedBranches,
    missing,
  };
}

function heritableWords(aetiology: string): string {
  const named = "Marfan, Loeys-Dietz and vascular Ehlers-Danlos syndrome";
  return excludedByName(aetiology)
    ? `${aetiology}: the class 1 advice on stent grafting (ACC/AHA 2022) leaves out ${named}.`
    : `${aetiology}: a heritable disease; the class 1 advice on stent grafting (ACC/AHA 2022) leaves out ${named} and does not name it.`;
}

/** Of each arch branch by the latest exam that speaks of it. */
function diseaseOfBranches({ patientCase, asOf }: PlanContext): string[] {
  return supraAortic.flatMap((id) => {
    const { label } = placeById(id);
    return findingsOfDisease.flatMap(({ finding, sound, words }) => {
      const found = latestFinding(patientCase, asOf, finding, id);
      const isSound = found.states.length === 0 || found.state === sound;
      return isSound ? [] : [`${label}${words} ${findingPhrase(found)}`];
    });
  });
}

const findingsOfDisease = [
  { finding: "patency", sound: "patent", words: "" },
  { finding: "wall calcium", sound: "absent", words: ", calcium of its wall:" },
  { finding: "dissection", sound: "absent", words: ", dissection" },
  { finding: "fed by", sound: "true lumen", words: ", fed by" },
] as const satisfies readonly { finding: FindingId; sound: string; words: string }[];

function suppliesOf({ patientCase, asOf }: PlanContext): string[] {
  return supraAortic.flatMap((id) => {
    const { names, words } = dependantsOf(patientCase, asOf, id);
    return names.length === 0 ? [] : [`${placeById(id).label}, supplies ${words}`];
  });
}

function malperfusionFacts({ dissection }: PlanContext): PlanFact[] {
  return (dissection?.malperfusion ?? [])
    .filter(({ state }) => state !== "absent")
    .map(({ territory, state }) =>
      ofPatient(`Malperfusion, ${territory}: ${state}.`, "case sheet and findings"),
    );
}
