import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  anglesOf,
  detectorDirection,
  edgeOnNearestToFrontal,
  edgeOnPrimaryWithoutTiltDeg,
  edgeOnSecondaryDeg,
  profileView,
  ringDisplacementMm,
  shownLengthMm,
  tiltDeg,
} from "../../src/geometry/projection.ts";
import { angleBetweenDeg, dot, norm, scale, subtract } from "../../src/geometry/vector.ts";
import type { Vector } from "../../src/geometry/vector.ts";
import { evenly } from "../evenly.ts";
import { axis, rotation } from "./random-axes.ts";

const axes = { numRuns: 10_000 };
const primary = evenly(-90, 90);
const secondary = evenly(-90, 90);
const frontal: Vector = [0, -1, 0];

/** Turned about an axis of length 1, by the formula of Rodrigues. */
function turned(v: Vector, { about, angle }: { about: Vector; angle: number }): Vector {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const along = dot(about, v) * (1 - c);
  const [x, y, z] = about;
  return [
    v[0] * c + (y * v[2] - z * v[1]) * s + x * along,
    v[1] * c + (z * v[0] - x * v[2]) * s + y * along,
    v[2] * c + (x * v[1] - y * v[0]) * s + z * along,
  ];
}
const nearest = (u: Vector) => {
  const view = edgeOnNearestToFrontal(u);
  if (!view) throw new Error(`no view nearest to the front for ${u.join(" ")}`);
  return view;
};

describe("edge-on views", () => {
  test("are at right angles to the axis, for 10,000 axes", () => {
    fc.assert(
      fc.property(axis, primary, secondary, (u, primaryDeg, anyDeg) => {
        const found = edgeOnSecondaryDeg(u, primaryDeg);
        fc.pre(found !== null);
        const secondaryDeg = found === "any" ? anyDeg : found;
        const direction = detectorDirection(primaryDeg, secondaryDeg);
        const tilt = tiltDeg(u, primaryDeg, secondaryDeg);
        return Math.abs(dot(u, direction)) < 1e-9 && tilt < 1e-7;
      }),
      axes,
    );
  });

  test("without tilt are at right angles to the axis, for 10,000 axes", () => {
    fc.assert(
      fc.property(axis, secondary, (u, anyDeg) => {
        const found = edgeOnPrimaryWithoutTiltDeg(u);
        // An axis that has none is upright: it is edge-on from every side.
        const direction = detectorDirection(found ?? anyDeg, 0);
        return Math.abs(dot(u, direction)) < 1e-9 && Math.abs(found ?? 0) <= 90;
      }),
      axes,
    );
  });

  test("nearest to the front are at right angles to the axis, for 10,000 axes", () => {
    fc.assert(
      fc.property(axis, (u) => {
        fc.pre(Math.hypot(u[0], u[2]) > 1e-9);
        const { primaryDeg, secondaryDeg, fromFrontalDeg } = nearest(u);
        const direction = detectorDirection(primaryDeg, secondaryDeg);
        const awayDeg = angleBetweenDeg(direction, frontal);
        return Math.abs(dot(u, direction)) < 1e-9 && Math.abs(fromFrontalDeg - awayDeg) < 1e-9;
      }),
      axes,
    );
  });

  test("nearest to the front are at least as near as every one of the family, degree by degree", () => {
    fc.assert(
      fc.property(axis, (u) => {
        fc.pre(Math.hypot(u[0], u[2]) > 1e-9);
        const { fromFrontalDeg } = nearest(u);
        for (let primaryDeg = -90; primaryDeg <= 90; primaryDeg += 1) {
          const found = edgeOnSecondaryDeg(u, primaryDeg);
          if (found === null) continue;
          const direction = detectorDirection(primaryDeg, found === "any" ? 0 : found);
          if (angleBetweenDeg(direction, frontal) < fromFrontalDeg - 1e-9) return false;
        }
        return true;
      }),
      { numRuns: 500 },
    );
  });

  test("do not depend on the sign or the length of the axis", () => {
    const by = fc.constantFrom(-1, 0.001, -250);
    fc.assert(
      fc.property(axis, by, primary, secondary, (u, times, primaryDeg, secondaryDeg) => {
        const other = scale(u, times);
        const near = (value: number | "any" | null): unknown =>
          typeof value === "number" ? expect.closeTo(value, 7) : value;
        expect(edgeOnSecondaryDeg(other, primaryDeg)).toEqual(
          near(edgeOnSecondaryDeg(u, primaryDeg)),
        );
        expect(edgeOnPrimaryWithoutTiltDeg(other)).toEqual(near(edgeOnPrimaryWithoutTiltDeg(u)));
        expect(tiltDeg(other, primaryDeg, secondaryDeg)).toBeCloseTo(
          tiltDeg(u, primaryDeg, secondaryDeg),
          9,
        );
        expect(edgeOnNearestToFrontal(other)?.fromFrontalDeg).toEqual(
          near(edgeOnNearestToFrontal(u)?.fromFrontalDeg ?? null),
        );
      }),
    );
  });
});

