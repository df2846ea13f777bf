import type { Interpretation } from "../anatomy/interpret.ts";
import type { Decimal } from "../quantities/decimal.ts";
import { diameterIn } from "../quantities/equivalent-diameter.ts";
import { formatLength } from "../quantities/format-length.ts";
import { toStoredUnit } from "../quantities/unit.ts";

/** Diameters in mm between which an aorta is believed without a question. Common practice, not from a source. */
const isPlausible = (diameterMm: number): boolean => diameterMm >= 10 && diameterMm <= 150;

/** The unit that is written by mistake for another. */
const mistaken: Readonly<Record<string, string>> = { mm: "cm", cm: "mm", mm2: "cm2", cm2: "mm2" };

/** A size that is hardly an aorta's; `other` is the same number in the unit in which it would be one. */
export interface SizeDoubt {
  met: string;
  other: string | null;
}

/**
 * Doubts a size of the whole aorta whose diameter, or that of the circle with its perimeter or area, is outside 10 to
 * 150 mm. A narrowest diameter can be that small, so for it no other unit is thought of. Null where there is no doubt.
 */
export function sizeDoubt(
  what: Interpretation,
  decimal: Decimal,
  unit: string,
  asWritten: string,
): SizeDoubt | null {
  const { place, lumen, statistic, quantity } = what;
  if (place.kind === "branch" || place.region === "iliac") return null;
  if (lumen === "true" || lumen === "false") return null;
  const diameterMm = diameterIn(quantity, toStoredUnit(decimal, unit));
  if (diameterMm === null || isPlausible(diameterMm)) return null;
  const isRound = quantity === "perimeter" || quantity === "area";
  const circle = isRound ? ` (a circle of ${formatLength(diameterMm)})` : "";
  const isNarrowest = statistic === "minimum" || quantity === "short-axis";
  const otherUnit = isNarrowest ? undefined : mistaken[unit];
  const otherMm =
    otherUnit === undefined ? null : diameterIn(quantity, toStoredUnit(decimal, otherUnit));
  const other = otherMm !== null && isPlausible(otherMm) ? `${decimal.text} ${otherUnit}` : null;
  return { met: `${asWritten}${circle}`, other };
}

/**
 * What is believed of numbers other than the size of the whole aorta, in words, where a number in its stored unit is
 * outside of it; else null. All these limits are common practice, not from a source.
 */
export function believedRange({
  place,
  lumen,
  quantity,
  value,
}: Pick<Interpretation, "place" | "lumen" | "quantity"> & { value: number }): string | null {
  switch (quantity) {
    case "length":
    case "sound-length":
      return value > 700 ? "up to 700 mm long" : null;
    case "angle":
      return value > 360 ? "up to 360 degrees" : null;
    case "volume":
      return value > 3000 ? "up to 3000 mL" : null;
    case "radius":
      return value < 5 || value > 1000 ? "5 to 1000 mm of radius" : null;
    case "tortuosity":
      return value < 1 || value > 5 ? "1 (straight) to 5" : null;
    default:
  }
  const diameterMm = diameterIn(quantity, value);
  if (diameterMm === null) return null;
  if (place.kind === "branch" || place.region === "iliac") {
    return diameterMm < 1 || diameterMm > 100 ? "1 to 100 mm across" : null;
  }
  const isPart = lumen === "true" || lumen === "false";
  return isPart && diameterMm > 150 ? "up to 150 mm across" : null;
}
