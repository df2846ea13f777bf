import type { Term } from "../../anatomy/term.ts";
import { parseDecimal } from "../../quantities/decimal.ts";
import type { DataSet } from "./data-set.ts";
import {
  asciiOf,
  binaryOf,
  codedOf,
  isUnreadableSequence,
  itemsOf,
  termOf,
} from "./element-values.ts";
import { tags } from "./tags.ts";

/** Why the value of a NUM item can't be used as it stands. */
type ValueProblem = "value-twice" | "value-too-long" | "value-unreadable" | "value-fields-disagree";

/** Far more characters than a decimal string can have (16) and than any exact decimal needs. */
const maxValueLength = 64;

/** The value of a NUM item, not yet parsed. */
export interface MeasuredValue {
  /** The characters of Numeric Value; null where there is none. */
  valueText: string | null;
  unit: Term | null;
  qualifier: Term | null;
  problem: ValueProblem | null;
}

/**
 * Reads the value of a NUM item. Only the characters of Numeric Value count; a Floating Point Value and a Rational
 * Value beside it must be the same number. Two values, in two items or parted by a backslash, are no value.
 */
export function measuredValueOf(num: DataSet): MeasuredValue {
  const qualifier = codedOf(num, tags.numericValueQualifier);
  const none = { valueText: null, unit: null, qualifier };
  if (isUnreadableSequence(num, tags.measuredValue))
    return { ...none, problem: "value-unreadable" };
  const [item, ...others] = itemsOf(num, tags.measuredValue);
  if (others.length > 0) return { ...none, problem: "value-twice" };
  if (!item) return { ...none, problem: null };
  const valueText = asciiOf(item, tags.numericValue);
  const units = itemsOf(item, tags.measurementUnits);
  const unit = units[0] ? termOf(units[0]) : null;
  return { valueText, unit, qualifier, problem: problemOf(item, valueText, units.length) };
}

function problemOf(item: DataSet, valueText: string | null, units: number): ValueProblem | null {
  if (isUnreadableSequence(item, tags.measurementUnits)) return "value-unreadable";
  if (valueText !== null && valueText.length > maxValueLength) return "value-too-long";
  if (units > 1 || valueText?.includes("\\")) return "value-twice";
  const copies = [binaryOf(item, tags.floatingPointValue, "FD"), rationalOf(item)];
  const agree = copies.every((copy) => copy !== null && isSameValue(valueText, copy));
  return agree ? null : "value-fields-disagree";
}

/** Numerator by denominator; empty where the item has neither, null where they make no number. */
function rationalOf(item: DataSet): number[] | null {
  const numerators = binaryOf(item, tags.rationalNumerator, "SL");
  const denominators = binaryOf(item, tags.rationalDenominator, "UL");
  if (numerators?.length !== denominators?.length || !numerators) return null;
  return numerators.map((numerator, index) => numerator / (denominators?.[index] ?? 0));
}

/** Whether a more precise copy of the value, if there is one, is a single number that rounds to the text. */
const isSameValue = (valueText: string | null, [copy, ...others]: number[]): boolean =>
  copy === undefined ||
  (others.length === 0 && (valueText === null || isRoundedTo(valueText, copy)));

/**
 * Whether the text is the double at the text's own number of digits. Writers that fill all sixteen characters
 * cut the last digit instead of rounding it, which is at most one part in 10^12.
 */
function isRoundedTo(valueText: string, double: number): boolean {
  const decimal = parseDecimal(valueText);
  if (!Number.isFinite(double)) return false;
  if (!decimal) return true;
  const [mantissa = "", exponent = "0"] = decimal.text.split(/[eE]/);
  const decimals = mantissa.split(".")[1]?.length ?? 0;
  const halfUnit = 0.5 * 10 ** (Number(exponent) - decimals);
  const difference = Math.abs(decimal.value - double);
  return difference <= halfUnit * (1 + 1e-9) || difference <= Math.abs(double) * 1e-12;
}
