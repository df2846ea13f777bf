import { describe, expect, test } from "vitest";
import { placeById } from "../../../src/anatomy/places.ts";
import { landingSegments } from "../../../src/planning/landing/landing-segments.ts";
import {
  basisOf,
  everyFive,
  exam,
  type Given,
  leavingOut,
  lineCase,
  mark,
  marks,
  segmentOf,
  station,
} from "./sample-segments.ts";

/** 34 mm, with an aneurysm of 45 mm from 125 to 220 mm. */
const aneurysm = (mm: number): Given => ({ maximumMm: mm >= 125 && mm <= 220 ? 45 : 34 });
const aneurysmCase = (given: (mm: number) => Given = () => ({})) =>
  lineCase([...marks, ...everyFive((mm) => ({ ...aneurysm(mm), ...given(mm) }))]);

describe("worked by hand along a centreline with sections every 5 mm", () => {
  // Zone 2 begins at the distal edge of the left common carotid artery, 68 mm; the last section that holds is at 120 mm:
  // 120 - 68 = 52 mm. The first that surely fails is at 125 mm (45 - 1.96 > 40): at most 125 - 68 = 57 mm.
  test("the seal of zone 2 takes in the subclavian origin and zone 3, up to the disease", () => {
    const segment = segmentOf(aneurysmCase(), "proximal", "2");
    expect(segment).toMatchObject({
      basis: "centreline",
      exam,
      surface: "native",
      startMm: 68,
      endMm: 120,
      lengthMm: { value: 52, low: 52, high: 57 },
      begunBy: { condition: null, atMm: 68, used: ["S68-left-common-carotid-artery"] },
      endedBy: { condition: "diameter-38", atMm: 125, used: ["S125"] },
    });
    expect(segment.endedBy.what).toBe(
      "Last sound section at 120.0 mm; at 125.0 mm: largest diameter 45.0 mm, limit <= 38 mm; largest diameter 45.0 mm, limit < 40 mm.",
    );
    expect(segment.stations).toHaveLength(11);
  });

  // Zone 3: 120 - 80 = 40. Zone 1: 120 - 60 = 60. Zone 0: the sinotubular junction at 0. Zone 4 begins at 80 + 20 = 100.
  test.each([
    ["0", 0, 120],
    ["1", 60, 60],
    ["3", 80, 40],
    ["4", 100, 20],
  ])("proximal zone %s", (zone, startMm, value) => {
    expect(segmentOf(aneurysmCase(), "proximal", zone)).toMatchObject({
      startMm,
      lengthMm: { value },
    });
  });

  // Zone 5 ends at the coeliac artery, 300 mm; going up the last section that holds is at 225 mm: 75 mm, at most 300 - 220.
  test("the distal segment of zone 5 goes up from the coeliac artery", () => {
    const segment = segmentOf(aneurysmCase(), "distal", "5");
    expect(segment).toMatchObject({
      startMm: 225,
      endMm: 300,
      lengthMm: { value: 75, low: 75, high: 80 },
      begunBy: { condition: "diameter-38", atMm: 220 },
      endedBy: { condition: null, atMm: 300 },
    });
  });

  // 38.5 mm from 105 mm on: over 38 mm and under 40 mm, neither surely (36.5 to 40.5 mm).
  test("limits that differ give two segments, each with its own reading error", () => {
    const wide = aneurysmCase((mm) => (mm >= 105 && mm <= 120 ? { maximumMm: 38.5 } : {}));
    const rest = { planning: leavingOut("taper") };
    expect(segmentOf(wide, "proximal", "2", rest).lengthMm).toEqual({
      value: 32,
      low: 32,
      high: 57,
    });
    const widest = segmentOf(wide, "proximal", "2", rest, "widest published");
    expect(widest.lengthMm).toEqual({ value: 52, low: 32, high: 57 });
    expect(widest.leftOut).toEqual([
      "The site does not judge taper (planning meeting, 2026-01-15): not used here",
    ]);
    const all = landingSegments(aneurysmCase(), basisOf()).proximal;
    expect(all.map(({ zone, conditions }) => [zone, conditions])).toEqual(
      ["0", "1", "2", "3", "4"].map((zone) => [zone, "strictest published"]),
    );
  });

  test.each<[string, Given, string, string, number, number]>([
    ["thrombus over 100 degrees", { thrombusArcDeg: 100 }, "thrombus-quarter", "proximal", 27, 52],
    ["thrombus over 180 degrees", { thrombusArcDeg: 180 }, "thrombus-half", "proximal", 27, 27],
    ["thrombus 2 mm thick", { thrombusThicknessMm: 2 }, "thrombus-2-mm", "proximal", 27, 52],
    ["calcium over 90 degrees", { calciumArcDeg: 90 }, "calcium-quarter", "proximal", 27, 52],
    ["calcium all around", { calciumArcDeg: 360 }, "calcium-circumferential", "proximal", 27, 27],
    ["a dissected wall", { wall: "dissected" }, "sound-wall", "proximal", 27, 27],
    ["a haematoma", { wall: "intramural haematoma" }, "sound-wall", "proximal", 27, 27],
    ["an ulcer", { wall: "penetrating ulcer" }, "sound-wall", "proximal", 27, 27],
    ["a true lumen", { wall: null, lumen: "true" }, "sound-wall", "proximal", 27, 27],
    ["another kind of wall", { wall: "graft" }, "one-wall", "proximal", 27, 27],
  ])(
    "%s from 100 mm on ends it at 95 mm, 95 - 68 = 27",
    (_, given, condition, __, strict, wide) => {
      const patientCase = aneurysmCase((mm) => (mm >= 100 ? given : {}));
      const segment = segmentOf(patientCase, "proximal", "2");
      expect(segment.endedBy.condition).toBe(condition);
      expect(segment.lengthMm?.value).toBe(strict);
      const both = landingSegments(patientCase, basisOf()).proximal.filter(
        ({ zone }) => zone === "2",
      );
      expect(both.at(-1)?.lengthMm?.value).toBe(wide);
    },
  );

  // 2 mm more 10 mm on is allowed, 2.1 mm is not: 30 at 90 mm, 31 at 95 mm, 32.1 at 100 mm.
  test.each([
    [32, 120],
    [32.1, 95],
  ])("from 30 mm at 90 mm to %d mm at 100 mm: it ends at %d mm", (mm100, endMm) => {
    const cone = aneurysmCase((mm) =>
      mm <= 90
        ? { maximumMm: 30 }
        : mm === 95
          ? { maximumMm: 31 }
          : mm <= 120
            ? { maximumMm: mm100 }
            : {},
    );
    expect(segmentOf(cone, "proximal", "2").endMm).toBe(endMm);
  });

  // Between sections 20 mm apart a gain of 5 mm is 2.5 mm within 10 mm.
  test("between sections far apart the gain counts in proportion", () => {
    const sparse = [70, 90, 110].map((mm) => station(mm, { maximumMm: mm < 110 ? 32 : 37 }));
    const segment = segmentOf(
      lineCase([...marks, station(50, { maximumMm: 32 }), ...sparse]),
      "proximal",
      "2",
      {},
      "strictest published",
    );
    expect(segment).toMatchObject({ endMm: 90, endedBy: { condition: "widening-2" } });
    expect(segment.endedBy.what).toContain("widens by 2.5 mm within 10 mm");
  });

  // 34 / 30 is 13 % more; gained over 40 mm it is no reverse taper.
  test("the strictest limits ask for at most 10 % over the stretch", () => {
    const slow = aneurysmCase((mm) =>
      mm <= 120 ? { maximumMm: 30 + Math.max(0, (mm - 70) * 0.1) } : {},
    );
    const segment = segmentOf(slow, "proximal", "2");
    expect(segment).toMatchObject({ endMm: 100, endedBy: { condition: "change-10-percent" } });
    expect(segmentOf(slow, "proximal", "2", {}, "widest published").endMm).toBe(120);
  });

  test("a bulge of more than 3 mm ends it, also where the way up is slow", () => {
    const bulge = aneurysmCase((mm) => (mm === 100 ? { maximumMm: 37.1 } : {}));
    const rest = { planning: leavingOut("diameter") };
    expect(segmentOf(bulge, "proximal", "2", rest).endedBy).toMatchObject({
      condition: "bulge-3",
      atMm: 100,
    });
  });

  test("where the border is not sound it begins at the first sound section of the zone", () => {
    const patientCase = aneurysmCase((mm) => (mm <= 70 ? { wall: "dissected" } : {}));
    expect(segmentOf(patientCase, "proximal", "2")).toMatchObject({
      startMm: 75,
      endMm: 120,
      begunBy: { condition: "sound-wall", atMm: 75 },
    });
    // Zone 1, 60 to 68 mm: its sections at 60 and 65 mm are dissected, the 5 mm between them are not seen.
    expect(segmentOf(patientCase, "proximal", "1")).toMatchObject({
      startMm: null,
      lengthMm: { value: 0, low: 0, high: 5 },
    });
  });
});

