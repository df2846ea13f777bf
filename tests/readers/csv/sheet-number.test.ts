import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { sheetNumber } from "../../../src/readers/csv/sheet-number.ts";

const marks = ["point", "comma"] as const;

describe("sheetNumber", () => {
  test.each([
    ["41", "point", 41],
    ["41.50", "point", 41.5],
    ["1.234", "point", 1.234],
    ["1e3", "point", 1000],
    ["-2", "point", -2],
    ["41", "comma", 41],
    ["41,50", "comma", 41.5],
    ["1,234", "comma", 1.234],
    [",5", "comma", 0.5],
    ["1,5e1", "comma", 15],
  ] as const)("%s with a decimal %s is %d", (text, mark, value) => {
    expect(sheetNumber(text, mark)).toMatchObject({ value });
  });

  test.each([
    ["25,4", "point", "csv-number-comma"],
    ["1,234", "point", "csv-number-comma"],
    ["25.4", "comma", "csv-number-point"],
    ["1.234", "comma", "csv-number-point"],
    ["1.234,5", "point", "csv-number-grouped"],
    ["1.234,5", "comma", "csv-number-grouped"],
    ["1,234.5", "point", "csv-number-grouped"],
    ["1,234.5", "comma", "csv-number-grouped"],
    ["1.234.567", "point", "csv-number-grouped"],
    ["1'234", "point", "csv-number-grouped"],
    ["1\u2019234", "point", "csv-number-grouped"],
    ["3 5", "point", "csv-number-grouped"],
    ["3\u00A05", "point", "csv-number-grouped"],
    ["3\u20095", "comma", "csv-number-grouped"],
    ["3\u202F5", "comma", "csv-number-grouped"],
    ["\u221241", "point", "csv-number-not-understood"],
    ["４１", "point", "csv-number-not-understood"],
    ["٤١", "point", "csv-number-not-understood"],
    ["< 30", "point", "csv-number-not-understood"],
    [">50", "point", "csv-number-not-understood"],
    ["~40", "point", "csv-number-not-understood"],
    ["n/a", "point", "csv-number-not-understood"],
    ["-", "point", "csv-number-not-understood"],
    ["#REF!", "point", "csv-number-not-understood"],
    ["NaN", "point", "csv-number-not-understood"],
    ["40-42", "point", "csv-number-not-understood"],
    ["40/42", "comma", "csv-number-not-understood"],
    ["1e400", "point", "csv-number-not-understood"],
    ["", "point", "csv-number-not-understood"],
  ] as const)("%j with a decimal %s is refused", (text, mark, problem) => {
    expect(sheetNumber(text, mark)).toEqual({ problem });
  });

  test("a number written with the declared mark is exactly that number, with the other mark refused", () => {
    const written = fc.record({
      sign: fc.constantFrom("", "-", "+"),
      whole: fc.stringMatching(/^\d{1,6}$/),
      fraction: fc.stringMatching(/^\d{1,6}$/),
      mark: fc.constantFrom(...marks),
    });
    fc.assert(
      fc.property(written, ({ sign, whole, fraction, mark }) => {
        const [own, other] = mark === "comma" ? [",", "."] : [".", ","];
        const value = Number(`${sign}${whole}.${fraction}`);
        expect(sheetNumber(`${sign}${whole}${own}${fraction}`, mark)).toMatchObject({ value });
        expect(sheetNumber(`${sign}${whole}${other}${fraction}`, mark)).toHaveProperty("problem");
      }),
      { numRuns: 2000 },
    );
  });

  test("any text is refused, or is digits with the declared mark that stand for exactly the value read", () => {
    const scraps = fc.constantFrom(
      ..."0123456789.,+-eE <>~'_/%m\t\u00A0\u2009\u202F４٤½\u2212\u2019",
      "NaN",
      "1e",
    );
    const texts = fc.oneof(
      fc.string({ unit: "binary" }),
      fc.array(scraps, { maxLength: 8 }).map((parts) => parts.join("")),
    );
    const seen = { read: 0, refused: 0 };
    fc.assert(
      fc.property(texts, fc.constantFrom(...marks), (text, mark) => {
        const read = sheetNumber(text, mark);
        if ("problem" in read) {
          seen.refused++;
          return;
        }
        seen.read++;
        const own = mark === "comma" ? "," : "\\.";
        const plain = new RegExp(`^ *[+-]?(?:\\d+(?:${own}\\d*)?|${own}\\d+)(?:[eE][+-]?\\d+)? *$`);
        expect(text).toMatch(plain);
        expect(read.value).toBe(Number(text.replace(",", ".")));
      }),
      { numRuns: 10_000 },
    );
    expect(Math.min(seen.read, seen.refused)).toBeGreaterThan(200);
  });
});
