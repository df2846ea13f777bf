import { describe, expect, test } from "vitest";
import type { Interpretation } from "../../src/anatomy/interpret.ts";
import { placeById } from "../../src/anatomy/places.ts";
import { believedRange, sizeDoubt } from "../../src/cases/doubtful-size.ts";
import { parseDecimal } from "../../src/quantities/decimal.ts";

const doubt = (text: string, unit: string, rest: Partial<Interpretation> = {}) => {
  const decimal = parseDecimal(text);
  if (!decimal) throw new Error(text);
  const what: Interpretation = {
    place: placeById("mid-ascending"),
    placeOrigin: "sheet column",
    quantity: "diameter",
    statistic: "maximum",
    lumen: "unstated",
    edge: "outer",
    path: "unstated",
    plane: "unstated",
    phase: "unstated",
    ...rest,
  };
  return sizeDoubt(what, decimal, unit, `${text} ${unit}`);
};

describe("sizeDoubt", () => {
  test.each([
    ["4.6", "mm", {}, "4.6 cm"],
    ["46", "cm", {}, "46 mm"],
    ["9.9", "mm", {}, "9.9 cm"],
    ["4.6", "mm", { quantity: "long-axis" }, "4.6 cm"],
    // A circle of 46 mm across has a perimeter of 144.5 mm and an area of 1662 mm2.
    ["14.45", "mm", { quantity: "perimeter" }, "14.45 cm"],
    ["16.62", "mm2", { quantity: "area" }, "16.62 cm2"],
    ["1662", "cm2", { quantity: "area" }, "1662 mm2"],
  ] as const)(
    "%s %s is left out, because in another unit it would be an aorta",
    (text, unit, rest, other) => {
      expect(doubt(text, unit, rest)?.other).toBe(other);
    },
  );

  test.each([
    ["0.9", "mm", {}],
    ["151", "mm", {}],
    ["460", "mm", {}],
    ["9", "mm", { statistic: "minimum" }],
    ["9", "mm", { quantity: "short-axis" }],
    ["46", "m", {}],
  ] as const)("%s %s is doubted and nothing more", (text, unit, rest) => {
    expect(doubt(text, unit, rest)).toEqual({ met: `${text} ${unit}`, other: null });
  });

  test.each([
    ["10", "mm", {}],
    ["150", "mm", {}],
    ["15", "cm", {}],
    ["1662", "mm2", { quantity: "area" }],
    ["4.6", "mm", { lumen: "true" }],
    ["4.6", "mm", { lumen: "false" }],
    ["4.6", "mm", { place: placeById("left-subclavian-artery") }],
    ["4.6", "mm", { place: placeById("zone-11-left") }],
    ["4.6", "mm", { quantity: "sound-length" }],
    ["4.6", "mL", { quantity: "volume" }],
  ] as const)("%s %s is not doubted", (text, unit, rest) => {
    expect(doubt(text, unit, rest)).toBeNull();
  });

  test("the circle of an area is named", () => {
    expect(doubt("16.62", "mm2", { quantity: "area" })?.met).toBe("16.62 mm2 (a circle of 4.6 mm)");
  });
});

describe("believedRange", () => {
  const zone = placeById("zone-5");
  const branch = placeById("left-subclavian-artery");
  const iliac = placeById("zone-10-left");
  test.each([
    ["length", 700, 700.1, zone, "whole"],
    ["sound-length", 700, 700.1, zone, "unstated"],
    ["angle", 360, 361, zone, "unstated"],
    ["volume", 3000, 3001, zone, "whole"],
    ["diameter", 100, 101, branch, "unstated"],
    ["diameter", 1, 0.9, branch, "unstated"],
    ["perimeter", 314, 315, iliac, "unstated"],
    ["area", 7853, 7855, iliac, "unstated"],
    ["diameter", 150, 151, zone, "true"],
    ["long-axis", 150, 151, zone, "false"],
  ] as const)("%s: %d is believed, %d is not", (quantity, believed, doubted, place, lumen) => {
    expect(believedRange({ quantity, place, lumen, value: believed })).toBeNull();
    expect(believedRange({ quantity, place, lumen, value: doubted })).toMatch(/\d/);
  });

  test("the size of the whole aorta is left to sizeDoubt", () => {
    expect(
      believedRange({ quantity: "diameter", place: zone, lumen: "whole", value: 400 }),
    ).toBeNull();
  });
});
