/** A number exactly as written: `text` trimmed, `value` the nearest double. */
export interface Decimal {
  text: string;
  value: number;
}

const grammar = /^([+-]?)(?:(\d+)(?:\.(\d*))?|\.(\d+))(?:[eE]([+-]?\d{1,3}))?$/;

/**
 * Reads a decimal number by the full grammar of the DICOM value representation DS (PS3.5, section 6.2): sign,
 * digits, one point, exponent. Everything else is refused (null): decimal commas, inner spaces, `<`,
 * units, `NaN`, hexadecimal, full-width digits, and sizes outside 1e-100 to 1e100, which a double or a conversion of
 * units could turn into zero or infinity.
 */
export function parseDecimal(raw: string): Decimal | null {
  const text = withoutOuterSpaces(raw);
  if (!grammar.test(text)) return null;
  const value = Number(text);
  const size = Math.abs(value);
  const isZero = !/^[^e]*[1-9]/i.test(text);
  return isZero || (size >= 1e-100 && size <= 1e100) ? { text, value } : null;
}

/** Only the space character pads a DS value; other white space is not trimmed. */
function withoutOuterSpaces(text: string): string {
  let [start, end] = [0, text.length];
  while (start < end && text[start] === " ") start++;
  while (end > start && text[end - 1] === " ") end--;
  return text.slice(start, end);
}

/**
 * The value times 10^power without the error of a binary multiplication: the point moves in the text.
 * 4.15 cm is 41.5 mm, not 41.500000000000004 mm.
 */
export function shiftDecimal(decimal: Decimal, power: number): number {
  const parts = grammar.exec(decimal.text);
  if (!parts) throw new Error(`not a decimal: ${decimal.text}`);
  const [, sign = "", whole = "", fraction, bareFraction, exponent = "0"] = parts;
  const digits = fraction ?? bareFraction ?? "";
  return Number(`${sign}${whole || "0"}.${digits || "0"}e${Number(exponent) + power}`);
}
