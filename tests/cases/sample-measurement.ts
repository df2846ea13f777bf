import { placeById } from "../../src/anatomy/places.ts";
import type { Measurement } from "../../src/cases/patient-case.ts";
import { parseDecimal } from "../../src/quantities/decimal.ts";
import { dimensionOf, storedUnit, toStoredUnit } from "../../src/quantities/unit.ts";

let count = 0;

/** An invented measurement of zone 2, whole lumen, written as "41 mm"; its key is its own. */
export function sampleMeasurement(asWritten: string, rest: Partial<Measurement> = {}): Measurement {
  const [number = "", unit = ""] = asWritten.split(" ");
  const decimal = parseDecimal(number.replace(",", "."));
  const dimension = dimensionOf(unit);
  if (!decimal || !dimension) throw new Error(asWritten);
  count += 1;
  return {
    key: `M${count}`,
    exam: "2026-01-12",
    place: placeById("zone-2"),
    placeOrigin: "sheet column",
    quantity: "diameter",
    statistic: "unstated",
    lumen: "whole",
    edge: "outer",
    path: "unstated",
    plane: "unstated",
    phase: "unstated",
    value: toStoredUnit(decimal, unit),
    unit: storedUnit[dimension],
    asWritten,
    derivedFrom: [],
    source: { file: "a.csv", sha256: "aa", at: `record ${count}` },
    reader: null,
    comment: null,
    ...rest,
  };
}
