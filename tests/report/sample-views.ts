import type { Vector } from "../../src/geometry/vector.ts";
import { landingViews } from "../../src/planning/views/landing-views.ts";
import { type PlanViews, viewsSchema } from "../../src/report/views-schema.ts";
import { carotid, caseWith, straightLine, viewBasis } from "../planning/views/sample-lines.ts";

/** An arch-like ring of 30 mm with the left common carotid artery beside it, as a plan holds it. */
export function sampleViews(
  axis: Vector = [0.45, 0.85, 0.27],
  patientPosition: string | null = "HFS",
): PlanViews {
  const line = straightLine(axis, 30, { patientPosition, positionBy: "site file, invented lab" });
  const views = landingViews(caseWith(line, carotid(axis, [0.1, -0.15, 0.98])), viewBasis);
  return viewsSchema.parse(JSON.parse(JSON.stringify(views)));
}
