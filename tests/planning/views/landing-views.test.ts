import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { placeById } from "../../../src/anatomy/places.ts";
import type { Centreline } from "../../../src/cases/patient-case.ts";
import { tiltDeg } from "../../../src/geometry/projection.ts";
import type { Vector } from "../../../src/geometry/vector.ts";
import { landingViews, type RingView } from "../../../src/planning/views/landing-views.ts";
import type { RingSegment } from "../../../src/planning/views/view-rings.ts";
import { axis as axisArbitrary } from "../../geometry/random-axes.ts";
import { inventedCase } from "../../guidelines/invented-case.ts";
import {
  carotid,
  carotidEnd,
  caseWith,
  exam,
  only,
  segment,
  straightLine,
  viewBasis,
} from "./sample-lines.ts";

const viewsOf = (ring: RingView) => {
  if (ring.views === null) throw new Error(JSON.stringify(ring.notAssessable));
  return ring.views;
};
const secondaryAt = (ring: RingView, primaryDeg: number) =>
  viewsOf(ring).family.rows.find((row) => row.primaryDeg === primaryDeg)?.secondaryDeg;

/*
 * Expected angles: tan b = (u_y cos a - u_x sin a) / u_z and sin t = |d . u| worked by hand for d(a, b) =
 * (sin a cos b, -cos a cos b, sin b), axes and signs as DICOM PS3.3 C.7.6.2.1.1 and C.8.7.5.1.2 define them.
 */
const archLike: Vector = [0.45, 0.85, 0.27];

describe("views across a ring of the arch, 30 mm wide", () => {
  const ring = only(caseWith(straightLine(archLike, 30)));

  test("the ring is the border marked on the line, at its place", () => {
    expect(ring.label).toBe("distal edge of the left common carotid artery");
    expect([ring.basis, ring.atMm, ring.date]).toEqual(["border", 20, exam]);
    // 1.96 SD of 1 mm to either side.
    expect(ring.diameterMm).toMatchObject({ value: 30, low: 28.04, high: 31.96 });
    expect(ring.axis).toMatchObject({ points: 7 });
    expect(ring.axis?.uncertaintyDeg).toBeCloseTo(0, 6);
  });

  test("the family is steep: 15 degrees to the side cost 39 to 46 degrees of tilt", () => {
    expect(secondaryAt(ring, 45)).toBeCloseTo(46.331, 3);
    expect(secondaryAt(ring, 60)).toBeCloseTo(7.446, 3);
    expect(secondaryAt(ring, 75)).toBeCloseTo(-38.487, 3);
    const { withoutTilt, rows } = viewsOf(ring).family;
    expect(withoutTilt?.primaryDeg).toBeCloseTo(62.103, 3);
    const reached = rows.filter(({ withinReach }) => withinReach);
    expect(reached.map(({ primaryDeg }) => primaryDeg)).toEqual([60, 75]);
  });

  test("the view nearest to straight from the front is the front laid into the plane of the ring", () => {
    // -e_y - (-e_y . u) u is along (0.3825, -0.2754, 0.2295).
    const { nearest, nearestWithinReach } = viewsOf(ring).family;
    expect(nearest?.primaryDeg).toBeCloseTo(54.246, 3);
    expect(nearest?.secondaryDeg).toBeCloseTo(25.9624, 4);
    expect(nearestWithinReach).toEqual(nearest);
  });

  test("front and back seem apart by D sin t", () => {
    const shown = viewsOf(ring).displacement.map((row) => [
      row.primaryDeg,
      Number(row.tiltDeg.toFixed(2)),
      Number(row.displacementMm?.value.toFixed(2)),
    ]);
    expect(shown.slice(2, 5)).toEqual([
      [45, 16.45, 8.49],
      [60, 2.02, 1.06],
      [75, 12.41, 6.45],
    ]);
    const last = viewsOf(ring).displacement.at(-1);
    expect(last?.displacementMm?.value).toBeCloseTo(0, 9);
    expect(last?.shownOf20Mm).toBeCloseTo(20, 9);
    // asin(2 / 30)
    expect(ring.allowedTiltDeg).toBeCloseTo(3.8226, 4);
  });
});

test("where the nearest view lies beyond the reach, the next one lies on its border", () => {
  // -e_y - (-e_y . u) u is along (0.09, -0.17, 0.36): atan(0.36 / 0.1924) = 61.9 degrees to the head.
  const steep: Vector = [0.1, 0.9, 0.4];
  const { nearest, nearestWithinReach } = viewsOf(only(caseWith(straightLine(steep, 30)))).family;
  expect(nearest).toMatchObject({ withinReach: false });
  expect(nearest?.secondaryDeg).toBeCloseTo(61.884, 2);
  expect(nearestWithinReach).toMatchObject({ withinReach: true });
  expect(nearestWithinReach?.secondaryDeg).toBeCloseTo(45, 9);
  const { primaryDeg = 0, secondaryDeg = 0 } = nearestWithinReach ?? {};
  expect(tiltDeg(steep, primaryDeg, secondaryDeg)).toBeCloseTo(0, 9);
});

