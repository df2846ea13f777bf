import type { ArchConvention } from "../anatomy/arch-variants.ts";
import { archOf } from "../cases/arch.ts";
import type { Dissection } from "../cases/dissection.ts";
import type { Measurement, PatientCase, Station } from "../cases/patient-case.ts";
import type { InventoryRow } from "../readers/csv/inventory.ts";
import type { PlanningSettings } from "../site/planning-settings.ts";
import { type Access, access } from "./access/access.ts";
import { type ArchPlan, archPlans } from "./arch-plans/arch-plans.ts";
import { coverages, type ZoneCoverage } from "./landing/coverage.ts";
import { type LandingOption, landingOptions } from "./landing/landing-options.ts";
import type { LandingSegment } from "./landing/landing-segment.ts";
import { archTypeOf } from "./landing/arch-type.ts";
import { landingSegments } from "./landing/landing-segments.ts";
import { segmentChecks } from "./landing/segment-checks.ts";
import { type Perfusion, perfusion } from "./perfusion/perfusion.ts";
import type { PlanningCheck } from "./planning-check.ts";
import { type LandingSizing, landingSizings } from "./sizing/landing-sizing.ts";
import { landingViews, type LandingViews } from "./views/landing-views.ts";
import { type Worklist, worklistsOf } from "./worklists/completeness.ts";
import { proceduresInQuestion } from "./worklists/procedures-in-question.ts";

/** What the planning of a repair stands on besides the case. */
export interface PlanningBasis {
  /** YYYY-MM-DD. */
  asOf: string;
  dissection: Dissection | null;
  /** How the site divides arches that are not the usual one. */
  archConventions: readonly ArchConvention[];
  planning: PlanningSettings;
  /** Null where the site names no inventory. */
  inventory: readonly InventoryRow[] | null;
  /** SD of one diameter, in mm. */
  readingSdMmOf: (reading: Measurement) => number;
  stationSdMmOf: (station: Station) => number;
}

/** One candidate zone for the distal end. */
export interface DistalLanding {
  zone: string;
  segments: LandingSegment[];
  checks: PlanningCheck[];
}

/** Everything computed about how the aorta of a case could be repaired. It ranks nothing and recommends nothing. */
export interface Planning {
  options: LandingOption[];
  distalLandings: DistalLanding[];
  coverages: ZoneCoverage[];
  sizings: LandingSizing[];
  archPlans: ArchPlan[];
  views: LandingViews;
  access: Access;
  perfusion: Perfusion;
  worklists: Worklist[];
}

/** All calculators on one case, each on what those before it gave. */
export function planningOf(patientCase: PatientCase, basis: PlanningBasis): Planning {
  const { dissection } = basis;
  const segments = landingSegments(patientCase, basis);
  const strictest = {
    proximal: segments.proximal.filter(isStrictest),
    distal: segments.distal.filter(isStrictest),
  };
  const archType = archTypeOf(patientCase, basis.asOf);
  const { pairs } = coverages(strictest.proximal, strictest.distal);
  return {
    options: landingOptions(patientCase, segments.proximal, basis),
    distalLandings: strictest.distal.map((segment) => ({
      zone: segment.zone,
      segments: segments.distal.filter(({ zone }) => zone === segment.zone),
      checks: segmentChecks(segment, archType),
    })),
    coverages: pairs,
    sizings: landingSizings(patientCase, strictest, pairs, basis),
    archPlans: archPlans(patientCase, { ...basis, segments }),
    views: landingViews(patientCase, { ...basis, segments }),
    access: access(patientCase, basis),
    perfusion: perfusion(patientCase, {
      ...basis,
      coverage: longestPairs(pairs),
    }),
    worklists: worklistsOf(proceduresInQuestion(patientCase), patientCase, {
      asOf: basis.asOf,
      isDissected: dissection !== null ? true : patientCase.facts.diagnoses === null ? null : false,
      archVariants: archOf(patientCase).variants,
    }),
  };
}

const isStrictest = ({ conditions }: LandingSegment): boolean =>
  conditions === "strictest published";

/** Of each proximal zone the pair that reaches furthest: what is covered at the most, and at the least to get there. */
const longestPairs = (pairs: readonly ZoneCoverage[]): ZoneCoverage[] =>
  [...Map.groupBy(pairs, ({ fromZone }) => fromZone).values()].flatMap((own) =>
    own.toSorted((one, other) => other.mostMm - one.mostMm).slice(0, 1),
  );
