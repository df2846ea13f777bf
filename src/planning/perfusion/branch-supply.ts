import type { ArchVariantId } from "../../anatomy/arch-variants.ts";
import { placeById } from "../../anatomy/places.ts";
import type { PatientCase } from "../../cases/patient-case.ts";
import { dependantsOf } from "../branch-dependants.ts";
import { latestFinding } from "../latest-finding.ts";

/** Arteries that end in a territory of arm or brain, by their ids in places.yaml. */
export type ArteryId =
  | "right-common-carotid-artery"
  | "left-common-carotid-artery"
  | "right-vertebral-artery"
  | "left-vertebral-artery"
  | "right-subclavian-artery"
  | "left-subclavian-artery"
  | "innominate-artery";

/** A part of the body and the arteries that each can feed it. */
export interface Supply {
  id: string;
  territory: string;
  inflows: readonly ArteryId[];
}

const brainAndArms: readonly Supply[] = [
  {
    id: "right-carotid",
    territory: "right carotid territory",
    inflows: ["right-common-carotid-artery"],
  },
  {
    id: "left-carotid",
    territory: "left carotid territory",
    inflows: ["left-common-carotid-artery"],
  },
  {
    id: "posterior",
    territory: "back of the brain, by the vertebral arteries",
    inflows: ["right-vertebral-artery", "left-vertebral-artery"],
  },
  { id: "right-arm", territory: "right arm", inflows: ["right-subclavian-artery"] },
  { id: "left-arm", territory: "left arm", inflows: ["left-subclavian-artery"] },
];

const carriers: readonly ArteryId[] = [
  "left-subclavian-artery",
  "right-subclavian-artery",
  "innominate-artery",
];
const vertebrals = ["right-vertebral-artery", "left-vertebral-artery"] as const;

/** The territories of arch branches: brain and arms, and those that findings name at a branch. */
export function suppliesOf(patientCase: PatientCase, asOf: string): Supply[] {
  const stated = carriers.flatMap((artery) =>
    dependantsOf(patientCase, asOf, artery).names.map((what): Supply => ({
      id: `${artery}-${what.replaceAll(" ", "-")}`,
      territory: `${what} fed by the ${placeById(artery).label}`,
      inflows: [artery],
    })),
  );
  const apart = vertebrals
    .filter((artery) => isApart(patientCase, asOf, artery))
    .map((artery): Supply => ({
      id: `${artery}-apart`,
      territory: `brain fed by the ${placeById(artery).label} alone`,
      inflows: [artery],
    }));
  return [...brainAndArms, ...apart, ...stated];
}

const isApart = (patientCase: PatientCase, asOf: string, artery: string): boolean =>
  latestFinding(patientCase, asOf, "dominance", artery).state ===
  "not joined to the basilar artery";

const commonOrigin = "common origin of the innominate and left common carotid arteries";

/** What an artery runs through from the aorta (ids), and the ostia any of which, once covered, takes its inflow. */
export function courseOf(
  artery: ArteryId,
  variants: readonly ArchVariantId[],
): { through: string[]; ostia: string[] } {
  const isShared = variants.includes(commonOrigin);
  const isAberrant = variants.includes("aberrant right subclavian artery");
  const shared = [
    "innominate-artery",
    "common-origin-innominate-left-carotid",
    "left-common-carotid-artery",
  ];
  const innominate = isShared ? shared : ["innominate-artery"];
  const rightSubclavian = isAberrant
    ? { through: ["aberrant-right-subclavian-artery"], ostia: ["aberrant-right-subclavian-artery"] }
    : { through: ["innominate-artery"], ostia: innominate };
  switch (artery) {
    case "innominate-artery":
      return { through: [], ostia: innominate };
    case "right-common-carotid-artery":
      return isAberrant
        ? { through: [], ostia: [artery] }
        : { through: ["innominate-artery"], ostia: innominate };
    case "right-subclavian-artery":
      return rightSubclavian;
    case "right-vertebral-artery":
      return {
        ...rightSubclavian,
        through: ["right-subclavian-artery", ...rightSubclavian.through],
      };
    case "left-common-carotid-artery":
      return { through: [], ostia: isShared ? shared : [artery] };
    case "left-vertebral-artery":
      return variants.includes("left vertebral artery off the arch")
        ? { through: [], ostia: [artery] }
        : { through: ["left-subclavian-artery"], ostia: ["left-subclavian-artery"] };
    case "left-subclavian-artery":
      return { through: [], ostia: [artery] };
  }
}
