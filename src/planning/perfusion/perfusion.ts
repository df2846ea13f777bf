import type { ArchConvention } from "../../anatomy/arch-variants.ts";
import type { Dissection } from "../../cases/dissection.ts";
import type { PatientCase } from "../../cases/patient-case.ts";
import type { PlanningSettings } from "../../site/planning-settings.ts";
import { landingArch } from "../landing/landing-arch.ts";
import { landingZoneIds } from "../landing/landing-data.ts";
import { brainFacts, type BrainZone, brainZones } from "./perfusion-brain.ts";
import { cordFacts, type CordZone, cordZone } from "./perfusion-cord.ts";
import type { CoverageInterval } from "./perfusion-coverage.ts";
import type { PerfusionFact } from "./perfusion-facts.ts";
import { organBranches, type OrganBranch, organQuestions } from "./perfusion-organs.ts";
import { perfusionQuestions } from "./perfusion-questions.ts";
import { perfusionData, type PerfusionStatement } from "./perfusion-statements.ts";
import type { Prompt } from "../prompts/prompt.ts";

/** What a repair would mean for cord, brain, kidneys, gut and legs. Facts, never a score. */
export interface Perfusion {
  /** What is taken for granted about the arch; null where it is stated. */
  assumes: string | null;
  cord: { zones: CordZone[]; facts: PerfusionFact[] };
  brain: { zones: BrainZone[]; facts: PerfusionFact[] };
  /** By branch in a dissection; empty where the case speaks of none. */
  organs: OrganBranch[];
  statements: PerfusionStatement[];
  questions: Prompt[];
  missing: string[];
}

/** What perfusion rests on besides the case. */
export interface PerfusionBasis {
  /** YYYY-MM-DD. */
  asOf: string;
  dissection: Dissection | null;
  archConventions: readonly ArchConvention[];
  planning: Pick<PlanningSettings, "coverageMm">;
  /** At most one a candidate zone; a zone without one is judged by its measured lengths. */
  coverage: readonly CoverageInterval[];
}

/** Perfusion of cord, brain and organs under each candidate landing zone. */
export function perfusion(patientCase: PatientCase, basis: PerfusionBasis): Perfusion {
  const { asOf, dissection, archConventions, planning, coverage } = basis;
  const arch = landingArch(patientCase, archConventions);
  const cord = {
    zones: landingZoneIds.map((zone) =>
      cordZone(patientCase, zone, { asOf, arch, coverage, siteMm: planning.coverageMm }),
    ),
    facts: cordFacts(patientCase, asOf),
  };
  const brain = {
    zones: brainZones(patientCase, asOf, arch),
    facts: brainFacts(patientCase, asOf, arch),
  };
  const organs = organBranches(patientCase, asOf, dissection);
  const missing = [
    ...cord.zones.flatMap((zone) => zone.missing),
    ...cord.facts.flatMap((fact) => fact.missing),
    ...brain.zones.flatMap((zone) => zone.missing),
    ...brain.facts.flatMap((fact) => fact.missing),
    ...organs.flatMap((branch) => branch.missing),
  ];
  return {
    assumes: arch.assumes,
    cord,
    brain,
    organs,
    statements: perfusionData.statements.filter(
      ({ variant }) => variant === undefined || arch.variants.includes(variant),
    ),
    questions: [...perfusionQuestions(cord, brain, arch.variants), ...organQuestions(organs)],
    missing: [...new Set(missing)],
  };
}
