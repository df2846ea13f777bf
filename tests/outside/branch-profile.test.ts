/*
 * The view of a branch in profile, and the apparent depth of a ring, against an independent derivation.
 *
 * - Angles: a detector is carried round the patient by two rotations, first up to the head by b, then to the left by a (positioner
 *   angles of DICOM PS3.3 C.8.7.5.1.2; axes of C.7.6.2.1.1: x left, y back, z head), written as matrices of a general
 *   linear algebra library (ml-matrix). Its rows give the screen; nothing of the closed formulas of the program is used.
 * - Profile: the direction across two axes is the null space of both, from a singular value decomposition of the same library.
 * - The worked pair (0.5, 0.8, 0.33) and (0.1, -0.15, 0.98), LAO 61.26 and caudal 9.26: reckoned beforehand by hand.
 */
import fc from "fast-check";
import { Matrix, SingularValueDecomposition } from "ml-matrix";
import { expect, test } from "vitest";
import type { Vector } from "../../src/geometry/vector.ts";
import { branchProfile } from "../../src/planning/views/branch-profile.ts";
import { displacements } from "../../src/planning/views/ring-displacement.ts";
import { viewFamily } from "../../src/planning/views/view-family.ts";
import { carotid } from "../planning/views/sample-lines.ts";

const reach = { primaryDeg: 90, secondaryDeg: 45 };
const radians = (deg: number): number => (deg * Math.PI) / 180;

/** Rows: right and up on the screen, and from the patient to the detector, for a view in degrees. */
function screen(primaryDeg: number, secondaryDeg: number): Matrix {
  const [a, b] = [radians(primaryDeg), radians(secondaryDeg)];
  const aboutHead = new Matrix([
    [Math.cos(a), -Math.sin(a), 0],
    [Math.sin(a), Math.cos(a), 0],
    [0, 0, 1],
  ]);
  // About the axis to the left: what is in front goes up to the head.
  const aboutLeft = new Matrix([
    [1, 0, 0],
    [0, Math.cos(b), Math.sin(b)],
    [0, -Math.sin(b), Math.cos(b)],
  ]);
  const start = new Matrix([
    [1, 0, 0],
    [0, 0, -1],
    [0, 1, 0],
  ]);
  return aboutHead.mmul(aboutLeft).mmul(start).transpose();
}

const onScreen = (view: Matrix, point: readonly number[]): number[] =>
  view.mmul(Matrix.columnVector([...point])).to1DArray();

/** Thousandths: next to the smallest doubles the library's decomposition loses its digits. */
const part = fc.integer({ min: -1000, max: 1000 }).map((thousandths) => thousandths / 1000);
const direction = fc
  .tuple(part, part, part)
  .filter((vector) => Math.hypot(...vector) > 0.2)
  .map((vector): Vector => {
    const long = Math.hypot(...vector);
    return [vector[0] / long, vector[1] / long, vector[2] / long];
  });

test("the screen of a view straight from the front has the patient's left to the right and the head up", () => {
  expect(onScreen(screen(0, 0), [1, 0, 0]).map((value) => value + 0)).toEqual([1, 0, 0]);
  expect(onScreen(screen(0, 0), [0, 0, 1])[1]).toBeCloseTo(1, 12);
  expect(onScreen(screen(0, 0), [0, -1, 0])[2]).toBeCloseTo(1, 12);
  expect(onScreen(screen(90, 0), [1, 0, 0])[2]).toBeCloseTo(1, 12);
  expect(onScreen(screen(0, 90), [0, 0, 1])[2]).toBeCloseTo(1, 12);
});

/** The branch beside a vessel, through the whole function from points. */
function profileOf(axis: Vector, branch: Vector) {
  const profile = branchProfile("branch", carotid(axis, branch), axis, reach);
  return "view" in profile ? profile : null;
}

test("the worked pair", () => {
  const view = profileOf([0.5, 0.8, 0.33], [0.1, -0.15, 0.98])?.view;
  expect(view?.primaryDeg).toBeCloseTo(61.26, 2);
  expect(view?.secondaryDeg).toBeCloseTo(-9.26, 2);
});

