import type { Dissection } from "../../cases/dissection.ts";
import type { Measurement, PatientCase, Station } from "../../cases/patient-case.ts";
import type { Outcome } from "../../guidelines/rule.ts";
import type { RequirementId } from "./arch-plan-data.ts";
import type { LandingArch } from "../landing/landing-arch.ts";
import type { LandingSegment } from "../landing/landing-segment.ts";
import type { ZoneStations } from "../landing/zone-stations.ts";
import type { PlanningCheck } from "../planning-check.ts";

/** What the requirements of a plan are judged on. */
export interface PlanContext {
  patientCase: PatientCase;
  /** YYYY-MM-DD. */
  asOf: string;
  dissection: Dissection | null;
  arch: LandingArch;
  /** SD of a diameter reading, in mm. */
  readingSdMmOf: (reading: Measurement) => number;
  /** The same of a station's diameter; null where stations are not to be judged. */
  stationSdMmOf: ((station: Station) => number) | null;
  /** Sections along the centreline by zone; null without one. */
  sections: ZoneStations | null;
  /** Null where none were computed. */
  segments: { proximal: readonly LandingSegment[]; distal: readonly LandingSegment[] } | null;
}

/** What a requirement was found to be; `missing` only where it can't be judged. */
export interface Found {
  outcome: Outcome;
  reason: string;
  value?: PlanningCheck["value"];
  spansLimit?: boolean;
  used?: string[];
  missing?: string[];
}

/** Words of a requirement that has no published limit. */
export interface Condition {
  label: string;
  limit: string;
  source: string;
}

export const commonPractice = "common practice without a source";

/** A check out of what was found. */
export function checkOf(id: RequirementId, condition: Condition, found: Found): PlanningCheck {
  return {
    id,
    ...condition,
    value: null,
    spansLimit: false,
    used: [],
    missing: [],
    ...found,
  };
}

export const notAssessable = (reason: string, missing: string[], used: string[] = []): Found => ({
  outcome: "not-assessable",
  reason,
  missing,
  used,
});
