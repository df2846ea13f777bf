import type { ArchVariantId } from "../../anatomy/arch-variants.ts";
import { placeById, placeTable } from "../../anatomy/places.ts";
import { zonesAround } from "../../anatomy/zones-around.ts";
import { archOf } from "../../cases/arch.ts";
import { type Dissection, dissectionOf } from "../../cases/dissection.ts";
import type { DissectionExtent } from "../../cases/dissection-extent.ts";
import { zoneWords } from "../../cases/dissection-notation.ts";
import type { Exam, Finding, PatientCase } from "../../cases/patient-case.ts";
import { dissections } from "../../cases/vocabulary.ts";
import { wallAt } from "../../cases/wall.ts";
import type { Prompt } from "./prompt.ts";
import { isDominanceKnown } from "../known-dominance.ts";
import { asksDominance, dominanceQuestion } from "./prompts-brain.ts";
import { type ComputedFacts, operationPrompts } from "./prompts-operation.ts";

/**
 * Questions that facts of the case raise, at most one of a kind; `asOf` is YYYY-MM-DD. All are common practice without
 * a source unless one is named. Questions on an operation are raised only where one is in sight; `computed` brings facts
 * that were computed elsewhere.
 */
export function promptsOf(
  patientCase: PatientCase,
  asOf: string,
  computed: ComputedFacts = {},
): Prompt[] {
  const last = patientCase.exams.at(-1);
  const dissection = dissectionOf(patientCase, asOf);
  const ofExam = last ? examPrompts(last, patientCase) : [];
  const ofOperation = operationPrompts(patientCase, { asOf, dissection, computed });
  const ofArch = archPrompts(patientCase, { asOf, dissection });
  return [
    ...ofExam,
    ...(ofOperation.some(asksDominance) ? ofArch.filter((one) => !asksDominance(one)) : ofArch),
    ...(dissection ? dissectionPrompts(patientCase, dissection) : []),
    ...repairPrompts(patientCase),
    ...ofOperation,
  ];
}

const labels = (items: readonly { place: { label: string } }[]): string =>
  [...new Set(items.map(({ place }) => place.label))].join(", ");

function examPrompts(
  { key, imagingDate, reportState }: Exam,
  { measurements, facts }: PatientCase,
): Prompt[] {
  const prompts: Prompt[] = [];
  if (reportState.length > 0) {
    prompts.push({
      text: `Is there a final report of the exam of ${imagingDate}?`,
      raisedBy: `the report is ${reportState.join(", ")}`,
      answeredBy: "imaging lab",
    });
  }
  const diameters = measurements.filter(
    ({ exam, quantity }) => exam === key && quantity === "diameter",
  );
  const unstated = diameters.filter(({ edge }) => edge === "unstated");
  if (unstated.length > 0) {
    prompts.push({
      text: "Between which wall edges were these diameters taken?",
      raisedBy: `no edge stated on ${imagingDate}: ${labels(unstated)}`,
      answeredBy: "imaging lab",
    });
  }
  const onRepair = diameters.filter(({ place }) => {
    if (place.kind === "branch") return false;
    const wall = wallAt(place, facts.priorRepairs, imagingDate);
    return "kind" in wall && wall.kind !== "native";
  });
  if (onRepair.length > 0) {
    prompts.push({
      text: "Are these diameters of the repair itself or of the aorta around it?",
      raisedBy: `repaired before ${imagingDate}, by the case sheet: ${labels(onRepair)}`,
      answeredBy: "imaging lab",
    });
  }
  return prompts;
}

/** Words of a case sheet in which the arch takes part: operations that may land in it, and diseases of it. */
const archWords: ReadonlySet<string> = new Set([
  "arch repair",
  "descending repair",
  "thoraco-abdominal repair",
  "arch aneurysm",
  ...dissections,
]);

const questionsOfVariants: Partial<Record<ArchVariantId, Omit<Prompt, "raisedBy">>> = {
  "left vertebral artery off the arch": {
    text: dominanceQuestion,
    answeredBy: "neuroradiology",
  },
  "aberrant right subclavian artery": {
    text: "Is there a diverticulum at its origin (Kommerell), and how large is it?",
    answeredBy: "imaging lab",
  },
};