describe("special axes", () => {
  test("a level axis has no tilt at all but at one primary angle, where every tilt does", () => {
    expect(edgeOnSecondaryDeg([1, 0, 0], 30)).toBeNull();
    expect(edgeOnSecondaryDeg([1, 0, 0], 0)).toBe("any");
    expect(edgeOnPrimaryWithoutTiltDeg([1, 0, 0])).toBe(0);
    expect(edgeOnSecondaryDeg([0, 1, 0], 90)).toBe("any");
    // Level but for rounding.
    expect(edgeOnSecondaryDeg([1, 0, 1e-17], 30)).toBeNull();
    expect(edgeOnSecondaryDeg([1, 1e-17, 1e-17], 0)).toBe("any");
    expect(edgeOnPrimaryWithoutTiltDeg([0, 1, 0])).toBe(90);
    expect(edgeOnPrimaryWithoutTiltDeg([0, -1, 0])).toBe(90);
    const [x, y] = [1, Math.sqrt(3)];
    expect(edgeOnPrimaryWithoutTiltDeg([x, y, 0])).toBeCloseTo(60, 12);
    expect(edgeOnPrimaryWithoutTiltDeg([-x, y, 0])).toBeCloseTo(-60, 12);
  });

  test("an upright axis is edge-on from every side without tilt", () => {
    expect(edgeOnSecondaryDeg([0, 0, -1], 37)).toBe(0);
    expect(edgeOnPrimaryWithoutTiltDeg([0, 0, 1])).toBeNull();
    expect(nearest([0, 0, 1])).toEqual({ primaryDeg: 0, secondaryDeg: 0, fromFrontalDeg: 0 });
  });

  test("an axis from front to back has no edge-on view nearest to the front", () => {
    expect(edgeOnNearestToFrontal([0, 2, 0])).toBeNull();
    expect(nearest([0, 1, 0.001]).fromFrontalDeg).toBeCloseTo(89.9427, 4);
  });

  test("what has no direction has no view", () => {
    const none: Vector = [0, 0, 0];
    expect(edgeOnSecondaryDeg(none, 0)).toBeNull();
    expect(edgeOnPrimaryWithoutTiltDeg(none)).toBeNull();
    expect(edgeOnNearestToFrontal(none)).toBeNull();
    expect(profileView(none, [0, 0, 1])).toBeNull();
    expect(profileView([0, 0, 1], none)).toBeNull();
  });
});

describe("direction and angles", () => {
  test("angles give the direction back, from the end in front", () => {
    fc.assert(
      fc.property(axis, (direction) => {
        const { primaryDeg, secondaryDeg } = anglesOf(direction);
        const back = detectorDirection(primaryDeg, secondaryDeg);
        const front = direction[1] > 0 ? scale(direction, -1) : direction;
        fc.pre(Math.abs(direction[1]) > 1e-9);
        const isInRange = Math.abs(primaryDeg) <= 90 && Math.abs(secondaryDeg) <= 90;
        return isInRange && norm(subtract(back, front)) < 1e-9;
      }),
      axes,
    );
  });

  test("a direction without a front end is named from the left, and upright from the head", () => {
    for (const x of [1, -1]) {
      expect(anglesOf([x, 0, 0])).toEqual({ primaryDeg: 90, secondaryDeg: 0 });
      expect(anglesOf([x, 1e-17, 0])).toEqual({ primaryDeg: 90, secondaryDeg: 0 });
      expect(anglesOf([0, 0, x])).toEqual({ primaryDeg: 0, secondaryDeg: 90 });
      expect(anglesOf([0, x, 0])).toEqual({ primaryDeg: 0, secondaryDeg: 0 });
    }
    const left = anglesOf([-Math.SQRT1_2, 0, Math.SQRT1_2]);
    expect(left.primaryDeg).toBe(90);
    expect(left.secondaryDeg).toBeCloseTo(-45, 12);
  });

  test("the line of sight is the line of the detector's direction: one label for both ends", () => {
    const sight = scale(detectorDirection(45, 20), -1);
    expect(sight).toEqual(detectorDirection(-135, -20).map((part) => expect.closeTo(part, 12)));
    expect(anglesOf(sight).primaryDeg).toBeCloseTo(45, 12);
    expect(anglesOf(sight).secondaryDeg).toBeCloseTo(20, 12);
  });

  test("coordinates with x to the right and y to the front would turn cranial into caudal unseen", () => {
    const [x, y, z] = detectorDirection(45, 20);
    const mistaken = anglesOf([-x, -y, z]);
    expect(mistaken.primaryDeg).toBeCloseTo(45, 12);
    expect(mistaken.secondaryDeg).toBeCloseTo(-20, 12);
    fc.assert(
      fc.property(axis, primary, (u, primaryDeg) => {
        const found = edgeOnSecondaryDeg(u, primaryDeg);
        fc.pre(typeof found === "number");
        const other = edgeOnSecondaryDeg([-u[0], -u[1], u[2]], primaryDeg);
        expect(other).toBeCloseTo(-(found ?? 0), 9);
      }),
    );
  });
});