describe("borders from marks", () => {
  const withoutCarotid = marks.filter(({ distanceMm }) => distanceMm !== 68);
  const centre = mark(64, "left-common-carotid-artery", "centre");

  test("a branch given by its centre alone is refused", () => {
    const segment = segmentOf(
      lineCase([...withoutCarotid, centre, ...everyFive(aneurysm)]),
      "proximal",
      "2",
    );
    expect(segment.basis).toBe("none");
    expect(segment.missing[0]).toBe(
      "distal edge of the left common carotid artery on the centreline (its centre alone, without a diameter of the origin)",
    );
  });

  // Centre 64 mm, origin 8 mm wide: edge at 64 + 4 = 68 mm, half of 1.96 mm either way: 52, 51.02, 57.98 mm.
  test("with the diameter of its origin the edge is reckoned", () => {
    const patientCase = lineCase([...withoutCarotid, centre, ...everyFive(aneurysm)], {}, [
      { place: "left-common-carotid-artery", mm: 8, key: "M-origin" },
    ]);
    const segment = segmentOf(patientCase, "proximal", "2");
    expect(segment.lengthMm?.value).toBeCloseTo(52, 9);
    expect(segment.lengthMm?.low).toBeCloseTo(51.02, 9);
    expect(segment.lengthMm?.high).toBeCloseTo(57.98, 9);
    expect(segment.begunBy.used).toContain("M-origin");
  });

  test("without the mid-descending mark zone 4 may begin at its proximal border only", () => {
    const unmarked = marks.filter(({ distanceMm }) => distanceMm !== 180);
    const segment = segmentOf(lineCase([...unmarked, ...everyFive(aneurysm)]), "proximal", "4");
    expect(segment).toMatchObject({ startMm: 100, lengthMm: { value: 20 } });
    expect(segment.missing).toContain("mid-descending aorta on the centreline");
  });

  test("a zone that the arch does not define is stopped, with what would define it", () => {
    const rightArch = lineCase([...marks, ...everyFive(aneurysm)], {
      archVariants: ["right arch"],
    });
    const segment = segmentOf(rightArch, "proximal", "2");
    expect(segment).toMatchObject({ basis: "none", lengthMm: null });
    expect(segment.begunBy.what).toContain("not defined for this arch");
    expect(segment.missing[0]).toContain("the site's convention");
    expect(segmentOf(rightArch, "distal", "5").lengthMm?.value).toBe(75);
  });
});

