import { type Decimal, shiftDecimal } from "./decimal.ts";

/** What a number measures physically; `number` has no unit. */
export type Dimension = "length" | "area" | "volume" | "angle" | "number";

/** The unit in which each dimension is stored, as its UCUM code. */
export const storedUnit = {
  length: "mm",
  area: "mm2",
  volume: "mL",
  angle: "deg",
  number: "1",
} as const satisfies Record<Dimension, string>;

interface UnitRow {
  dimension: Dimension;
  /** Stored value = given value times 10^power; null where the factor is no power of ten. */
  power: number | null;
}

/** UCUM codes (case sensitive) that a length, area, volume, angle or ratio may carry. Source: The Unified Code for Units of Measure, tables 1 to 5. */
const ucum: ReadonlyMap<string, UnitRow> = new Map([
  ["um", { dimension: "length", power: -3 }],
  ["mm", { dimension: "length", power: 0 }],
  ["cm", { dimension: "length", power: 1 }],
  ["dm", { dimension: "length", power: 2 }],
  ["m", { dimension: "length", power: 3 }],
  ["mm2", { dimension: "area", power: 0 }],
  ["cm2", { dimension: "area", power: 2 }],
  ["mm3", { dimension: "volume", power: -3 }],
  ["cm3", { dimension: "volume", power: 0 }],
  ["ml", { dimension: "volume", power: 0 }],
  ["mL", { dimension: "volume", power: 0 }],
  ["dm3", { dimension: "volume", power: 3 }],
  ["l", { dimension: "volume", power: 3 }],
  ["L", { dimension: "volume", power: 3 }],
  ["deg", { dimension: "angle", power: 0 }],
  ["rad", { dimension: "angle", power: null }],
  ["1", { dimension: "number", power: 0 }],
]);

/** Spellings of sheets that are not UCUM but can be read only one way. */
const sheetSpellings: ReadonlyMap<string, string> = new Map([
  ["mm²", "mm2"],
  ["cm²", "cm2"],
  ["mm³", "mm3"],
  ["cm³", "cm3"],
  ["°", "deg"],
  ["degrees", "deg"],
]);

/** The dimension of a UCUM code, or null for a code without a physical unit or outside the table. */
export function dimensionOf(unitCode: string): Dimension | null {
  return ucum.get(unitCode)?.dimension ?? null;
}

/** The UCUM code that a sheet's unit cell means, or null. */
export function ucumFromSheet(cell: string): string | null {
  const code = sheetSpellings.get(cell) ?? cell;
  return ucum.has(code) ? code : null;
}

/** Converts to the stored unit of the dimension (mm, mm2, mL, deg); exact for powers of ten. */
export function toStoredUnit(decimal: Decimal, unitCode: string): number {
  const row = ucum.get(unitCode);
  if (!row) throw new Error(`not in the unit table: ${unitCode}`);
  return row.power === null ? (decimal.value * 180) / Math.PI : shiftDecimal(decimal, row.power);
}
