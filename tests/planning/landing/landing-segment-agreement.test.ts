import { describe, expect, test } from "vitest";
import type { PatientCase } from "../../../src/cases/patient-case.ts";
import type { Vector } from "../../../src/geometry/vector.ts";
import type { LandingSegment } from "../../../src/planning/landing/landing-segment.ts";
import { landingViews } from "../../../src/planning/views/landing-views.ts";
import { basisOf, leavingOut, lineCase, marks, segmentOf, station } from "./sample-segments.ts";

const diameterMm = 30;

/** Normal noise by Box and Muller from a fixed linear congruential sequence (Numerical Recipes' constants, recalled). */
function noise(): () => number {
  let state = 2026;
  const uniform = (): number => {
    state = (1664525 * state + 1013904223) % 2 ** 32;
    return (state + 1) / (2 ** 32 + 1);
  };
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

/** Sections along a torus, 30 mm wide up to 130 mm and 45 mm beyond, with points that scatter by `sdMm` in each direction. */
function torus(radiusMm: number, stepMm: number, sdMm: number, normal: () => number): PatientCase {
  const sections = Array.from({ length: Math.floor(140 / stepMm) }, (_, index) => {
    const mm = 30 + index * stepMm;
    const point: Vector = [
      radiusMm * (1 - Math.cos(mm / radiusMm)) + sdMm * normal(),
      sdMm * normal(),
      radiusMm * Math.sin(mm / radiusMm) + sdMm * normal(),
    ];
    const across = mm > 130 ? 45 : diameterMm;
    return station(mm, { key: `P${index}`, point, maximumMm: across, minimumMm: across });
  });
  return lineCase([...marks, ...sections]);
}

const rest = { planning: leavingOut("angulation") };

function bothOf(patientCase: PatientCase) {
  const segment: LandingSegment = segmentOf(patientCase, "proximal", "2", rest);
  const views = landingViews(patientCase, { ...basisOf(rest), segments: { proximal: [segment] } });
  const ring = views.rings.find(({ basis }) => basis === "landing segment");
  return { segment, sides: ring?.stretch?.sides ?? null };
}

const arches = [40, 60, 80].flatMap((radiusMm) =>
  [1, 2.5, 5, 7].map((stepMm) => [radiusMm, stepMm] as const),
);

describe("inner and outer side of one stretch, by the landing segment and by the view of its ring", () => {
  test.each(arches)("on a torus of %d mm, points every %d mm", (radiusMm, stepMm) => {
    const { segment, sides } = bothOf(torus(radiusMm, stepMm, 0, () => 0));
    // L (1 -/+ D / 2R): the length of a curve beside another (differential geometry).
    const lengthMm = segment.lengthMm?.value ?? Number.NaN;
    expect(lengthMm).toBeGreaterThan(55);
    const byHand = lengthMm * (1 - diameterMm / (2 * radiusMm));
    expect(segment.innerMm?.value).toBeCloseTo(byHand, 1);
    expect(sides?.innerMm.value).toBeCloseTo(segment.innerMm?.value ?? Number.NaN, 9);
    expect(sides?.outerMm.value).toBeCloseTo(segment.outerMm?.value ?? Number.NaN, 9);
  });

  test.each(arches)(
    "on a torus of %d mm whose points, every %d mm, scatter by 0.4 mm",
    (radiusMm, stepMm) => {
      const normal = noise();
      const offMm = Array.from({ length: 25 }, () => {
        const { segment, sides } = bothOf(torus(radiusMm, stepMm, 0.4, normal));
        expect(sides?.innerMm.value).toBeCloseTo(segment.innerMm?.value ?? Number.NaN, 9);
        expect(sides?.outerMm.value).toBeCloseTo(segment.outerMm?.value ?? Number.NaN, 9);
        const byHand = (segment.lengthMm?.value ?? 0) * (1 - diameterMm / (2 * radiusMm));
        return (segment.innerMm?.value ?? Number.NaN) - byHand;
      });
      // Scatter only ever adds bend: shorter on average, by under 1 mm of about 60.
      const mean = offMm.reduce((sum, mm) => sum + mm, 0) / offMm.length;
      expect(Math.abs(mean)).toBeLessThan(1);
      for (const mm of offMm) expect(Math.abs(mm)).toBeLessThan(2.5);
    },
  );
});
