/**
 * Angles of view against derivations that share nothing with the formulas in use.
 *
 * - Worked numbers, computed by hand from the positioner angles of DICOM PS3.3 C.8.7.5.1.2 (primary positive to
 *   the patient's left, secondary positive to the head) in the patient axes of C.7.6.2.1.1 (left, back, head).
 * - Rotation matrices: a detector in front of the patient, tilted about the left-right axis, then turned about the long axis.
 * - ml-matrix 6.15.1 (npm), a general-purpose linear-algebra library: edge-on and profile views as null vectors by
 *   singular value decomposition, the nearest view by the projection matrix, directions by the first singular vector.
 */
import fc from "fast-check";
import { Matrix, SingularValueDecomposition } from "ml-matrix";
import { describe, expect, test } from "vitest";
import { tangentAt } from "../../src/geometry/polyline.ts";
import {
  anglesOf,
  detectorDirection,
  edgeOnNearestToFrontal,
  edgeOnPrimaryWithoutTiltDeg,
  edgeOnSecondaryDeg,
  profileView,
  tiltDeg,
} from "../../src/geometry/projection.ts";
import { angleBetweenDeg, norm, subtract } from "../../src/geometry/vector.ts";
import type { ViewAngles } from "../../src/geometry/projection.ts";
import type { Vector } from "../../src/geometry/vector.ts";
import { evenly } from "../evenly.ts";
import { axis } from "../geometry/random-axes.ts";

const primary = evenly(-89.9, 89.9);
const secondary = evenly(-89.9, 89.9);
const radians = (deg: number): number => (deg * Math.PI) / 180;
const degrees = (rad: number): number => (rad * 180) / Math.PI;

/** Turns about the long axis so that the front comes to the left, and back again for a negative angle. */
const turnToLeft = (deg: number): Matrix => {
  const [c, s] = [Math.cos(radians(deg)), Math.sin(radians(deg))];
  return new Matrix([
    [c, -s, 0],
    [s, c, 0],
    [0, 0, 1],
  ]);
};
/** Turns about the left-right axis so that the front comes to the head. */
const tiltToHead = (deg: number): Matrix => {
  const [c, s] = [Math.cos(radians(deg)), Math.sin(radians(deg))];
  return new Matrix([
    [1, 0, 0],
    [0, c, s],
    [0, -s, c],
  ]);
};
const column = (v: Vector): Matrix => Matrix.columnVector([...v]);
const vectorOf = (matrix: Matrix): Vector => {
  const [x = 0, y = 0, z = 0] = matrix.to1DArray();
  return [x, y, z];
};
const byMatrices = (primaryDeg: number, secondaryDeg: number): Vector =>
  vectorOf(
    turnToLeft(primaryDeg)
      .mmul(tiltToHead(secondaryDeg))
      .mmul(column([0, -1, 0])),
  );
/** The vector at right angles to two others, by singular value decomposition, and how well the two determine it. */
function acrossBoth(a: Vector, b: Vector): { across: Vector; least: number } {
  const square = new Matrix([[...a], [...b], [0, 0, 0]]);
  const decomposition = new SingularValueDecomposition(square);
  const across = vectorOf(decomposition.rightSingularVectors.subMatrixColumn([2]));
  return { across, least: decomposition.diagonal[1] ?? 0 };
}
/** The view along a line by undoing the turn: no inverse trigonometry of the direction's own formula. */
function viewAlong(line: Vector): ViewAngles {
  const front = line[1] > 0 ? vectorOf(column(line).mul(-1)) : line;
  const primaryDeg = degrees(Math.atan(front[0] / -front[1]));
  const level = vectorOf(turnToLeft(-primaryDeg).mmul(column(front)));
  return { primaryDeg, secondaryDeg: degrees(Math.atan(level[2] / -level[1])) };
}
/** Both angles within 1e-9 degrees. */
const isSameView = (a: ViewAngles | null, b: ViewAngles): boolean =>
  a !== null &&
  Math.abs(a.primaryDeg - b.primaryDeg) < 1e-9 &&
  Math.abs(a.secondaryDeg - b.secondaryDeg) < 1e-9;