describe("a patient turned with the vessel", () => {
  test("the tilt to the turned view is the same", () => {
    fc.assert(
      fc.property(axis, primary, secondary, rotation, (u, primaryDeg, secondaryDeg, turn) => {
        const view = anglesOf(turned(detectorDirection(primaryDeg, secondaryDeg), turn));
        expect(tiltDeg(turned(u, turn), view.primaryDeg, view.secondaryDeg)).toBeCloseTo(
          tiltDeg(u, primaryDeg, secondaryDeg),
          7,
        );
      }),
      { numRuns: 2000 },
    );
  });

  test("about the long axis, the family moves by the turn", () => {
    const degrees = evenly(-180, 180);
    fc.assert(
      fc.property(axis, primary, degrees, (u, primaryDeg, turnDeg) => {
        fc.pre(Math.abs(u[2]) > 1e-3);
        const other = turned(u, { about: [0, 0, 1], angle: (turnDeg * Math.PI) / 180 });
        expect(edgeOnSecondaryDeg(other, primaryDeg + turnDeg)).toEqual(
          expect.closeTo(Number(edgeOnSecondaryDeg(u, primaryDeg)), 8),
        );
      }),
      { numRuns: 2000 },
    );
  });
});

describe("ring and length on the detector", () => {
  test("edge-on there is no displacement and the full length; along the axis the reverse", () => {
    expect(ringDisplacementMm(30, 0)).toBe(0);
    expect(shownLengthMm(20, 0)).toBe(20);
    expect(ringDisplacementMm(30, 90)).toBe(30);
    expect(shownLengthMm(20, 90)).toBeCloseTo(0, 12);
    expect(tiltDeg([0, 1, 0], 0, 0)).toBe(90);
  });

  test("a tilt is from 0 to 90", () => {
    fc.assert(
      fc.property(axis, primary, secondary, (u, primaryDeg, secondaryDeg) => {
        const tilt = tiltDeg(u, primaryDeg, secondaryDeg);
        expect(tilt).toBeGreaterThanOrEqual(0);
        expect(tilt).toBeLessThanOrEqual(90);
      }),
    );
  });
});

describe("a branch in profile", () => {
  test("is seen at right angles to vessel and branch, for 10,000 pairs", () => {
    fc.assert(
      fc.property(axis, axis, (vessel, branch) => {
        const view = profileView(vessel, branch);
        const between = angleBetweenDeg(vessel, branch);
        const isOneLine = Math.min(between, 180 - between) < 10;
        if (!view) return isOneLine;
        const direction = detectorDirection(view.primaryDeg, view.secondaryDeg);
        const isAcrossBoth =
          Math.abs(dot(direction, vessel)) < 1e-9 && Math.abs(dot(direction, branch)) < 1e-9;
        return !isOneLine && isAcrossBoth;
      }),
      axes,
    );
  });

  test("at 10 degrees there is a view, under it none", () => {
    const at = (deg: number): Vector => {
      const angle = (deg * Math.PI) / 180;
      return [Math.sin(angle), 0, Math.cos(angle)];
    };
    expect(profileView([0, 0, 1], at(10))).toEqual({ primaryDeg: 0, secondaryDeg: 0 });
    expect(profileView([0, 0, 1], at(170))).not.toBeNull();
    expect(profileView([0, 0, 1], at(9.99))).toBeNull();
    expect(profileView([0, 0, 1], at(170.01))).toBeNull();
  });
});