test("a level vessel: one primary angle, any tilt", () => {
  const ring = only(caseWith(straightLine([0.5, 0.8, 0], 30)));
  expect(viewsOf(ring).family.withoutTilt?.primaryDeg).toBeCloseTo(57.9946, 4);
  expect(secondaryAt(ring, 45)).toBeNull();
});

test("a branch leaves in profile across the ring's axis and its own course", () => {
  // Cross product of (0.5, 0.8, 0.33) and (0.1, -0.15, 0.98): LAO 61.26, caudal 9.26.
  const axis: Vector = [0.5, 0.8, 0.33];
  const [profile] = viewsOf(
    only(caseWith(straightLine(axis, 30), carotid(axis, [0.1, -0.15, 0.98]))),
  ).profiles;
  expect(profile?.branch).toBe("left common carotid artery");
  expect(profile?.view.primaryDeg).toBeCloseTo(61.26, 2);
  expect(profile?.view.secondaryDeg).toBeCloseTo(-9.26, 2);
  expect(profile?.view.withinReach).toBe(true);
});

test("a border gives way to the segment that begins beyond it and before the next border", () => {
  const line = straightLine(archLike, 30);
  const stations = line.stations.map((one) =>
    one.distanceMm === 40
      ? { ...one, mark: { ...carotidEnd, place: placeById("left-subclavian-artery") } }
      : one,
  );
  const patientCase = caseWith({ ...line, stations });
  const labels = (proximal: RingSegment[]) =>
    landingViews(patientCase, { ...viewBasis, segments: { proximal } }).rings.map(
      ({ label, atMm }) => [label.slice(0, 12), atMm],
    );
  expect(labels([])).toEqual([
    ["distal edge ", 20],
    ["distal edge ", 40],
  ]);
  expect(labels([segment(25, 35)])).toEqual([
    ["proximal edg", 25],
    ["distal edge ", 40],
  ]);
  expect(labels([segment(45, 55)])).toEqual([
    ["proximal edg", 45],
    ["distal edge ", 20],
  ]);
});

describe("a ring drawn in a report", () => {
  const ring = {
    exam,
    place: placeById("mid-descending"),
    measurement: "M0",
    centre: [0, 0, 0] as const,
    axis: [0.5, 0.8, 0] as const,
    patientPosition: "HFS",
    positionBy: "site file, imaging lab, 2026-01-15",
  };
  const base = inventedCase([{ place: "mid-descending", mm: 30 }]);

  test("has views, and says that the error of its axis is not known", () => {
    const view = only({ ...base, rings: [ring] });
    expect(viewsOf(view).family.withoutTilt).toMatchObject({ plusMinusDeg: null });
    expect(viewsOf(view).family.withoutTilt?.primaryDeg).toBeCloseTo(57.9946, 4);
    expect(view.diameterMm).toMatchObject({ value: 30, used: ["M0"] });
    expect(view.notAssessable).toContainEqual({
      what: "bend of the stretch",
      missing: "points of the aortic centreline beyond the ring",
    });
  });

  test("counts once where two numbers were taken from it, whatever the sign of its axis", () => {
    const again = { ...ring, measurement: "M1", axis: [-0.5, -0.8, 0] as const };
    expect(only({ ...base, rings: [ring, again] }).used).toEqual(["M0", "M1"]);
  });
});

/** Any direction but those within 6 degrees of the level: there the tilt comes near 90 degrees. */
const steepAxis = axisArbitrary.filter(([, , z]) => Math.abs(z) > 0.1);

/** The vector turned about the axis to the head, from left to back. */
const turnedAbout = ([x, y, z]: Vector, deg: number): Vector => {
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  return [c * x - s * y, s * x + c * y, z];
};

test("turning the patient about the long axis turns the primary angles by as much", () => {
  fc.assert(
    fc.property(steepAxis, fc.integer({ min: -6, max: 6 }), (axis, steps) => {
      const deg = steps * 15;
      const [before, after] = [axis, turnedAbout(axis, deg)].map((one) =>
        viewsOf(only(caseWith(straightLine(one, 30)))),
      );
      for (const { primaryDeg, secondaryDeg } of before?.family.rows ?? []) {
        const same = after?.family.rows.find((row) => row.primaryDeg === primaryDeg + deg);
        if (same) expect(same.secondaryDeg).toBeCloseTo(Number(secondaryDeg), 6);
      }
    }),
    { numRuns: 100 },
  );
});

