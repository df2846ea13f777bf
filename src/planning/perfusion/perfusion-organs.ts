import { placeById } from "../../anatomy/places.ts";
import type { Dissection } from "../../cases/dissection.ts";
import { territoryOf } from "../../cases/malperfusion.ts";
import type { PatientCase } from "../../cases/patient-case.ts";
import { findingNeeded, findingWords, latestFinding } from "../latest-finding.ts";
import type { Prompt } from "../prompts/prompt.ts";

/** How one branch below the diaphragm is fed in a dissection. */
export interface OrganBranch {
  branch: string;
  organ: string;
  /** Lumen in words with its date; "not stated" where no exam says. */
  fedBy: string;
  isFalseLumenOnly: boolean;
  patency: string;
  malperfusion: string;
  used: string[];
  missing: string[];
}

/** Kidneys, gut and legs. */
const organs: readonly { placeId: string; organ: string }[] = [
  { placeId: "coeliac-artery", organ: "liver, stomach and spleen" },
  { placeId: "superior-mesenteric-artery", organ: "gut" },
  { placeId: "right-renal-artery", organ: "right kidney" },
  { placeId: "left-renal-artery", organ: "left kidney" },
  { placeId: "zone-10-right", organ: "right leg" },
  { placeId: "zone-10-left", organ: "left leg" },
];

/** Each branch by lumen, patency and malperfusion at `asOf` (YYYY-MM-DD); empty where the case speaks of no dissection. */
export function organBranches(
  patientCase: PatientCase,
  asOf: string,
  dissection: Dissection | null,
): OrganBranch[] {
  if (dissection === null) return [];
  return organs.map(({ placeId, organ }) => {
    const place = placeById(placeId);
    const branch = place.label.replace(/^zone \d+, /, "");
    const fed = latestFinding(patientCase, asOf, "fed by", placeId);
    const patency = latestFinding(patientCase, asOf, "patency", placeId);
    const territory = territoryOf(place);
    const flow = dissection.malperfusion.find((one) => one.territory === territory);
    return {
      branch,
      organ,
      fedBy: findingWords(fed),
      isFalseLumenOnly: fed.state === "false lumen",
      patency: findingWords(patency),
      malperfusion: flow?.state ?? "not stated",
      used: [...fed.used, ...patency.used, ...(flow?.sources.flatMap(({ used }) => used) ?? [])],
      missing: [
        ...(fed.state === null ? [findingNeeded(`lumen that feeds the ${branch}`, fed)] : []),
        ...(patency.state === null ? [findingNeeded(`patency of the ${branch}`, patency)] : []),
        ...(flow === undefined ? [`malperfusion (or none) of the ${organ}`] : []),
      ],
    };
  });
}

/** What each branch that hangs on the false lumen alone, and each organ that lacks blood, asks. */
export function organQuestions(branches: readonly OrganBranch[]): Prompt[] {
  return branches.flatMap(({ branch, organ, fedBy, isFalseLumenOnly, malperfusion }) => [
    ...(isFalseLumenOnly
      ? [
          {
            text: `What happens to the ${organ} when the pressure in the false lumen falls?`,
            raisedBy: `${branch}: fed by ${fedBy}`,
            answeredBy: "vascular surgeon and imaging lab",
          },
        ]
      : []),
    ...(malperfusion === "clinical" || malperfusion === "on imaging only"
      ? [
          {
            text: `How is the flow to the ${organ} checked once the graft is open, and what if it stays low?`,
            raisedBy: `${branch}: malperfusion ${malperfusion}`,
            answeredBy: "vascular surgeon and anaesthesia",
          },
        ]
      : []),
  ]);
}