describe("worked numbers", () => {
  test.each<[number, number, Vector]>([
    [0, 0, [0, -1, 0]],
    [90, 0, [1, 0, 0]],
    [0, 90, [0, 0, 1]],
    [45, 20, [0.664463, -0.664463, 0.34202]],
    [-30, -20, [-0.469846, -0.813798, -0.34202]],
  ])("primary %s and secondary %s look from %s", (primaryDeg, secondaryDeg, direction) => {
    for (const [index, part] of detectorDirection(primaryDeg, secondaryDeg).entries())
      expect(part).toBeCloseTo(direction[index] ?? Number.NaN, 6);
    const angles = anglesOf(direction);
    expect(angles.primaryDeg).toBeCloseTo(primaryDeg, 4);
    expect(angles.secondaryDeg).toBeCloseTo(secondaryDeg, 4);
  });

  const descending: Vector = [0.1, 0.25, -0.96];
  const ascending: Vector = [-0.35, -0.3, 0.89];
  const arch: Vector = [0.45, 0.85, 0.27];
  test.each<[string, Vector, number, number]>([
    ["descending", descending, -30, -15.515],
    ["descending", descending, 0, -14.597],
    ["descending", descending, 30, -9.84],
    ["descending", descending, 45, -6.305],
    ["descending", descending, 60, -2.29],
    ["descending", descending, 75, 1.902],
    ["ascending", ascending, -30, -26.038],
    ["ascending", ascending, 0, -18.628],
    ["ascending", ascending, 30, -5.443],
    ["ascending", ascending, 45, 2.275],
    ["ascending", ascending, 60, 9.761],
    ["arch", arch, 45, 46.331],
    ["arch", arch, 60, 7.446],
    ["arch", arch, 75, -38.487],
  ])("%s-like axis %s: edge-on at primary %s with secondary %s", (_, u, primaryDeg, found) => {
    expect(edgeOnSecondaryDeg(u, primaryDeg)).toBeCloseTo(found, 3);
  });

  test("without tilt: the arch-like axis at 62.103, the level one at 57.995 with any tilt", () => {
    expect(edgeOnPrimaryWithoutTiltDeg(arch)).toBeCloseTo(62.103, 3);
    const level: Vector = [0.5, 0.8, 0];
    const primaryDeg = edgeOnPrimaryWithoutTiltDeg(level);
    expect(primaryDeg).toBeCloseTo(57.995, 3);
    expect(edgeOnSecondaryDeg(level, primaryDeg ?? 0)).toBe("any");
    expect(edgeOnSecondaryDeg(level, 45)).toBeNull();
  });

  test("a branch in profile: 61.26 to the left, 9.26 to the feet, from either side of the cross product", () => {
    const [vessel, branch]: Vector[] = [
      [0.5, 0.8, 0.33],
      [0.1, -0.15, 0.98],
    ];
    if (!vessel || !branch) throw new Error("no axes");
    for (const view of [profileView(vessel, branch), profileView(branch, vessel)]) {
      expect(view?.primaryDeg).toBeCloseTo(61.26, 2);
      expect(view?.secondaryDeg).toBeCloseTo(-9.26, 2);
    }
  });
});

