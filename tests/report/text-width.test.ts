import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { shortenText, textWidthPt, wrapText } from "../../src/report/text-width.ts";

const words = fc.array(fc.string({ unit: "grapheme-ascii", maxLength: 40 }), { maxLength: 30 });

describe("textWidthPt", () => {
  test("digits are as wide as each other, so that columns line up", () => {
    const widths = Array.from("0123456789", (digit) => textWidthPt(digit, 9));
    expect(new Set(widths).size).toBe(1);
  });

  test("grows with the size, and is the sum of its letters", () => {
    expect(textWidthPt("aorta", 18)).toBeCloseTo(2 * textWidthPt("aorta", 9), 10);
    expect(textWidthPt("ab", 9)).toBeCloseTo(textWidthPt("a", 9) + textWidthPt("b", 9), 10);
    expect(textWidthPt("aorta", 9, 600)).toBeGreaterThan(textWidthPt("aorta", 9));
  });

  test("knows Greek, Cyrillic and accented letters, and gives a full em to those it lacks", () => {
    for (const text of ["ł", "λ", "ж", "ế"]) expect(textWidthPt(text, 10), text).toBeLessThan(9);
    expect(textWidthPt("漢", 10)).toBe(10);
  });
});

describe("wrapText", () => {
  test("no line is wider than asked, and no letter is lost", () => {
    fc.assert(
      fc.property(words, fc.integer({ min: 20, max: 300 }), (parts, width) => {
        const text = parts.join(" ");
        const lines = wrapText(text, width, 9);
        for (const line of lines) expect(textWidthPt(line, 9)).toBeLessThanOrEqual(width);
        expect(lines.join("").replaceAll(" ", "")).toBe(text.replaceAll(" ", ""));
      }),
    );
  });

  test("a word longer than a line is broken, a non-breaking space is not", () => {
    expect(wrapText("InventedInvented", 40, 9).length).toBeGreaterThan(1);
    expect(wrapText("38.4\u00a0mm before", 45, 9)).toEqual(["38.4\u00a0mm", "before"]);
  });
});

describe("shortenText", () => {
  test("a text that fits stays as it is", () => {
    expect(shortenText("short", 100, 9, 1)).toBe("short");
  });

  test("a longer one fits with its ending, and starts as the text does", () => {
    fc.assert(
      fc.property(words, fc.integer({ min: 60, max: 300 }), (parts, width) => {
        const text = parts.join(" ");
        const short = shortenText(text, width, 9, 2, "… (more)");
        expect(wrapText(short, width, 9).length).toBeLessThanOrEqual(2);
        if (short !== text) {
          expect(short.endsWith("… (more)")).toBe(true);
          expect(text.startsWith(short.slice(0, -"… (more)".length))).toBe(true);
        }
      }),
    );
  });

  test("a text of a million letters does not take long", () => {
    const start = performance.now();
    expect(shortenText("invented ".repeat(110_000), 200, 9, 3).length).toBeLessThan(400);
    expect(performance.now() - start).toBeLessThan(500);
  });
});
