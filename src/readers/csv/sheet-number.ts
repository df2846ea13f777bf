import { type Decimal, parseDecimal } from "../../quantities/decimal.ts";
import type { DecimalMark } from "../../site/sheet-settings.ts";

/** Why the text of a cell is no number: a message code of the readers. */
export type NumberProblem =
  | "csv-number-comma"
  | "csv-number-point"
  | "csv-number-grouped"
  | "csv-number-not-understood";

/** Digits with marks or spaces between them, as between thousands. */
const grouped = /^[+-]?\d+(?:[.,'\u2019_\s]\d+)*[.,'\u2019_\s]\d+$/u;

/**
 * The number of a cell whose sheet writes decimals in the one declared way; its text has a point. A mark of the other
 * kind, marks between thousands and anything else are refused: no character is passed over or changed.
 */
export function sheetNumber(text: string, mark: DecimalMark): Decimal | { problem: NumberProblem } {
  const [own, other] = mark === "comma" ? [",", "."] : [".", ","];
  const decimal = text.includes(other) ? null : parseDecimal(text.replace(own, "."));
  if (decimal) return decimal;
  if (!grouped.test(text)) return { problem: "csv-number-not-understood" };
  const marks = text.replaceAll(/[\d+-]/g, "");
  if (marks !== other) return { problem: "csv-number-grouped" };
  return { problem: mark === "comma" ? "csv-number-point" : "csv-number-comma" };
}
