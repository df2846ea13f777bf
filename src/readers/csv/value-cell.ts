import type { Term } from "../../anatomy/term.ts";
import { dimensionOf, toStoredUnit, ucumFromSheet } from "../../quantities/unit.ts";
import type { DecimalMark } from "../../site/sheet-settings.ts";
import { type NumberProblem, sheetNumber } from "./sheet-number.ts";

/** A unit with the part of the sheet that states it. */
export interface StatedUnit {
  words: string;
  where: "heading" | "unit row" | "unit column" | "cell" | "site file";
}

/** The number and unit of a cell, as a reading holds them. */
export interface CellValue {
  valueText: string;
  valueAsWritten?: string;
  unit: Term | null;
}

/** Why a cell has no usable value: a message code of the readers with its data. */
export interface CellProblem {
  problem: NumberProblem | "csv-units-differ";
  data: Record<string, string>;
}

/**
 * Reads a cell that holds a number, perhaps with its unit (`42 mm`). All statements of the unit must agree; where
 * there is none, the unit is null and the number can't be used.
 */
export function cellValue(
  text: string,
  decimalMark: DecimalMark,
  statedUnits: readonly StatedUnit[],
): CellValue | CellProblem {
  const { number, unit: ownUnit } = numberAndUnit(text);
  const decimal = sheetNumber(number, decimalMark);
  if ("problem" in decimal) return { problem: decimal.problem, data: { met: text } };
  const units =
    ownUnit === null ? statedUnits : [...statedUnits, { words: ownUnit, where: "cell" as const }];
  const [first] = units;
  const other = units.find(({ words }) => first && !isSameUnit(words, first.words));
  if (first && other) {
    const data = { met: first.words, where: first.where };
    return {
      problem: "csv-units-differ",
      data: { ...data, other: other.words, otherWhere: other.where },
    };
  }
  return {
    valueText: decimal.text,
    ...(decimal.text === number ? {} : { valueAsWritten: number }),
    unit: first ? { words: first.words, code: null } : null,
  };
}

/** Splits `42 mm`; a cell that does not end with a known unit after a digit is all number. */
function numberAndUnit(text: string): { number: string; unit: string | null } {
  const [, number, unit] = /^(.*[\d.,])[ \u00A0\u2009\u202F]*([^\d\s.,].*)$/su.exec(text) ?? [];
  return number === undefined || unit === undefined || ucumFromSheet(unit) === null
    ? { number: text, unit: null }
    : { number, unit };
}

/** The same word, or two known units of the same size. */
function isSameUnit(one: string, other: string): boolean {
  if (one === other) return true;
  const [a, b] = [ucumFromSheet(one), ucumFromSheet(other)];
  if (a === null || b === null || dimensionOf(a) !== dimensionOf(b)) return false;
  const unity = { text: "1", value: 1 };
  return toStoredUnit(unity, a) === toStoredUnit(unity, b);
}
