import type { CaseFacts } from "../../../src/cases/patient-case.ts";
import { priorRepairsOf } from "../../../src/cases/prior-repairs.ts";
import type { ArchPlan } from "../../../src/planning/arch-plans/arch-plans.ts";
import type { ArchPlanCase } from "./arch-plan-case.ts";

/** Requirement, plan that asks for it, invented case, what is found. */
export type RequirementRow = [
  requirement: string,
  plan: ArchPlan["id"],
  held: ArchPlanCase,
  expected: string,
];

/** A case sheet that states these repairs. */
export const repaired = (words: string): Partial<CaseFacts> => ({
  priorRepairs: priorRepairsOf(words),
  priorRepairWords: words,
});

/** A sound length in mm at a place. */
export const sound = (
  place: string,
  mm: number,
  path: "centreline" | "inner-curve" = "centreline",
) => ({ place, mm, quantity: "sound-length", path }) as const;
