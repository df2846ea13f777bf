import { placeById } from "../../anatomy/places.ts";
import { archOf } from "../../cases/arch.ts";
import type { PatientCase } from "../../cases/patient-case.ts";
import { dependantsOf } from "../branch-dependants.ts";
import { isDominanceKnown } from "../known-dominance.ts";
import { findingPhrase, latestFinding } from "../latest-finding.ts";
import type { Prompt } from "./prompt.ts";

const dominance = "Which vertebral artery is dominant";
export const dominanceQuestion = `${dominance}?`;

/** Whether a question asks which vertebral artery is dominant, alone or with more. */
export const asksDominance = ({ text }: Prompt): boolean => text.startsWith(dominance);

/** Questions on what the brain and the left arm live on, for an operation that may cover arch branches. */
export function supplyPrompts(patientCase: PatientCase, asOf: string, reason: string): Prompt[] {
  return [
    ...unknownSupply(patientCase, asOf, reason),
    ...poorSupply(patientCase, asOf),
    ...vertebralOffArch(patientCase),
    ...dependants(patientCase, asOf),
  ];
}

function unknownSupply(patientCase: PatientCase, asOf: string, reason: string): Prompt[] {
  const circle = latestFinding(patientCase, asOf, "circle of Willis", "circle-of-willis");
  const isCircleKnown = circle.state !== null;
  const isKnown = isDominanceKnown(patientCase, asOf);
  if (isKnown && isCircleKnown) return [];
  const both = `${dominance}, and is the circle of Willis complete?`;
  const text = isKnown
    ? "Is the circle of Willis complete?"
    : isCircleKnown
      ? dominanceQuestion
      : both;
  return [
    {
      text,
      raisedBy: `not stated; a landing in zones 0 to 2 covers arch branches (${reason})`,
      answeredBy: "neuroradiology",
    },
  ];
}

/** Findings under which the brain has less to fall back on. */
function poorSupply(patientCase: PatientCase, asOf: string): Prompt[] {
  const left = latestFinding(patientCase, asOf, "dominance", "left-vertebral-artery");
  const right = latestFinding(patientCase, asOf, "dominance", "right-vertebral-artery");
  const circle = latestFinding(patientCase, asOf, "circle of Willis", "circle-of-willis");
  const isWeak =
    right.state === "hypoplastic" || right.state === "not joined to the basilar artery";
  const raisedBy = [
    ...(left.state === "dominant" ? [`left vertebral artery ${findingPhrase(left)}`] : []),
    ...(isWeak ? [`right vertebral artery ${findingPhrase(right)}`] : []),
    ...(circle.state === "incomplete" ? [`circle of Willis ${findingPhrase(circle)}`] : []),
  ];
  if (raisedBy.length === 0) return [];
  return [
    {
      text: "What feeds the back of the brain if the left subclavian artery is covered?",
      raisedBy: raisedBy.join("; "),
      answeredBy: "vascular surgeon and neuroradiology",
    },
  ];
}

function vertebralOffArch(patientCase: PatientCase): Prompt[] {
  const variant = "left vertebral artery off the arch";
  const { variants, stated } = archOf(patientCase);
  if (!variants?.includes(variant)) return [];
  const witnesses = stated.filter((one) => one.variant === variant).map(({ by }) => by);
  return [
    {
      text: "How is the left vertebral artery kept if zone 2 is covered?",
      raisedBy: `${variant} (${witnesses.join(", ")}): a bypass to the left subclavian artery does not reach it`,
      answeredBy: "vascular surgeon",
    },
  ];
}

const armOfArch = [
  "left-subclavian-artery",
  "innominate-artery",
  "right-subclavian-artery",
] as const;

function dependants(patientCase: PatientCase, asOf: string): Prompt[] {
  const raisedBy = armOfArch.flatMap((id) => {
    const { names, words } = dependantsOf(patientCase, asOf, id);
    return names.length === 0 ? [] : [`${placeById(id).label} supplies ${words}`];
  });
  if (raisedBy.length === 0) return [];
  return [
    {
      text: "What keeps the coronary graft or dialysis access fed if its artery is covered?",
      raisedBy: raisedBy.join("; "),
      answeredBy: "cardiology and vascular surgeon",
    },
  ];
}