test("vessel and branch both lie in the screen of their profile, at their true angle, and the view is their null space", () => {
  fc.assert(
    fc.property(direction, direction, (axis, branch) => {
      const profile = profileOf(axis, branch);
      const cosine = axis.reduce((sum, value, index) => sum + value * (branch[index] ?? 0), 0);
      if (profile === null) {
        expect(Math.abs(cosine)).toBeGreaterThanOrEqual(Math.cos(radians(10)) - 1e-9);
        return;
      }
      const view = screen(profile.view.primaryDeg, profile.view.secondaryDeg);
      const [shownAxis, shownBranch] = [onScreen(view, axis), onScreen(view, branch)];
      expect(Math.abs(shownAxis[2] ?? 1)).toBeLessThan(1e-9);
      expect(Math.abs(shownBranch[2] ?? 1)).toBeLessThan(1e-9);
      const shownCosine =
        (shownAxis[0] ?? 0) * (shownBranch[0] ?? 0) + (shownAxis[1] ?? 0) * (shownBranch[1] ?? 0);
      expect(shownCosine).toBeCloseTo(cosine, 9);
      const { rightSingularVectors } = new SingularValueDecomposition(
        new Matrix([[...axis], [...branch], [0, 0, 0]]),
        { autoTranspose: true },
      );
      const across = rightSingularVectors.getColumn(2);
      const along = view.getRow(2).reduce((sum, value, i) => sum + value * (across[i] ?? 0), 0);
      expect(Math.abs(along)).toBeCloseTo(1, 9);
    }),
    { numRuns: 1000 },
  );
});

/** A ring about the axis, sampled as points. */
function ringPoints(axis: Vector, diameterMm: number): number[][] {
  const { rightSingularVectors } = new SingularValueDecomposition(
    new Matrix([[...axis], [0, 0, 0], [0, 0, 0]]),
  );
  const [one, other] = [rightSingularVectors.getColumn(1), rightSingularVectors.getColumn(2)];
  return Array.from({ length: 3600 }, (_, index) => {
    const turn = radians(index / 10);
    return one.map(
      (value, i) => (diameterMm / 2) * (Math.cos(turn) * value + Math.sin(turn) * (other[i] ?? 0)),
    );
  });
}

test("front and back of a sampled ring seem as far apart as said, along the vessel on the screen", () => {
  fc.assert(
    fc.property(direction, (axis) => {
      const rows = displacements(
        { axis, uncertaintyDeg: 0 },
        { value: 30, low: 30, high: 30 },
        null,
      );
      for (const { primaryDeg, secondaryDeg, displacementMm, shownOf20Mm } of rows) {
        const view = screen(primaryDeg, secondaryDeg);
        const [right = 0, up = 0] = onScreen(view, axis);
        const long = Math.hypot(right, up);
        expect(shownOf20Mm).toBeCloseTo(20 * long, 9);
        if (long < 1e-6) continue;
        const along = ringPoints(axis, 30).map((point) => {
          const [x = 0, y = 0] = onScreen(view, point);
          return (x * right + y * up) / long;
        });
        const apart = Math.max(...along) - Math.min(...along);
        expect(displacementMm?.value).toBeCloseTo(apart, 3);
      }
    }),
    { numRuns: 10 },
  );
});

test("in every edge-on view named the axis lies in the screen", () => {
  fc.assert(
    fc.property(direction, (axis) => {
      const { rows, nearest, nearestWithinReach, withoutTilt } = viewFamily(
        { axis, uncertaintyDeg: 1 },
        reach,
      );
      const named = [...rows, nearest, nearestWithinReach, withoutTilt].flatMap((view) =>
        view !== null && typeof view.secondaryDeg === "number"
          ? [screen(view.primaryDeg, view.secondaryDeg)]
          : [],
      );
      for (const view of named) expect(Math.abs(onScreen(view, axis)[2] ?? 1)).toBeLessThan(1e-9);
    }),
    { numRuns: 1000 },
  );
});

test("turning the axis by its uncertainty moves an edge-on angle by no more than is said, to first order", () => {
  const uncertaintyDeg = 0.01;
  fc.assert(
    fc.property(direction, direction, (axis, towards) => {
      const { rows } = viewFamily({ axis, uncertaintyDeg }, reach);
      const small = Math.tan(radians(uncertaintyDeg));
      const along = axis.reduce((sum, value, index) => sum + value * (towards[index] ?? 0), 0);
      const across = towards.map((value, index) => value - along * (axis[index] ?? 0));
      const long = Math.hypot(...across);
      if (long < 1e-3) return;
      const [x = 0, y = 0, z = 0] = axis.map(
        (value, i) => value + (small * (across[i] ?? 0)) / long,
      );
      const turned = viewFamily({ axis: [x, y, z], uncertaintyDeg }, reach).rows;
      for (const [index, { secondaryDeg, plusMinusDeg }] of rows.entries()) {
        const other = turned[index]?.secondaryDeg;
        if (typeof secondaryDeg !== "number" || typeof other !== "number") continue;
        // Past the horizontal the same view counts from the other side, and far moves are not of first order.
        if (plusMinusDeg === null || plusMinusDeg > 1 || Math.abs(secondaryDeg) > 85) continue;
        expect(Math.abs(other - secondaryDeg)).toBeLessThanOrEqual(plusMinusDeg * 1.05 + 1e-9);
      }
    }),
    { numRuns: 1000 },
  );
});
