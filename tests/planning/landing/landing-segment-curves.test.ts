import { describe, expect, test } from "vitest";
import type { Vector } from "../../../src/geometry/vector.ts";
import { curveLengthsMm } from "../../../src/geometry/polyline.ts";
import { segmentChecks } from "../../../src/planning/landing/segment-checks.ts";
import {
  everyFive,
  type Given,
  leavingOut,
  lineCase,
  marks,
  segmentOf,
  station,
} from "./sample-segments.ts";

/** On a circle of this radius all the way. */
const onCircle =
  (radiusMm: number) =>
  (mm: number): Vector => [
    0,
    radiusMm * (1 - Math.cos(mm / radiusMm)),
    radiusMm * Math.sin(mm / radiusMm),
  ];
/** 30 mm wide and sound from 68 to 120 mm, then 45 mm. */
const bent = (radiusMm: number, rest: Given = {}) =>
  everyFive((mm) => ({ maximumMm: mm >= 125 ? 45 : 30, point: onCircle(radiusMm)(mm), ...rest }));
const outcomes = (...given: Parameters<typeof segmentChecks>) =>
  Object.fromEntries(segmentChecks(...given).map(({ id, outcome }) => [id, outcome]));

describe("inner and outer curve", () => {
  // On a circle L (1 -/+ D / 2R), the length of a curve beside another. R 80, D 30, L 52: 52 x 0.8125 = 42.25, 61.75 mm.
  // A parabola over 30 mm of a circle is not quite the circle: smoothing moves its radius by a part in 10^4 at most here.
  test("from the points of the centreline", () => {
    const segment = segmentOf(lineCase([...marks, ...bent(80)]), "proximal", "2");
    expect(segment.lengthMm?.value).toBe(52);
    expect(segment.innerMm?.value).toBeCloseTo(42.25, 3);
    expect(segment.outerMm?.value).toBeCloseTo(61.75, 3);
    // With 1.96 mm more of diameter: 52 (1 - 31.96 / 160) = 41.613.
    expect(segment.innerMm?.low).toBeCloseTo(41.613, 3);
    expect(segment.curveMethod).toContain("diameter over radius up to 0.38, over 0.3");
  });

  test("the same as the lengths of the whole line by the geometry of curves", () => {
    const points = Array.from({ length: 11 }, (_, index) => onCircle(60)(index * 5));
    const whole = curveLengthsMm(points, () => 30);
    if ("why" in whole) throw new Error(whole.why);
    const stations = points.map((point, index) =>
      station(60 + index * 5, { maximumMm: 30, point }),
    );
    const segment = segmentOf(
      lineCase([...marks.filter(({ distanceMm }) => distanceMm < 180), ...stations]),
      "proximal",
      "1",
      { planning: leavingOut("angulation") },
    );
    expect(segment.lengthMm?.value).toBe(50);
    const differenceMm = (segment.outerMm?.value ?? 0) - (segment.innerMm?.value ?? 0);
    // Chords are shorter than the distances stated, by a part in 3000 here, and smoothing takes as much again.
    expect(Math.abs(differenceMm / (whole.outerMm - whole.innerMm) - 1)).toBeLessThan(0.001);
  });

  test("a radius of not more than half the diameter gives none, and says so", () => {
    const segment = segmentOf(lineCase([...marks, ...bent(14)]), "proximal", "2", {
      planning: leavingOut("angulation"),
    });
    expect(segment.innerMm).toBeNull();
    expect(segment.curveMethod).toContain("is not over half the diameter");
  });

  // 30 mm on a radius of 25 mm turn by 30 / 25 = 1.2 = 68.8 degrees; on 40 mm by 43 degrees.
  test.each([
    [25, "turn-under-60"],
    [40, "diameter-38"],
  ])("a line on a radius of %d mm ends by %s", (radiusMm, condition) => {
    const segment = segmentOf(lineCase([...marks, ...bent(radiusMm)]), "proximal", "2");
    expect(segment.endedBy.condition).toBe(condition);
  });

  test("without points a measured radius of the centreline is used", () => {
    const stations = everyFive((mm) => ({ maximumMm: mm >= 125 ? 45 : 30 }));
    const reading = { place: "zone-2", mm: 40, quantity: "radius" as const };
    const of = (path: "centreline" | "unstated") =>
      segmentOf(lineCase([...marks, ...stations], {}, [{ ...reading, path }]), "proximal", "2");
    // 52 (1 - 45 / 80) with the largest diameter on the line would be wrong: in the stretch it is 30 mm, 52 x 0.625 = 32.5.
    expect(of("centreline").innerMm?.value).toBeCloseTo(32.5, 9);
    expect(of("unstated").innerMm).toBeNull();
    expect(of("unstated").missing).toContain(
      "whether the radius of curvature is of the centreline",
    );
    const unmeasured = segmentOf(lineCase([...marks, ...stations]), "proximal", "2");
    expect(unmeasured.missing).toContain(
      "points of the centreline along the stretch, or a radius of curvature",
    );
  });
});

