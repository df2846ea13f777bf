import type { Measurement } from "../cases/patient-case.ts";
import { writtenInterval } from "../cases/written-precision.ts";
import { diameterFromAreaMm, diameterFromPerimeterMm } from "../quantities/equivalent-diameter.ts";
import type { EdgeId } from "../quantities/measured-quantity.ts";
import { holds } from "../quantities/limit.ts";

/** The diameter of the round vessel that a section stands for, with how it was made. */
export interface ReferenceDiameter {
  diameterMm: number;
  method: string;
  edge: EdgeId;
  measurements: Measurement[];
}

/** Why a section has no reference diameter. */
export interface NoReference {
  why: string;
}

/**
 * Reference diameter of one section (measurements of one place, exam and lumen), in mm: from the perimeter,
 * else from the area, else the mean of the largest and smallest diameter of the same edge, else a mean diameter as
 * reported. One diameter alone is not enough: the section is not taken to be round. Refused are readings that
 * differ, and an area that would not fit inside the perimeter (isoperimetric inequality) whatever the two were rounded from.
 */
export function referenceDiameter(section: Measurement[]): ReferenceDiameter | NoReference {
  if (differ(section)) return { why: "readings of the same exam differ" };
  const find = (quantity: string, edge: EdgeId, statistic?: string) =>
    section.find(
      (one) =>
        one.quantity === quantity &&
        one.edge === edge &&
        (statistic === undefined || one.statistic === statistic),
    );
  for (const edge of ["inner", "unstated", "outer"] as const) {
    const perimeter = find("perimeter", edge);
    const area = find("area", edge);
    const fromPerimeterMm = perimeter && diameterFromPerimeterMm(perimeter.value);
    const fromAreaMm = area && diameterFromAreaMm(area.value);
    if (perimeter && area && !fitsInside(area, perimeter)) {
      const [p, a] = [perimeter.asWritten, area.asWritten];
      return { why: `an area of ${a} does not fit inside a perimeter of ${p}` };
    }
    if (perimeter && fromPerimeterMm !== undefined) {
      return reference(fromPerimeterMm, "perimeter over pi", edge, [perimeter]);
    }
    if (area && fromAreaMm !== undefined) {
      return reference(fromAreaMm, "diameter of the circle of the same area", edge, [area]);
    }
    const largest = find("diameter", edge, "maximum") ?? find("long-axis", edge);
    const smallest = find("diameter", edge, "minimum") ?? find("short-axis", edge);
    if (largest && smallest) {
      if (!holds(smallest.value, "<=", largest.value)) {
        return { why: `the smallest diameter, ${smallest.asWritten}, is over the largest` };
      }
      const meanMm = (largest.value + smallest.value) / 2;
      return reference(meanMm, "mean of largest and smallest diameter", edge, [largest, smallest]);
    }
    const mean = find("diameter", edge, "mean");
    if (mean) return reference(mean.value, "mean diameter as reported", edge, [mean]);
  }
  return {
    why: "the diameter perpendicular to the largest, an area or a perimeter is not measured",
  };
}

function fitsInside(area: Measurement, perimeter: Measurement): boolean {
  const leastMm = diameterFromAreaMm(writtenInterval(area).low);
  return holds(leastMm, "<=", diameterFromPerimeterMm(writtenInterval(perimeter).high));
}

function differ(section: Measurement[]): boolean {
  const groups = Map.groupBy(section, ({ quantity, statistic, edge, path }) =>
    [quantity, statistic, edge, path].join(" "),
  );
  return [...groups.values()].some((group) => new Set(group.map(({ value }) => value)).size > 1);
}

const reference = (
  diameterMm: number,
  method: string,
  edge: EdgeId,
  measurements: Measurement[],
): ReferenceDiameter => ({ diameterMm, method, edge, measurements });
