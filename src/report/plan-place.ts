import type { AorticPlace } from "../anatomy/places.ts";
import type { PlanPlace } from "./plan.ts";

/** A place as a plan report holds it. */
export function planPlace({ kind, id, label, zones, position, span }: AorticPlace): PlanPlace {
  return { kind, id, label, zones: [...zones], position, span: span && [span[0], span[1]] };
}