describe("lengths asked of the stretch", () => {
  test("all is known and long enough", () => {
    const segment = segmentOf(lineCase([...marks, ...bent(80)]), "proximal", "2");
    expect(segment.notAssessed).toEqual([]);
    expect(outcomes(segment)).toEqual({
      "seal-length-20": "met",
      "seal-length-25": "met",
      "seal-length-graft-25": "not-applicable",
      "seal-length-steep-arch-25": "not-assessable",
    });
    const [twenty] = segmentChecks(segment);
    expect(twenty).toMatchObject({ limit: ">= 20 mm", missing: [], spansLimit: false });
    expect(twenty?.reason).toBe(
      "42.2 mm along the inner curve, 2026-03-02, strictest published conditions.",
    );
  });

  test("in a bend the centreline alone can fail a length but not meet it", () => {
    const straight = everyFive((mm) => ({ maximumMm: mm >= 125 ? 45 : 30 }));
    const long = segmentOf(lineCase([...marks, ...straight]), "proximal", "2", {
      planning: leavingOut("angulation"),
    });
    expect(outcomes(long)["seal-length-20"]).toBe("not-assessable");
    const short = everyFive((mm) => ({ maximumMm: mm >= 85 ? 45 : 30 }));
    const found = segmentChecks(segmentOf(lineCase([...marks, ...short]), "proximal", "2"))[0];
    // 80 - 68 = 12 mm, at most to 85 mm: 17 mm.
    expect(found).toMatchObject({
      outcome: "not-met",
      value: { value: 12, low: 12, high: 17, unit: "mm" },
      spansLimit: false,
    });
  });

  test("a condition that is not judged keeps it open, and is named", () => {
    const segment = segmentOf(
      lineCase([...marks, ...bent(80, { calciumArcDeg: null })]),
      "proximal",
      "2",
    );
    const [twenty] = segmentChecks(segment);
    expect(twenty?.outcome).toBe("not-assessable");
    expect(twenty?.missing).toContain("calcium of the circumference at 11 of 11 sections");
    const leftOut = segmentOf(
      lineCase([...marks, ...bent(80, { calciumArcDeg: null })]),
      "proximal",
      "2",
      { planning: leavingOut("calcium") },
    );
    expect(outcomes(leftOut)["seal-length-20"]).toBe("met");
  });

  test("where the sections end too early the length is open, not short", () => {
    const stations = bent(80).filter(({ distanceMm }) => distanceMm <= 80);
    const [twenty] = segmentChecks(segmentOf(lineCase([...marks, ...stations]), "proximal", "2"));
    expect(twenty).toMatchObject({
      outcome: "not-assessable",
      value: { value: expect.any(Number) },
    });
  });

  test("a short length whose range holds the limit says so", () => {
    // 85 - 68 = 17 mm, and 10 mm of wall not seen up to 95 mm: 17 to 27 mm.
    const stations = everyFive((mm) => ({ maximumMm: mm >= 95 ? 45 : 30 })).filter(
      ({ distanceMm }) => distanceMm !== 90,
    );
    const segment = segmentOf(lineCase([...marks, ...stations]), "proximal", "2");
    expect(segment.lengthMm).toEqual({ value: 17, low: 17, high: 27 });
    expect(segment.spacing).toMatchObject({ largestMm: 10, neededMm: 3 });
    expect(segmentChecks(segment).slice(0, 2)).toMatchObject([
      { outcome: "not-met", spansLimit: true },
      { outcome: "not-met", spansLimit: true },
    ]);
  });

  test("a surgical graft is asked for 25 mm, zone 0 for over 30 mm with open re-feeding", () => {
    const stations = bent(80, { wall: "graft" }).filter(({ distanceMm }) => distanceMm <= 200);
    const graft = outcomes(segmentOf(lineCase([...marks, ...stations]), "proximal", "0"));
    expect(graft).toMatchObject({ "seal-length-graft-25": "met", "seal-length-hybrid-30": "met" });
    expect(
      outcomes(segmentOf(lineCase([...marks, ...stations]), "distal", "3")),
    ).not.toHaveProperty("seal-length-hybrid-30");
  });
});
