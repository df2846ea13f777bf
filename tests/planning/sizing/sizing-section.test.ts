import { describe, expect, test } from "vitest";
import { placeById } from "../../../src/anatomy/places.ts";
import type { Station } from "../../../src/cases/patient-case.ts";
import {
  sectionsFromMeasurements,
  sectionsFromStations,
} from "../../../src/planning/sizing/sizing-section.ts";
import { sampleMeasurement } from "../../growth/sample-growth-case.ts";

const exam = "2026-01-12";
const reading = (value: number, more: Parameters<typeof sampleMeasurement>[2] = {}) =>
  sampleMeasurement(exam, value, { placeId: "zone-3", edge: "inner", ...more });

describe("sectionsFromMeasurements", () => {
  test("one section of one place with everything measured there", () => {
    const readings = [
      reading(36),
      reading(24, { quantity: "short-axis", statistic: "unstated" }),
      reading(30, { statistic: "mean" }),
      reading(95.2, { quantity: "perimeter", statistic: "unstated" }),
      reading(678.6, { quantity: "area", statistic: "unstated" }),
      reading(40, { quantity: "length", statistic: "unstated" }),
    ];
    expect(sectionsFromMeasurements(readings, () => 1)).toEqual([
      {
        place: placeById("zone-3").label,
        distanceMm: null,
        lumen: "whole",
        edge: "inner",
        maximumMm: 36,
        minimumMm: 24,
        meanMm: 30,
        perimeterMm: 95.2,
        areaMm2: 678.6,
        used: readings.slice(0, 5).map(({ key }) => key),
        errorMm: 1.96,
        problem: null,
      },
    ]);
  });

  test.each([
    ["lumen", { lumen: "true" }],
    ["edge", { edge: "outer" }],
    ["phase", { phase: "systole" }],
    ["plane", { plane: "axial" }],
    ["place", { placeId: "zone-4" }],
  ] as const)("another %s is another section", (_, more) => {
    expect(sectionsFromMeasurements([reading(36), reading(30, more)], () => 1)).toHaveLength(2);
  });

  test("the largest reading error of a section counts", () => {
    const readings = [reading(36), reading(24, { statistic: "minimum" })];
    const [only] = sectionsFromMeasurements(readings, ({ value }) => (value === 24 ? 2 : 1));
    expect(only?.errorMm).toBeCloseTo(3.92, 10);
  });

  test.each([
    ["two largest diameters", [reading(36), reading(35)]],
    [
      "a long axis beside a largest diameter",
      [reading(36), reading(35, { quantity: "long-axis" })],
    ],
  ])("%s that differ are a problem", (_, readings) => {
    expect(sectionsFromMeasurements(readings, () => 1)[0]?.problem).toBe(
      "readings of the same exam differ",
    );
  });

  test("a diameter that does not say which it is stands in no field", () => {
    const [only] = sectionsFromMeasurements([reading(36, { statistic: "unstated" })], () => 1);
    expect(only).toMatchObject({ maximumMm: null, minimumMm: null, meanMm: null, problem: null });
  });
});

describe("sectionsFromStations", () => {
  const station = (more: Partial<Station>): Station => ({
    key: "S1",
    distanceMm: 45,
    point: null,
    mark: null,
    wall: "native",
    lumen: "whole",
    edge: "inner",
    maximumMm: 32,
    minimumMm: 30,
    perimeterMm: null,
    areaMm2: null,
    thrombusArcDeg: null,
    thrombusThicknessMm: null,
    calciumArcDeg: null,
    source: { file: "line.csv", sha256: "00", at: null },
    reader: null,
    comment: null,
    ...more,
  });

  test("by the landmark where one stands there, else by the distance", () => {
    const marked = { place: placeById("left-subclavian-artery"), edge: "distal edge" } as const;
    const sections = sectionsFromStations([station({ mark: marked }), station({})], () => 0.5);
    expect(sections.map(({ place }) => place)).toEqual([
      `${placeById("left-subclavian-artery").label}, distal edge`,
      "45.0 mm along the centreline",
    ]);
    expect(sections[0]).toMatchObject({
      distanceMm: 45,
      maximumMm: 32,
      minimumMm: 30,
      meanMm: null,
      errorMm: 0.98,
      used: ["S1"],
    });
  });

  test("a station without any size is no section", () => {
    expect(sectionsFromStations([station({ maximumMm: null, minimumMm: null })], () => 1)).toEqual(
      [],
    );
  });
});
