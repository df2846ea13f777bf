import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { placeById } from "../../src/anatomy/places.ts";
import { unknownFacts } from "../../src/cases/case-facts.ts";
import { derivedQuantities } from "../../src/cases/derived-quantities.ts";
import type { CaseFacts, Exam, Measurement } from "../../src/cases/patient-case.ts";
import { sampleMeasurement } from "./sample-measurement.ts";

const exam = (imagingDate: string): Exam => ({
  key: imagingDate,
  studyUid: null,
  imagingDate,
  imagingDateOrigin: "study date",
  modality: "CT",
  gated: null,
  reportState: [],
});
const derive = (measurements: Measurement[], facts: Partial<CaseFacts> = {}) =>
  derivedQuantities({
    exams: [exam("2025-01-12"), exam("2026-01-12")],
    measurements,
    facts: { ...unknownFacts, ...facts },
  });

const ascending = { place: placeById("mid-ascending") };
const perimeter = sampleMeasurement("118 mm", { quantity: "perimeter" });
const area = sampleMeasurement("10.8 cm2", { quantity: "area" });
const largest = sampleMeasurement("50 mm", { statistic: "maximum" });
const smallest = sampleMeasurement("40 mm", { statistic: "minimum" });

describe("derivedQuantities", () => {
  // By hand, with the ends of the rounding: 117.5 / pi = 37.401, 118.5 / pi = 37.720.
  test.each([
    ["diameter from perimeter", [perimeter], 37.5606, 37.4014, 37.7197, "118 mm / pi"],
    ["diameter from area", [area], 37.0823, 36.9964, 37.1681, "2 x square root of (10.8 cm2 / pi)"],
    ["mean diameter", [largest, smallest], 45, 44.5, 45.5, "(50 mm + 40 mm) / 2"],
    [
      "eccentricity",
      [largest, smallest],
      0.6,
      0.575,
      0.6231,
      "square root of (1 - (40 mm / 50 mm)^2), as of an ellipse",
    ],
    ["smallest over largest", [largest, smallest], 0.8, 0.7822, 0.8182, "40 mm / 50 mm"],
  ])("%s", (kind, from, value, low, high, how) => {
    const one = derive(from).find((derived) => derived.kind === kind);
    expect(one?.value).toBeCloseTo(value, 4);
    expect(one?.low).toBeCloseTo(low, 3);
    expect(one?.high).toBeCloseTo(high, 3);
    expect(one).toMatchObject({
      how,
      derivedFrom: from.map(({ key }) => key),
      exam: "2026-01-12",
      lumen: "whole",
      edge: "outer",
    });
    expect(one?.key).toMatch(/^D[0-9a-f]{8}$/);
  });

  // 55 mm at 180 cm and 76 kg: area of the circle 23.758 cm2; body surface area by DuBois 1.9535 m2.
  test.each([
    ["area over height", 13.199, "cm2/m", "circle of 55 mm, pi x (55 mm / 2)^2 / height 180 cm"],
    ["aortic height index", 3.0556, "cm/m", "55 mm / height 180 cm"],
    [
      "aortic size index",
      2.8154,
      "cm/m2",
      "55 mm / body surface area 1.95 m2 (DuBois, 180 cm and 76 kg)",
    ],
  ])("%s", (kind, value, unit, how) => {
    const one = sampleMeasurement("55 mm", { statistic: "maximum", ...ascending });
    const made = derive([one], { heightCm: 180, weightKg: 76 });
    expect(made).toHaveLength(3);
    const found = made.find((derived) => derived.kind === kind);
    expect(found).toMatchObject({ value: expect.closeTo(value, 3), unit, how });
  });

  test("a measured area over height, with and without a diameter", () => {
    const measured = { ...area, ...ascending };
    const [, one] = derive([measured], { heightCm: 180, weightKg: null });
    expect(one).toMatchObject({
      kind: "area over height",
      value: expect.closeTo(6, 10),
      how: "measured area 10.8 cm2 / height 180 cm",
    });
    const both = derive([measured, { ...largest, ...ascending }], { heightCm: 180 });
    expect(both.map(({ kind }) => kind)).toEqual([
      "diameter from area",
      "area over height",
      "area over height",
      "aortic height index",
    ]);
    expect(new Set(both.map(({ key }) => key)).size).toBe(4);
  });

  test.each([
    ["a place that is neither root nor ascending", { place: placeById("zone-5") }],
    ["a branch", { place: placeById("innominate-artery") }],
    ["the true lumen", { ...ascending, lumen: "true" as const }],
    ["a smallest diameter", { ...ascending, statistic: "minimum" as const }],
    ["a mean diameter", { ...ascending, statistic: "mean" as const }],
  ])("no index for %s", (_, rest) => {
    const one = sampleMeasurement("55 mm", { statistic: "maximum", ...rest });
    expect(derive([one], { heightCm: 180, weightKg: 76 })).toEqual([]);
  });

  test("no index without height; no size index without weight; a diameter without statistic only where no largest is", () => {
    const one = sampleMeasurement("55 mm", { ...ascending, statistic: "unstated" });
    expect(derive([one], { weightKg: 76 })).toEqual([]);
    const kinds = derive([one], { heightCm: 180 }).map(({ kind }) => kind);
    expect(kinds).toEqual(["area over height", "aortic height index"]);
    const beside = { ...largest, ...ascending };
    for (const { derivedFrom } of derive([one, beside], { heightCm: 180, weightKg: 76 })) {
      expect(derivedFrom).toEqual([beside.key]);
    }
  });

  test("readings that differ give nothing, and those that agree give one value", () => {
    const other = sampleMeasurement("120 mm", { quantity: "perimeter" });
    expect(derive([perimeter, other])).toEqual([]);
    const finer = sampleMeasurement("118.2 mm", { quantity: "perimeter" });
    expect(derive([perimeter, finer]).map(({ derivedFrom }) => derivedFrom)).toEqual([
      [perimeter.key],
    ]);
  });

  test.each([
    ["different edges", largest, { ...smallest, edge: "inner" as const }],
    [
      "a range",
      { ...largest, place: placeById("aortic-arch") },
      { ...smallest, place: placeById("aortic-arch") },
    ],
    ["a smallest over the largest", largest, sampleMeasurement("51 mm", { statistic: "minimum" })],
    ["a largest and a short axis", largest, sampleMeasurement("40 mm", { quantity: "short-axis" })],
  ])("no mean from two diameters: %s", (_, one, other) => {
    expect(derive([one, other])).toEqual([]);
  });

  test("long and short axis are two diameters too", () => {
    const axes = [
      sampleMeasurement("50 mm", { quantity: "long-axis" }),
      sampleMeasurement("30 mm", { quantity: "short-axis" }),
    ];
    expect(derive(axes).map(({ kind, value }) => [kind, value])).toEqual([
      ["mean diameter", 40],
      ["eccentricity", 0.8],
      ["smallest over largest", 0.6],
    ]);
  });

  test("the order of the measurements does not matter: exam, vessel, kind", () => {
    const all = [
      perimeter,
      area,
      { ...perimeter, key: "M-far", place: placeById("zone-9") },
      { ...perimeter, key: "M-early", exam: "2025-01-12", place: placeById("zone-9") },
      largest,
      smallest,
    ];
    const rows = derive(all).map(({ exam: of, place, kind }) => `${of} ${place.id} ${kind}`);
    expect(rows).toEqual([
      "2025-01-12 zone-9 diameter from perimeter",
      "2026-01-12 zone-2 diameter from perimeter",
      "2026-01-12 zone-2 diameter from area",
      "2026-01-12 zone-2 mean diameter",
      "2026-01-12 zone-2 eccentricity",
      "2026-01-12 zone-2 smallest over largest",
      "2026-01-12 zone-9 diameter from perimeter",
    ]);
    expect(derive(all.toReversed())).toEqual(derive(all));
  });

  test("the value of unrounded inputs lies between low and high", () => {
    const size = fc.double({ min: 12, max: 90, noNaN: true });
    fc.assert(
      fc.property(size, size, fc.integer({ min: 0, max: 2 }), (one, other, decimals) => {
        const [a, b] = [Math.max(one, other), Math.min(one, other)];
        const written = (mm: number, statistic: Measurement["statistic"]) =>
          sampleMeasurement(`${mm.toFixed(decimals)} mm`, { statistic });
        const made = derive([written(a, "maximum"), written(b, "minimum")]);
        const exact = [(a + b) / 2, Math.sqrt(1 - (b / a) ** 2), b / a];
        expect(made).toHaveLength(3);
        for (const [index, { low, value, high }] of made.entries()) {
          for (const number of [value, exact[index] ?? NaN]) {
            expect(number).toBeGreaterThanOrEqual(low - 1e-6);
            expect(number).toBeLessThanOrEqual(high + 1e-6);
          }
        }
      }),
    );
  });
});
