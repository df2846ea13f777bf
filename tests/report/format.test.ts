import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  decimalCell,
  formatAgainstLimit,
  formatCount,
  formatError,
  formatInterval,
  formatLimit,
  formatList,
  formatNumber,
  formatUnit,
  formatValue,
  shortPlace,
} from "../../src/report/format.ts";

const plain = (text: string): string => text.replaceAll("\u00a0", " ").replaceAll("\u2212", "-");

describe("numbers", () => {
  test.each([
    [55, "mm", "55.0"],
    [57.449, "mm", "57.4"],
    [-3.14, "mm/year", "-3.1"],
    [-0.04, "mm", "0.0"],
    [3.078, "cm/m2", "3.08"],
    [10.04, "cm2/m", "10.04"],
  ])("%d %s is printed as %s", (value, unit, printed) => {
    expect(plain(formatNumber(value, unit))).toBe(printed);
  });

  test("values carry their unit as it is printed", () => {
    expect(formatValue(12.34, "mm2")).toBe("12.3 mm²");
    expect(formatValue(33, "deg")).toBe("33.0°");
    expect(formatValue(1.067, "1")).toBe("1.07");
    expect(formatUnit("mm/year")).toBe("mm per year");
    expect(formatUnit("mL")).toBe("mL");
  });

  test("a limit keeps its own decimals", () => {
    expect([55, 3.08, 5.5].map(formatLimit)).toEqual(["55", "3.08", "5.5"]);
  });

  test("a value beside a limit never rounds to the other side of it", () => {
    expect(formatAgainstLimit(54.96, 55, "mm")).toBe("54.96");
    expect(formatAgainstLimit(54.9999, 55, "mm")).toBe("54.9999");
    expect(formatAgainstLimit(55, 55, "mm")).toBe("55.0");
    expect(formatAgainstLimit(3.0799, 3.08, "cm/m2")).toBe("3.0799");
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 120, noNaN: true }),
        fc.integer({ min: 0, max: 120 }),
        (value, limit) => {
          const printed = Number(plain(formatAgainstLimit(value, limit, "mm")));
          expect(Math.sign(printed - limit)).toBe(Math.sign(value - limit));
          expect(Math.abs(printed - value)).toBeLessThanOrEqual(0.05 + 1e-9);
        },
      ),
    );
  });

  test("a number is cut at its decimal point", () => {
    expect(decimalCell("57.4")).toEqual({ whole: "57", fraction: ".4" });
    expect(decimalCell("57")).toEqual({ whole: "57", fraction: "" });
  });
});

describe("errors", () => {
  test("an even error is plus and minus, an uneven one a range, an unknown one nothing", () => {
    expect(plain(formatError({ value: 55, low: 53, high: 57 }))).toBe("(± 2.0)");
    expect(plain(formatError({ value: 55, low: 54, high: 57 }))).toBe("(54.0 to 57.0)");
    expect(formatError({ value: 55, low: null, high: null })).toBe("");
  });

  test("an interval says value, unit and error", () => {
    expect(plain(formatInterval({ value: 55, low: 51.1, high: 58.9, unit: "mm" }))).toBe(
      "55.0 mm (± 3.9)",
    );
    expect(formatInterval({ value: 55, low: null, high: null, unit: "mm" })).toBe("55.0 mm");
  });
});

describe("words", () => {
  test("counts and lists", () => {
    expect(formatCount(1, "case")).toBe("1 case");
    expect(formatCount(2, "series", "series")).toBe("2 series");
    expect([[], ["a"], ["a", "b"], ["a", "b", "c"]].map(formatList)).toEqual([
      "",
      "a",
      "a and b",
      "a, b and c",
    ]);
  });

  test("a level is named without the words that say where it is taken", () => {
    const level = "proximal descending aorta, 2 cm distal to the left subclavian";
    expect(shortPlace({ kind: "level", label: level })).toBe("proximal descending aorta");
    const zone = "zone 9, infrarenal aorta";
    expect(shortPlace({ kind: "zone", label: zone })).toBe(zone);
  });
});
