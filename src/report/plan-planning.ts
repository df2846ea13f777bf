import type { PatientCase } from "../cases/patient-case.ts";
import type { Vector } from "../geometry/vector.ts";
import type { Planning } from "../planning/planning.ts";
import { planPlace } from "./plan-place.ts";
import { planWorklist } from "./worklist-schema.ts";

/** What a plan holds of the planning of a repair, and of the lines and rings that it stands on. */
export function planPlanning(
  { centrelines, rings }: PatientCase,
  { worklists, views, access, perfusion, ...rest }: Planning,
) {
  return {
    centrelines: centrelines.map((line) => ({
      ...line,
      stations: line.stations.map(({ point, mark, ...station }) => ({
        ...station,
        point: point && planVector(point),
        mark: mark && { place: planPlace(mark.place), edge: mark.edge },
      })),
    })),
    rings: rings.map((ring) => ({
      ...ring,
      place: planPlace(ring.place),
      centre: planVector(ring.centre),
      axis: planVector(ring.axis),
    })),
    ...rest,
    views,
    access: { ...access, statements: [...access.statements] },
    perfusion,
    worklists: worklists.map(planWorklist),
  };
}

const planVector = ([x, y, z]: Vector): [number, number, number] => [x, y, z];
