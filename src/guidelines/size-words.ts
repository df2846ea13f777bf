import { sentenceCase } from "../quantities/sentence-case.ts";
import type { LimitCheck } from "./rule.ts";
import { sizeText } from "./size-limit.ts";
import type { SizeMeasure } from "./size-measure.ts";
import type { UsableDiameter } from "./usable-diameters.ts";

/** "Mid-ascending aorta 56 mm (outer edge) on 2026-03-02", with the index and what is unstated. */
export function sizeWords(
  readings: readonly [UsableDiameter, ...UsableDiameter[]],
  { label, note, fromDiameterMm }: SizeMeasure,
  check: LimitCheck,
): string {
  const [{ measurement, exam }] = readings;
  const edges = new Set(readings.map((reading) => edgeWords[reading.measurement.edge]));
  const remarks = [[...edges].join(" and ")];
  if (readings.some((reading) => reading.measurement.statistic === "unstated")) {
    remarks.push("not said to be the maximum");
  }
  if (readings.length > 1) remarks.push(`${readings.length} readings of the same exam`);
  const isDiameter = check.kind === "diameter";
  const diameters =
    isDiameter && readings.every((reading) => reading.measurement.value === measurement.value)
      ? `${sizeText(measurement.value, check)} mm`
      : valuesOf(readings, "and");
  const index = isDiameter
    ? ""
    : `, ${label} ${sizeText(fromDiameterMm(measurement.value), check)} ${check.unit} (${note})`;
  const name = measurement.place.label;
  const capital = sentenceCase(name);
  return `${capital} ${diameters} (${remarks.join(", ")}) on ${exam.imagingDate}${index}`;
}

const edgeWords = {
  inner: "inner edge",
  outer: "outer edge",
  unstated: "edge not stated",
} as const;

/** "54 and 56 mm", smallest first, each value once. */
export function valuesOf(diameters: readonly UsableDiameter[], joint: "and" | "or"): string {
  const values = [...new Set(diameters.map(({ measurement }) => measurement.value))].toSorted(
    (a, b) => a - b,
  );
  const texts = values.map((value) => String(Number(value.toFixed(2))));
  return `${texts.join(` ${joint} `)} mm`;
}
