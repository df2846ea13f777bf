import type { LimitUnit } from "./rule.ts";

/** How many units of the check one unit as printed is. */
const printedUnits: Record<LimitUnit, Record<string, number>> = {
  mm: { mm: 1, cm: 10 },
  "cm/m2": { "cm/m2": 1, "mm/m2": 0.1 },
  "cm/m": { "cm/m": 1, "mm/m": 0.1 },
  "cm2/m": { "cm2/m": 1 },
};

/** The limit that printed words state, in the unit of the check: "0.3 cm in 1 year" is 3 mm, "5.0 to 5.4 cm" 50 mm. Null where they do not begin so. */
export function printedLimit(printed: string, unit: LimitUnit): number | null {
  const [, number, printedUnit = ""] =
    /^(\d+(?:\.\d+)?)(?: to \d+(?:\.\d+)?)? (\S+)/.exec(printed) ?? [];
  const factor = printedUnits[unit][printedUnit];
  return factor === undefined ? null : Number(number) * factor;
}