describe("what is not stated", () => {
  test("is named with the number of sections", () => {
    const patientCase = aneurysmCase((mm) =>
      mm >= 90 && mm <= 105 ? { calciumArcDeg: null } : {},
    );
    const { notAssessed } = segmentOf(patientCase, "proximal", "2");
    expect(notAssessed).toContainEqual({
      condition: "calcium-circumferential",
      missing: "calcium of the circumference at 4 of 11 sections",
    });
  });

  test("an end of the sections is no end of the wall", () => {
    const patientCase = lineCase([
      ...marks,
      ...everyFive().filter(({ distanceMm }) => distanceMm <= 85),
    ]);
    const segment = segmentOf(patientCase, "proximal", "2");
    expect(segment.lengthMm).toEqual({ value: 17, low: 17, high: 300 - 68 });
    expect(segment.endedBy.condition).toBe("sections-end");
    expect(segment.missing).toContain(
      "sections beyond the measured part of the centreline, 0.0 mm to 85.0 mm",
    );
  });

  test("wall from the case sheet, dissection of the zone from a finding", () => {
    const unstated = (mm: number): Given => ({ ...aneurysm(mm), wall: null });
    const patientCase = lineCase([...marks, ...everyFive(unstated)]);
    expect(segmentOf(patientCase, "proximal", "2").surface).toBe("native");
    const dissected = {
      ...patientCase,
      findings: [
        {
          key: "F1",
          exam,
          place: placeById("zone-3"),
          finding: "dissection" as const,
          state: "present",
          source: { file: "invented.csv", sha256: null, at: null },
          reader: null,
          comment: null,
        },
      ],
    };
    // Zone 3 begins at 80 mm: the last section before it is at 75 mm. How far it reaches into the zone is not said.
    expect(segmentOf(dissected, "proximal", "2")).toMatchObject({
      lengthMm: { value: 7, low: 7, high: 57 },
      endedBy: { condition: "sound-wall", atMm: 80, used: ["F1"] },
    });
    const repaired = lineCase([...marks, ...everyFive(unstated)], {
      priorRepairs: [
        { words: "ascending graft 2020", date: "2020", zones: ["0"], kinds: ["graft"] },
      ],
    });
    expect(segmentOf(repaired, "proximal", "0")).toMatchObject({ surface: "graft", endMm: 55 });
    const since = lineCase([...marks, ...everyFive(unstated)], {
      priorRepairs: [
        {
          words: "stent graft 2026-04",
          date: "2026-04",
          zones: ["3", "4"],
          kinds: ["stent graft"],
        },
      ],
    });
    expect(segmentOf(since, "proximal", "3").begunBy.what).toContain("repaired after the exam");
  });

  test("a finding on calcium of a whole zone, and an angle measured in one", () => {
    const unstated = lineCase(
      [...marks, ...everyFive((mm) => ({ ...aneurysm(mm), calciumArcDeg: null }))],
      {},
      [{ place: "zone-3", mm: 62, quantity: "angle", unit: "deg", key: "M-angle" }],
    );
    // 62 degrees in zone 3, 80 to 100 mm: the last section before it is at 75 mm.
    expect(segmentOf(unstated, "proximal", "2")).toMatchObject({
      endMm: 75,
      endedBy: { condition: "turn-under-60", atMm: 80 },
    });
    const inZoneTwo = (state: string) => ({
      ...unstated,
      measurements: [],
      findings: [
        {
          key: "F1",
          exam,
          place: placeById("zone-2"),
          finding: "wall calcium" as const,
          state,
          source: { file: "invented.csv", sha256: null, at: null },
          reader: null,
          comment: null,
        },
      ],
    });
    const openOf = (state: string) =>
      segmentOf(inZoneTwo(state), "proximal", "2").notAssessed.map(({ condition }) => condition);
    expect(segmentOf(inZoneTwo("circumferential"), "proximal", "2").lengthMm?.value).toBe(0);
    expect(openOf("absent")).toContain("calcium-circumferential");
    const { missing } =
      segmentOf(inZoneTwo("absent"), "proximal", "2").notAssessed.find(
        ({ condition }) => condition === "calcium-circumferential",
      ) ?? {};
    // Of the sections at 70 to 120 mm two lie in zone 2, 70 and 75 mm.
    expect(missing).toBe("calcium of the circumference at 9 of 11 sections");
  });

  test("a wall diagnosis without a place is asked for", () => {
    const patientCase = lineCase(
      [...marks, ...everyFive((mm) => ({ ...aneurysm(mm), wall: null }))],
      {
        diagnoses: ["penetrating ulcer"],
      },
    );
    expect(segmentOf(patientCase, "proximal", "2").notAssessed).toContainEqual({
      condition: "sound-wall",
      missing: "where the penetrating ulcer lies at 11 of 11 sections",
    });
  });
});
