import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseDecimal, shiftDecimal } from "../../src/quantities/decimal.ts";

/** A finite double as an exact fraction of integers. */
function fractionOf(value: number): { top: bigint; bottom: bigint } {
  if (!Number.isFinite(value)) throw new Error("not finite");
  let bottom = 1n;
  let scaled = value;
  while (!Number.isInteger(scaled)) {
    scaled *= 2;
    bottom *= 2n;
  }
  return { top: BigInt(scaled), bottom };
}

/** True where no double lies nearer to digits times 10^power than `value` does; all in integers. */
function isNearest(value: number, digits: bigint, power: number): boolean {
  const exact =
    power >= 0
      ? { top: digits * 10n ** BigInt(power), bottom: 1n }
      : { top: digits, bottom: 10n ** BigInt(-power) };
  const error = (candidate: number) => {
    const { top, bottom } = fractionOf(candidate);
    const difference = top * exact.bottom - exact.top * bottom;
    return { top: difference < 0n ? -difference : difference, bottom };
  };
  const own = error(value);
  return neighbours(value).every((candidate) => {
    const other = error(candidate);
    return own.top * other.bottom <= other.top * own.bottom;
  });
}

function neighbours(value: number): number[] {
  if (value === 0) return [Number.MIN_VALUE, -Number.MIN_VALUE];
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, value);
  const bits = view.getBigInt64(0);
  return [bits + 1n, bits - 1n].map((near) => {
    view.setBigInt64(0, near);
    return view.getFloat64(0);
  });
}

/** Digits with a point somewhere and perhaps an exponent, and what they stand for. */
const writtenNumber = fc
  .record({
    sign: fc.constantFrom("", "+", "-"),
    digits: fc.stringMatching(/^[0-9]{1,18}$/),
    decimals: fc.nat(18),
    exponent: fc.option(fc.integer({ min: -60, max: 60 })),
  })
  .map(({ sign, digits, decimals, exponent }) => {
    const point = Math.max(0, digits.length - decimals);
    const fraction = digits.slice(point);
    const text = `${sign}${digits.slice(0, point)}${fraction ? `.${fraction}` : ""}${exponent === null ? "" : `e${exponent}`}`;
    return {
      text,
      digits: BigInt(digits) * (sign === "-" ? -1n : 1n),
      power: (exponent ?? 0) - fraction.length,
    };
  });

describe("parseDecimal", () => {
  test.each([
    ["25.4", 25.4],
    [" 25.4 ", 25.4],
    ["0", 0],
    ["-0.0", -0],
    ["+7", 7],
    [".5", 0.5],
    ["5.", 5],
    ["007", 7],
    ["1e3", 1000],
    ["1E-1", 0.1],
    ["-4.15E+1", -41.5],
    ["0e99", 0],
  ])("reads %j", (text, value) => {
    expect(parseDecimal(text)).toEqual({ text: text.trim(), value });
  });

  test.each([
    "",
    " ",
    ".",
    "+",
    "e3",
    "25,4",
    "1.234,5",
    "3 5",
    "3\t5",
    "\t35",
    "35\n",
    "35\u00A0",
    "< 30",
    ">30",
    "~30",
    "30 mm",
    "30mm",
    "30?",
    "NaN",
    "Infinity",
    "-Infinity",
    "nil",
    "１２",
    "٣٥",
    "1_000",
    "1'000",
    "0x10",
    "0b11",
    "1e",
    "1e1.5",
    "1..5",
    "1.5.2",
    "--5",
    "+-5",
    "\u22125",
    "3/4",
    "3½",
    "1e400",
    "1e-400",
    "1e101",
    `1${"0".repeat(400)}`,
    `0.${"0".repeat(400)}1`,
  ])("refuses %j", (text) => {
    expect(parseDecimal(text)).toBeNull();
  });

  test("a written number is read as the nearest double", () => {
    fc.assert(
      fc.property(writtenNumber, ({ text, digits, power }) => {
        const read = parseDecimal(text);
        expect(read?.text).toBe(text);
        expect(isNearest(read?.value ?? Number.NaN, digits, power)).toBe(true);
      }),
      { numRuns: 2000 },
    );
  });

  test("any text is refused, or is a plain number in plain digits", () => {
    const scraps = fc.constantFrom(
      ..."0123456789.,+-eE xX_<>~'/%mMnNaA\t\u00A0１２٣½\u2212",
      "NaN",
      "Infinity",
      "1e",
    );
    const texts = fc.oneof(
      fc.string(),
      fc.array(scraps, { maxLength: 8 }).map((parts) => parts.join("")),
    );
    fc.assert(
      fc.property(texts, (text) => {
        const read = parseDecimal(text);
        if (read === null) return;
        expect(read.text).toMatch(/^[+-]?(?=\.?[0-9])[0-9]*\.?[0-9]*(?:[eE][+-]?[0-9]+)?$/);
        expect(text).toBe(text.replace(text.trim(), read.text));
        expect(Number.isFinite(read.value)).toBe(true);
      }),
      { numRuns: 5000 },
    );
  });
});

describe("shiftDecimal", () => {
  test.each([
    ["4.15", 1, 41.5],
    ["0.1", 3, 100],
    ["3.3", 2, 330],
    [".57", 2, 57],
    ["12.", -3, 0.012],
    ["-1.005", 3, -1005],
    ["1e2", -3, 0.1],
  ])("%s times 10^%i", (text, power, value) => {
    const decimal = parseDecimal(text);
    expect(decimal && shiftDecimal(decimal, power)).toBe(value);
  });

  test("the shifted value is the nearest double too", () => {
    fc.assert(
      fc.property(writtenNumber, fc.integer({ min: -3, max: 3 }), (written, shift) => {
        const decimal = parseDecimal(written.text);
        const value = decimal ? shiftDecimal(decimal, shift) : Number.NaN;
        expect(isNearest(value, written.digits, written.power + shift)).toBe(true);
      }),
      { numRuns: 2000 },
    );
  });
});
