import { describe, expect, test } from "vitest";
import type { Measurement, Station } from "../../../src/cases/patient-case.ts";
import { priorRepairsOf } from "../../../src/cases/prior-repairs.ts";
import { diameterChecks, diametersOfZone } from "../../../src/planning/landing/diameter-checks.ts";
import { landingData } from "../../../src/planning/landing/landing-data.ts";
import { zoneStations } from "../../../src/planning/landing/zone-stations.ts";
import { landingWall } from "../../../src/planning/landing/landing-zone-facts.ts";
import { sampleMeasurement } from "../../growth/sample-growth-case.ts";
import { everyFive, lineCase, marks } from "./sample-segments.ts";
import { asOf, inventedCase, type InventedDiameter } from "../../guidelines/invented-case.ts";

const zoneOf = (id: string) => {
  const zone = landingData.zones.find((one) => one.zone === id);
  if (!zone) throw new Error(`no zone ${id}`);
  return zone;
};
const date = "2026-03-02";
const native = landingWall("2", [], asOf);
const reading = (value: number, more: Parameters<typeof sampleMeasurement>[2] = {}) =>
  sampleMeasurement(date, value, { placeId: "zone-2", ...more });

/** Checks of one zone on these readings, each with an SD of 1 mm. */
const checksOf = (
  readings: readonly Measurement[],
  {
    zone = "2",
    wall = native,
    stopped = null,
  }: { zone?: string } & Partial<Parameters<typeof diameterChecks>[2]> = {},
) =>
  diameterChecks(
    zoneOf(zone),
    { readings, stations: [], errorMmOf: () => 1.96, date },
    { wall, stopped },
  );
const outcomes = (...given: Parameters<typeof checksOf>) =>
  Object.fromEntries(checksOf(...given).map(({ id, outcome }) => [id, outcome]));

describe("published diameters of a landing zone", () => {
  // The limits are compared with their sources in tests/outside/landing-limits.test.ts.
  test.each([
    [37.9, "met", "met"],
    [38, "met", "met"],
    [38.1, "met", "not-met"],
    [40, "not-met", "not-met"],
    // 0.1 x 380 is over 38 in binary, and is 38 mm.
    [0.1 * 380, "met", "met"],
  ])("largest diameter %s mm: under 40 %s, at most 38 %s", (mm, under40, atMost38) => {
    expect(outcomes([reading(mm), reading(30, { statistic: "minimum" })])).toEqual({
      "diameter-38": atMost38,
      "diameter-40": under40,
    });
  });

  test.each([
    // 38.1 + 1.96 = 40.06; 38.0 + 1.96 = 39.96.
    [38.1, true],
    [38, false],
    // 41.97 - 1.96 = 40.01; 41.95 - 1.96 = 39.99.
    [41.97, false],
    [41.95, true],
  ])("whether the 95 %% interval of %s mm holds 40 mm: %s", (mm, spansLimit) => {
    const check = checksOf([reading(mm)]).find(({ id }) => id === "diameter-40");
    expect(check?.spansLimit).toBe(spansLimit);
    expect(check?.value).toMatchObject({ value: mm, unit: "mm" });
    expect(check?.value?.low).toBeCloseTo(mm - 1.96, 9);
  });

  test("the largest of all readings across the vessel counts, with its key, place, edge and date", () => {
    const readings = [
      reading(33),
      reading(39, { quantity: "long-axis", statistic: "unstated", edge: "unstated" }),
      reading(150, { quantity: "perimeter", statistic: "unstated" }),
    ];
    expect(checksOf(readings)[0]).toMatchObject({
      id: "diameter-38",
      outcome: "not-met",
      limit: "<= 38 mm",
      used: [readings[1]?.key],
      missing: [],
      reason: `Largest diameter 39.0 mm, ${readings[1]?.place.label}, edge not stated, ${date}.`,
    });
    expect(checksOf(readings)[0]?.source).toContain("not confirmed against the source");
  });

  test("perimeter and area alone leave them open, and name what is missing", () => {
    for (const { outcome, missing, value } of checksOf([
      reading(100, { quantity: "perimeter", statistic: "unstated" }),
    ])) {
      expect([outcome, missing, value]).toEqual(["not-assessable", ["diameters in zone 2"], null]);
    }
  });

  test("a zone without a meaning names what would give it one, whatever was measured", () => {
    const stopped = { why: "The zone has no meaning here.", missing: ["a convention"] };
    expect(checksOf([reading(30)], { stopped })).toMatchObject(
      ["diameter-38", "diameter-40"].map((id) => ({
        id,
        outcome: "not-assessable",
        reason: stopped.why,
        missing: stopped.missing,
        used: [],
      })),
    );
  });
});