function archPrompts(
  patientCase: PatientCase,
  { asOf, dissection }: { asOf: string; dissection: Dissection | null },
): Prompt[] {
  const { variants, stated, conflict } = archOf(patientCase);
  const answeredBy = "imaging lab";
  if (conflict !== null) {
    return [{ text: "Which arch does this patient have?", raisedBy: conflict, answeredBy }];
  }
  if (variants === null) {
    const raising = whereArchMatters(patientCase, dissection);
    if (raising.length === 0) return [];
    const text = "Is the arch the usual one? If not, which variant is it?";
    return [{ text, raisedBy: `the arch is not stated: ${raising.join(", ")}`, answeredBy }];
  }
  const isAnswered = isDominanceKnown(patientCase, asOf);
  return variants.flatMap((variant) => {
    const question = questionsOfVariants[variant];
    if (isAnswered && question?.text === dominanceQuestion) return [];
    const witnesses = stated.filter((one) => one.variant === variant).map(({ by }) => by);
    return question ? [{ ...question, raisedBy: `${variant} (${witnesses.join(", ")})` }] : [];
  });
}

function whereArchMatters({ facts }: PatientCase, dissection: Dissection | null): string[] {
  const words = [...(facts.considered ?? []), ...(facts.diagnoses ?? [])];
  const named = words.filter((word) => archWords.has(word));
  const isArchDissected = dissection?.derived?.zones.some(
    ({ zone, state }) => state === "dissected" && placeById(`zone-${zone}`).region === "arch",
  );
  return named.length === 0 && isArchDissected ? ["dissection in the arch"] : named;
}

function dissectionPrompts({ findings }: PatientCase, dissection: Dissection): Prompt[] {
  const { comparison, stated, derived, tears, malperfusion } = dissection;
  const prompts: Prompt[] = [
    {
      text: "How will the wire be shown to lie in the true lumen along its whole way?",
      raisedBy: stated.diagnoses[0] ?? "parts of the case that speak of a dissection",
      answeredBy: "aortic surgeon",
    },
  ];
  if (comparison?.verdict === "contradicts") {
    prompts.push({
      text: `Is ${stated.formatted} still the dissection that this patient has?`,
      raisedBy: comparison.reasons.join("; "),
      answeredBy: "imaging lab",
    });
  }
  if (tears.every(({ kind }) => kind !== "entry tear")) {
    prompts.push({
      text: "Where is the entry tear, or was none found?",
      raisedBy: "no exam says anything of an entry tear",
      answeredBy: "imaging lab",
    });
  }
  if (derived !== null) prompts.push(...extentPrompts(derived, findings));
  const clinical = malperfusion.filter(({ state }) => state === "clinical");
  if (clinical.length > 0) {
    prompts.push({
      text: "Is the malperfusion still there, and when was that last looked at?",
      raisedBy: `clinical malperfusion stated: ${clinical.map(({ territory }) => territory).join(", ")}`,
      answeredBy: "aortic surgeon",
    });
  }
  return prompts;
}

/** What the exam that shows the dissection leaves open in the zones that it shows to be dissected. */
function extentPrompts(
  { exam, date, zones }: DissectionExtent,
  findings: readonly Finding[],
): Prompt[] {
  const ofExam = findings.filter((one) => one.exam === exam);
  const dissected = zones.filter(({ state }) => state === "dissected").map(({ zone }) => zone);
  const lumens = ofExam.filter(({ finding }) => finding === "false lumen");
  const withState = new Set(lumens.flatMap(({ place }) => zonesAround(place)));
  const withoutState = dissected.filter((zone) => !withState.has(zone));
  const prompts: Prompt[] = [];
  if (withoutState.length > 0) {
    prompts.push({
      text: "Is the false lumen patent or thrombosed, and how far?",
      raisedBy: `not stated on ${date}: ${withoutState.map(zoneWords).join(", ")}`,
      answeredBy: "imaging lab",
    });
  }
  const fed = ofExam.filter(({ finding }) => finding === "fed by");
  const notFed = placeTable.filter(
    ({ place: { id, kind, zones: origin } }) =>
      kind === "branch" &&
      origin.some((zone) => dissected.includes(zone)) &&
      !fed.some(({ place }) => place.id === id),
  );
  if (fed.length > 0 && notFed.length > 0) {
    prompts.push({
      text: "Which lumen feeds these branches?",
      raisedBy: `stated on ${date} of ${labels(fed)}, not of ${labels(notFed)}`,
      answeredBy: "imaging lab",
    });
  }
  return prompts;
}

function repairPrompts({ facts }: PatientCase): Prompt[] {
  const gaps = (facts.priorRepairs ?? []).flatMap(({ words, date, zones, kinds }) => {
    const open = [
      ...(kinds.length === 0 ? ["kind"] : []),
      ...(zones === null ? ["zones"] : []),
      ...(date === null ? ["date"] : []),
    ];
    return open.length === 0 ? [] : [`${words} (not stated: ${open.join(", ")})`];
  });
  if (gaps.length === 0) return [];
  return [
    {
      text: "What was repaired, in which zones, and when?",
      raisedBy: `prior repair as stated: ${gaps.join("; ")}`,
      answeredBy: "coordinator",
    },
  ];
}
