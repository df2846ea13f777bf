import type { PatientCase } from "../../cases/patient-case.ts";
import { sentenceCase } from "../../quantities/sentence-case.ts";
import { suppliesOf } from "./branch-supply.ts";
import type { LandingArch } from "../landing/landing-arch.ts";
import { landingData, type LandingZone } from "../landing/landing-data.ts";
import { findingFact, type PerfusionFact } from "./perfusion-facts.ts";
import { type SupplyAtZone, supplyAtZone } from "./perfusion-supply.ts";

/** What a landing in one zone means for brain and arms. */
export interface BrainZone {
  zone: LandingZone["zone"];
  /** Why the zone has no meaning in this arch; null where it has one. */
  stopped: string | null;
  supplies: SupplyAtZone[];
  /** Usual re-feeding of what is covered; whether it is planned no sheet says. */
  refeeding: string[];
  /** Labels of covered branches that no usual re-feeding names. */
  notRefed: string[];
  missing: string[];
}

/** Brain and arms under a landing in one zone, each territory by its inflows. */
function brainZone(
  patientCase: PatientCase,
  { zone, refeeding }: LandingZone,
  asOf: string,
  arch: LandingArch,
): BrainZone {
  const { stopped, branches, branchesUnknown, missing } = arch.zone(zone);
  const covered = {
    branches,
    branchesUnknown: stopped ?? branchesUnknown,
    missing,
  };
  const archNeeded = arch.isStated ? null : "which arch it is";
  const supplies = suppliesOf(patientCase, asOf).map((supply) =>
    supplyAtZone(patientCase, supply, covered, { asOf, variants: arch.variants, archNeeded }),
  );
  const lines = refeeding.filter(
    (line) =>
      line.branches.every((branch) => branches.includes(branch)) &&
      !line.notWith.some((variant) => arch.variants.includes(variant)),
  );
  const named = new Set(lines.flatMap((line) => line.branches));
  return {
    zone,
    stopped,
    supplies,
    refeeding: lines.map(({ how }) => how),
    notRefed: branches.filter((branch) => !named.has(branch)),
    missing: [...new Set(supplies.flatMap(({ check }) => check.missing))],
  };
}

/** Brain and arms under each candidate landing zone, in order. */
export function brainZones(patientCase: PatientCase, asOf: string, arch: LandingArch): BrainZone[] {
  return landingData.zones.map((zone) => brainZone(patientCase, zone, asOf, arch));
}

/** Arch, vertebral and carotid arteries and the circle of Willis as far as the case states them. */
export function brainFacts(
  patientCase: PatientCase,
  asOf: string,
  { variants, isStated, isContradictory }: LandingArch,
): PerfusionFact[] {
  const known = variants.length === 0 ? "usual" : variants.join("; ");
  const finding = (what: "patency" | "dominance" | "circle of Willis", placeId: string) =>
    findingFact(patientCase, asOf, what, placeId);
  return [
    {
      id: "arch",
      label: sentenceCase("arch"),
      words: isContradictory
        ? `statements contradict each other: ${known}`
        : isStated
          ? known
          : "not stated",
      used: [],
      missing: isStated ? [] : ["which arch it is"],
    },
    finding("dominance", "right-vertebral-artery"),
    finding("dominance", "left-vertebral-artery"),
    finding("patency", "right-vertebral-artery"),
    finding("patency", "left-vertebral-artery"),
    finding("patency", "right-common-carotid-artery"),
    finding("patency", "left-common-carotid-artery"),
    finding("circle of Willis", "circle-of-willis"),
  ];
}