describe("the native ascending aorta under 37 mm", () => {
  const of = (repairs: ReturnType<typeof priorRepairsOf>, mm: number) =>
    checksOf([reading(mm, { placeId: "zone-0" })], {
      zone: "0",
      wall: landingWall("0", repairs, asOf),
    }).find(({ id }) => id === "diameter-37-ascending");

  test("is a condition of zone 0 alone", () => {
    expect(Object.keys(outcomes([reading(30)], { zone: "0" }))).toEqual([
      "diameter-37-ascending",
      "diameter-38",
      "diameter-40",
    ]);
    for (const zone of ["1", "2", "3", "4"]) {
      expect(Object.keys(outcomes([reading(30)], { zone }))).toEqual([
        "diameter-38",
        "diameter-40",
      ]);
    }
  });

  test.each([
    [36.9, "met"],
    [37, "not-met"],
  ])("in native wall %s mm is %s", (mm, outcome) => {
    expect(of([], mm)?.outcome).toBe(outcome);
  });

  test("is not applicable to a graft, and open where the wall is not stated", () => {
    expect(of(priorRepairsOf("graft, zone 0, 2018"), 30)).toMatchObject({
      outcome: "not-applicable",
      missing: [],
      reason: expect.stringContaining("graft since 2018"),
    });
    expect(of(null, 30)).toMatchObject({
      outcome: "not-assessable",
      missing: ["prior repair (or none)"],
    });
  });
});

describe("the diameters that a zone is judged on", () => {
  const of = (
    readings: InventedDiameter[],
    {
      repair = "none",
      mayBeDissected = false,
      on = asOf,
      stations = [],
    }: {
      repair?: string;
      mayBeDissected?: boolean;
      on?: string;
      stations?: readonly Station[];
    } = {},
  ) => {
    const wall = landingWall("2", priorRepairsOf(repair), on);
    const patientCase =
      stations.length === 0 ? inventedCase(readings) : lineCase(stations, {}, readings);
    const sections = zoneStations(patientCase, {
      asOf: on,
      dissection: null,
      archConventions: [],
      readingSdMmOf: () => 1,
      stationSdMmOf: () => 1,
    });
    const basis = { wall, mayBeDissected, asOf: on, sections };
    const {
      readings: found,
      stations: along,
      ...rest
    } = diametersOfZone(zoneOf("2"), patientCase, basis);
    return {
      ...rest,
      mm: [...found.map(({ value }) => value), ...along.map(({ valueMm }) => valueMm)],
    };
  };
  const zone2 = (mm: number, more: Partial<InventedDiameter> = {}): InventedDiameter => ({
    place: "zone-2",
    mm,
    ...more,
  });

  test("are of the whole vessel; a lumen that is not stated is one where there is no dissection", () => {
    const readings = [
      zone2(32),
      zone2(31, { lumen: "unstated" }),
      zone2(20, { lumen: "true" }),
      { place: "left-subclavian-artery", mm: 9 },
      { place: "zone-3", mm: 40 },
      zone2(12, { quantity: "length" }),
    ];
    expect(of(readings).mm).toEqual([32, 31]);
    expect(of(readings, { mayBeDissected: true }).mm).toEqual([32]);
  });

  test("are of the latest exam up to the day that has any", () => {
    const readings = [
      zone2(30, { exam: "2024-03-02" }),
      zone2(33, { exam: "2025-03-02" }),
      { place: "zone-5", mm: 50, exam: "2026-02-02" },
    ];
    expect(of(readings)).toMatchObject({ mm: [33], date: "2025-03-02" });
    expect(of(readings, { on: "2025-01-01" })).toMatchObject({ mm: [30], date: "2024-03-02" });
    expect(of([])).toEqual({ mm: [], date: "", missing: ["diameters in zone 2"] });
  });

  test("take in the sections of the centreline that lie in the zone, of the same exam", () => {
    // Zone 2 lies from 68 to 80 mm: sections at 70 and 75 mm.
    const stations = [...marks, ...everyFive((mm) => ({ maximumMm: mm }))];
    expect(of([], { stations })).toEqual({ mm: [70, 75], date, missing: [] });
    expect(of([zone2(33)], { stations }).mm).toEqual([33, 70, 75]);
    const readings = [zone2(33, { exam: "2026-03-09" })];
    expect(of(readings, { stations, on: "2026-04-01" })).toMatchObject({
      mm: [33],
      date: "2026-03-09",
    });
  });

  test("are none from before a repair, and say so where the order is not known", () => {
    const late = of([zone2(33)], { repair: "graft, zone 2, 2026-04" });
    expect(late.mm).toEqual([]);
    expect(late.missing.join()).toContain("measurements of zone 2 after its repair");
    const open = of([zone2(33)], { repair: "graft, zone 2" });
    expect(open.mm).toEqual([33]);
    expect(open.missing.join()).toContain("before or after 2026-03-02");
  });
});
