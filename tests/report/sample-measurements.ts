import { placeById } from "../../src/anatomy/places.ts";
import type { PlanMeasurement, PlanPlace } from "../../src/report/plan.ts";

/** Dates of the invented exams. */
export const examDates = ["2022-11-08", "2023-11-14", "2024-12-03", "2026-01-12"];

/** A place of the place table as a plan holds it. */
export function samplePlace(id: string): PlanPlace {
  const { kind, label, zones, position, span } = placeById(id);
  return { kind, id, label, zones: [...zones], position, span: span && [span[0], span[1]] };
}

/** Key of an invented measurement. */
export const keyOf = (place: string, date: string, more = ""): string =>
  `m-${place}-${date}${more}`;

/** A diameter in mm, invented. */
export function sampleMeasurement(
  place: string,
  date: string,
  value: number,
  more: Partial<PlanMeasurement> = {},
): PlanMeasurement {
  return {
    key: keyOf(place, date),
    exam: date,
    place: samplePlace(place),
    placeOrigin: "words",
    quantity: "diameter",
    quantityLabel: "diameter",
    statistic: "maximum",
    lumen: "whole",
    edge: "outer",
    path: "unstated",
    plane: "unstated",
    phase: "unstated",
    value,
    unit: "mm",
    asWritten: `${value} mm`,
    derivedFrom: [],
    source: {
      file: `sheets/invented-${date}.csv`,
      sha256: "5f".repeat(32),
      at: "record 3, line 4, column value",
    },
    reader: "reader one",
    comment: null,
    ...more,
  };
}

/** Diameters by place, one for each exam; null where it was not measured. */
export const diameters: Record<string, (number | null)[]> = {
  "sinuses-of-valsalva": [38.2, 38.0, 38.5, 38.4],
  "sinotubular-junction": [null, 33.1, 33.4, 33.0],
  "mid-ascending": [39.4, 39.9, 40.1, 40.6],
  "mid-arch": [31.5, null, 32.0, 32.2],
  "proximal-descending": [36.4, 40.1, 44.5, 48.9],
  "mid-descending": [52.1, 53.4, 55.0, 57.4],
  "at-diaphragm": [36.0, 36.2, 36.9, 37.3],
  "at-coeliac-origin": [27.0, 27.1, 27.3, 27.2],
  "zone-9": [22.0, 22.4, 22.9, 23.3],
  "zone-10-right": [null, 13.8, 14.0, 14.1],
  "zone-10-left": [null, 13.1, 13.5, 13.2],
  "descending-thoracic-aorta": [null, null, 56.0, 58.0],
  "left-subclavian-artery": [null, null, 9.6, 9.8],
};

/** All measurements of the invented patient. */
export const measurements: PlanMeasurement[] = [
  ...Object.entries(diameters).flatMap(([place, values]) =>
    values.flatMap((value, index) =>
      value === null ? [] : [sampleMeasurement(place, examDates[index] ?? "", value)],
    ),
  ),
  sampleMeasurement("mid-descending", "2026-01-12", 56.6, {
    key: keyOf("mid-descending", "2026-01-12", "-b"),
    reader: "reader two",
    source: { file: "reports/invented-2026.dcm", sha256: "a0".repeat(32), at: "item 1.4.2.3" },
  }),
  sampleMeasurement("zone-3", "2026-01-12", 24, {
    key: keyOf("zone-3", "2026-01-12", "-length"),
    quantity: "sound-length",
    quantityLabel: "sound length",
    statistic: "unstated",
    edge: "unstated",
    path: "outer-curve",
  }),
];
