import { formatLength } from "../quantities/format-length.ts";
import type { Plan, PlanMeasurement } from "./plan.ts";

/** The largest aortic diameter of the last exam, whole or unstated lumen, branches left out; null where none is measured. */
export function largestDiameter(
  plan: Plan,
): { measurement: PlanMeasurement; sentence: string } | null {
  const last = plan.exams.at(-1);
  const diameters = plan.measurements.filter(
    ({ exam, quantity, place, lumen }) =>
      exam === last?.key &&
      quantity === "diameter" &&
      place.kind !== "branch" &&
      lumen !== "true" &&
      lumen !== "false",
  );
  const [first, ...others] = diameters;
  if (!first || !last) return null;
  const measurement = others.reduce(
    (largest, next) => (next.value > largest.value ? next : largest),
    first,
  );
  const edge = measurement.edge === "unstated" ? "edge not stated" : `${measurement.edge} edge`;
  const sentence = `${measurement.place.label}: ${formatLength(measurement.value)}, ${edge}, ${last.imagingDate}`;
  return { measurement, sentence };
}
