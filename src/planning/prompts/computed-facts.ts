import { formatLength } from "../../quantities/format-length.ts";
import { holds } from "../../quantities/limit.ts";
import type { PlanningSettings } from "../../site/planning-settings.ts";
import type { ZoneCoverage } from "../landing/coverage.ts";
import type { LandingViews } from "../views/landing-views.ts";
import type { ComputedFacts } from "./prompts-operation.ts";
import { sharpBend, sharpBendSource } from "./prompts-measured.ts";

/** Facts of the planned stretches that raise questions: sharp bends at an edge, and long covered lengths. */
export function computedFacts(
  { coverages, views }: { coverages: readonly ZoneCoverage[]; views: LandingViews },
  { coverageMm }: Pick<PlanningSettings, "coverageMm">,
): Pick<ComputedFacts, "sharpTurns" | "longCover"> {
  return {
    sharpTurns: views.rings.flatMap(({ label, edge }) => {
      if (edge === null) return [];
      const { value, low, high } = edge.innerCurvatureTimesDiameter;
      if (!holds(value, ">=", sharpBend)) return [];
      const numbers = `${value.toFixed(2)} (${low.toFixed(2)} to ${high.toFixed(2)})`;
      return [`${label}: inner curvature times diameter ${numbers}; ${sharpBendSource}`];
    }),
    longCover: coverages
      .filter(({ mostMm }) => holds(mostMm, ">", coverageMm))
      .map(({ fromZone, toZone, leastMm, mostMm }) => {
        const lengths = `${formatLength(leastMm)} to ${formatLength(mostMm)}`;
        return `zone ${fromZone} to zone ${toZone}: ${lengths} (over ${formatLength(coverageMm)})`;
      }),
  };
}