test("no edge-on view within reach is nearer to the front than the one given", () => {
  fc.assert(
    fc.property(steepAxis, (axis) => {
      const { nearestWithinReach, rows } = viewsOf(only(caseWith(straightLine(axis, 30)))).family;
      const given = nearestWithinReach?.fromFrontalDeg ?? Number.POSITIVE_INFINITY;
      for (const row of rows) {
        if (!row.withinReach || typeof row.secondaryDeg !== "number") continue;
        const [a, b] = [row.primaryDeg, row.secondaryDeg].map((deg) => (deg * Math.PI) / 180);
        const fromFront = (Math.acos(Math.cos(a ?? 0) * Math.cos(b ?? 0)) * 180) / Math.PI;
        expect(given).toBeLessThanOrEqual(fromFront + 1e-6);
      }
    }),
    { numRuns: 300 },
  );
});

describe("what is not given is named", () => {
  const axis: Vector = [0.5, 0.8, 0.33];
  const branch = (given: Partial<Centreline> = {}) => carotid(axis, [0.1, -0.15, 0.98], given);
  const line = straightLine(axis, 30);
  const without = (change: (one: Centreline["stations"][number]) => object): Centreline => ({
    ...line,
    stations: line.stations.map((one) => Object.assign({}, one, change(one))),
  });
  const missingOf = (...lines: Centreline[]): string => {
    const { rings, notAssessable } = landingViews(caseWith(...lines), viewBasis);
    return [...notAssessable, ...rings.flatMap((ring) => ring.notAssessable)]
      .map(({ what, missing }) => `${what}: ${missing}`)
      .join("\n");
  };
  const hasAngles = (...lines: Centreline[]): boolean =>
    landingViews(caseWith(...lines), viewBasis).rings.some(({ views }) => views !== null);

  test("nothing is missing where all is given", () => {
    expect(missingOf(line, branch())).toBe("");
  });

  test.each<[string, Centreline[], string, boolean]>([
    ["no centreline", [], "aortic centreline with points in DICOM patient coordinates", false],
    ["no mark", [without(() => ({ mark: null })), branch()], "marked by their distal edge", false],
    [
      "a mark without its edge",
      [without(({ mark }) => ({ mark: mark && { ...mark, edge: "centre" } })), branch()],
      "marked by their distal edge",
      false,
    ],
    [
      "position not stated",
      [{ ...line, patientPosition: null }, branch()],
      "C-arm angles: how the patient lay in the scanner",
      false,
    ],
    [
      "lying on the face",
      [{ ...line, patientPosition: "HFP" }, branch()],
      "C-arm angles: a scan of the patient lying on the back, HFS or FFS (this one: HFP)",
      false,
    ],
    [
      "no points",
      [without(() => ({ point: null })), branch()],
      "axis of the ring: at least 3 points of the aortic centreline in DICOM patient coordinates within 15 mm of 20.0 mm",
      false,
    ],
    [
      "two points near the ring",
      [without(({ distanceMm }) => (distanceMm % 20 === 0 ? {} : { point: null })), branch()],
      "axis of the ring: at least 3 points",
      false,
    ],
    [
      "points that scatter",
      [
        without(({ point, distanceMm }) => ({
          point: point && [point[0] + (distanceMm % 10 === 0 ? 3 : -3), point[1], point[2]],
        })),
        branch(),
      ],
      "that fix its direction to 5°",
      false,
    ],
    [
      "no diameters",
      [without(() => ({ maximumMm: null, minimumMm: null })), branch()],
      "displacement of front and back in mm: diameter at the ring",
      true,
    ],
    [
      "no course of the branch",
      [line],
      "view of the origin of the left common carotid artery in profile: course of the left common carotid artery in patient coordinates",
      true,
    ],
    [
      "two points of the branch",
      [line, branch({ stations: branch().stations.slice(0, 2) })],
      "at least 3 points within 15 mm of its origin",
      true,
    ],
    [
      "the branch's position not stated",
      [line, branch({ patientPosition: null })],
      "in profile: how the patient lay in the scanner",
      true,
    ],
    [
      "a branch that runs along the aorta",
      [line, carotid(axis, [0.5, 0.8, 0.35])],
      "a left common carotid artery that leaves at 10° or more",
      true,
    ],
  ])("%s", (_, lines, missing, angles) => {
    expect(missingOf(...lines)).toContain(missing);
    expect(hasAngles(...lines)).toBe(angles);
  });
});

test("true perspective: 50 mm off the central ray, 30 mm of depth, 750 mm from the source shift by 2 mm", () => {
  expect(landingViews(caseWith(), viewBasis).perspective.shiftMm).toBe(2);
});

test("what a view must be read with is always there, each with its source", () => {
  const { facts } = landingViews(caseWith(), viewBasis);
  expect(facts.map(({ id }) => id)).toEqual(
    expect.arrayContaining(["starting-view", "stiff-wire", "simulated-wire", "patient-position"]),
  );
  for (const { source } of facts) expect(source).not.toBe("");
});