describe("rotation matrices and linear algebra", () => {
  test("the direction of view is the front, tilted and turned", () => {
    fc.assert(
      fc.property(primary, secondary, (primaryDeg, secondaryDeg) => {
        const direction = byMatrices(primaryDeg, secondaryDeg);
        const off = norm(subtract(detectorDirection(primaryDeg, secondaryDeg), direction));
        return off < 1e-12 && isSameView(anglesOf(direction), viewAlong(direction));
      }),
      { numRuns: 2000 },
    );
  });

  test("the edge-on tilt is the null vector of axis and turned left-right axis", () => {
    let compared = 0;
    fc.assert(
      fc.property(axis, primary, (u, primaryDeg) => {
        // The direction lies in the upright plane of the primary angle, across the left-right axis turned with it.
        const sideways = vectorOf(turnToLeft(primaryDeg).mmul(column([1, 0, 0])));
        const { across, least } = acrossBoth(u, sideways);
        const level = vectorOf(turnToLeft(-primaryDeg).mmul(column(across)));
        fc.pre(least > 0.05 && Math.abs(level[1]) > 0.01);
        const secondaryDeg = degrees(Math.atan(level[2] / -level[1]));
        compared += 1;
        return Math.abs(Number(edgeOnSecondaryDeg(u, primaryDeg)) - secondaryDeg) < 1e-9;
      }),
      { numRuns: 2000 },
    );
    expect(compared).toBeGreaterThan(1500);
  });

  test("the nearest edge-on view is the front times the matrix that projects on the ring", () => {
    fc.assert(
      fc.property(axis, (u) => {
        const onRing = Matrix.eye(3).sub(column(u).mmul(column(u).transpose()));
        const projected = vectorOf(onRing.mmul(column([0, -1, 0])));
        fc.pre(Math.abs(projected[1]) > 0.01);
        const found = edgeOnNearestToFrontal(u);
        const away = Math.atan2(Math.hypot(projected[0], projected[2]), -projected[1]);
        const isAsFar = Math.abs((found?.fromFrontalDeg ?? Number.NaN) - degrees(away)) < 1e-9;
        return isAsFar && isSameView(found, viewAlong(projected));
      }),
      { numRuns: 2000 },
    );
  });

  test("the view of a branch in profile is the null vector of both axes", () => {
    fc.assert(
      fc.property(axis, axis, (vessel, branch) => {
        const { across, least } = acrossBoth(vessel, branch);
        fc.pre(least > 0.2 && Math.abs(across[1]) > 0.01);
        return isSameView(profileView(vessel, branch), viewAlong(across));
      }),
      { numRuns: 2000 },
    );
  });

  test("the tilt is the height of the axis over the detector, with the patient turned to the front view", () => {
    fc.assert(
      fc.property(axis, primary, secondary, (u, primaryDeg, secondaryDeg) => {
        const undone = tiltToHead(-secondaryDeg).mmul(turnToLeft(-primaryDeg)).mmul(column(u));
        const [across, depth, up] = vectorOf(undone);
        const tilt = degrees(Math.atan2(Math.abs(depth), Math.hypot(across, up)));
        return Math.abs(tiltDeg(u, primaryDeg, secondaryDeg) - tilt) < 1e-9;
      }),
      { numRuns: 2000 },
    );
  });
});

describe("directions of noisy straight lines", () => {
  /** The same numbers in every run (mulberry32), as standard normal values by Box and Muller. */
  function normals(seed: number): () => number {
    let state = seed;
    const uniform = (): number => {
      state = Math.trunc(state + 0x6d2b79f5);
      let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
      mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
      return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
    };
    return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  }
  const distancesMm = Array.from({ length: 11 }, (_, index) => index * 2);
  const noiseMm = 0.3;
  const line = (direction: Vector, normal: () => number): Vector[] =>
    distancesMm.map((mm) => {
      const [x, y, z] = direction;
      return [
        x * mm + noiseMm * normal(),
        y * mm + noiseMm * normal(),
        z * mm + noiseMm * normal(),
      ];
    });
  const directions: Vector[] = [
    [0, 0, 1],
    [0.6, 0.64, 0.48],
    [-0.28, 0.96, 0],
  ];
  const axisOf = (points: readonly Vector[]): Vector => {
    const tangent = tangentAt(points, distancesMm, 10, 10);
    if ("why" in tangent) throw new Error(tangent.why);
    return tangent.axis;
  };

  test.each(directions)(
    "%s, %s, %s: within 0.2 degrees of the first singular vector",
    (...along) => {
      const normal = normals(7);
      for (let run = 0; run < 500; run += 1) {
        const points = line(along, normal);
        const centred = new Matrix(points.map((point) => [...point])).center("column");
        const decomposition = new SingularValueDecomposition(centred);
        const first = vectorOf(decomposition.rightSingularVectors.subMatrixColumn([0]));
        const between = angleBetweenDeg(axisOf(points), first);
        expect(Math.min(between, 180 - between)).toBeLessThan(0.2);
      }
    },
  );

  test.each(directions)("%s, %s, %s: off by what least squares leaves", (...along) => {
    // Two coordinates across the line, each with the standard error noise / sqrt(sum of squared distances).
    const normal = normals(11);
    const runs = 4000;
    let squares = 0;
    for (let run = 0; run < runs; run += 1)
      squares += radians(angleBetweenDeg(axisOf(line(along, normal)), along)) ** 2;
    const sum = distancesMm.reduce((total, mm) => total + (mm - 10) ** 2, 0);
    expect(squares / runs / ((2 * noiseMm ** 2) / sum)).toBeCloseTo(1, 1);
  });
});
