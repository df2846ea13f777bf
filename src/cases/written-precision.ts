import type { Interval } from "../geometry/section-bounds.ts";
import { parseDecimal } from "../quantities/decimal.ts";
import { toStoredUnit } from "../quantities/unit.ts";
import type { Measurement } from "./patient-case.ts";

type Written = Pick<Measurement, "value" | "asWritten">;

/** All values, in the stored unit, that would be written like this one: half of its last decimal to either side. */
export function writtenInterval(one: Written): Interval {
  const half = halfLastDecimal(one);
  return { low: one.value - half, high: one.value + half };
}

/** The same for a number of which only the value is known; zeros at its end are not seen. */
export function plainInterval(value: number): Interval {
  const half = halfOfLast(String(value))?.value ?? 0;
  return { low: value - half, high: value + half };
}

/** Whether two values differ by less than half of the last decimal of the one written with fewer. */
export function equalAsWritten(one: Written, other: Written): boolean {
  const tolerance = Math.max(halfLastDecimal(one), halfLastDecimal(other));
  const difference = Math.abs(one.value - other.value);
  // The factor keeps 50.25 and 50.3, whose binary difference is a little under 0.05, apart.
  return one.value === other.value || difference < tolerance * (1 - 1e-9);
}

/** Half a unit of the last decimal that a value is written with, in its stored unit. */
function halfLastDecimal({ asWritten }: Pick<Measurement, "asWritten">): number {
  const [number = "", unit = ""] = asWritten.split(" ");
  const half = halfOfLast(number);
  return half === null ? 0 : toStoredUnit(half, unit);
}

/** Half a unit of the last place of a number written with a point or, where the sheet declares it, a comma. */
function halfOfLast(number: string) {
  const [mantissa = "", exponent = "0"] = number.toLowerCase().split("e");
  const decimals = mantissa.split(/[.,]/)[1]?.length ?? 0;
  return parseDecimal(`5e${Number(exponent) - decimals - 1}`);
}
