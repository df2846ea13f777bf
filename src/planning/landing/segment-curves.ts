import type { Measurement } from "../../cases/patient-case.ts";
import { innerAndOuterMm } from "../../geometry/arc.ts";
import { type BendAt, bendsBetween, sidesOver } from "../../geometry/line-bends.ts";
import { type DiameterAt, diameterAt } from "./diameter-line.ts";
import type { LandingSegment, LengthRange } from "./landing-segment.ts";
import type { Stretch } from "./sound-stretch.ts";

export type Curves = Pick<LandingSegment, "innerMm" | "outerMm" | "curveMethod"> & {
  used: string[];
  missing: string[];
};

export interface CurveBasis {
  bends: readonly BendAt[];
  /** Along the whole line. */
  diameters: readonly DiameterAt[];
  /** Largest diameter of the stretch, and half of the widest 95 % interval in it. */
  largestMm: number;
  diameterErrorMm: number;
  /** Radii of curvature in the zones that the stretch lies in. */
  radii: readonly Measurement[];
}

type Stretches = Record<"value" | "low" | "high", Pick<Stretch, "startMm" | "endMm"> | null>;
type Ranges = { innerMm: LengthRange; outerMm: LengthRange };

/**
 * Lengths of a stretch along the inner and outer side, from the points of the centreline, else from the least radius
 * measured. `low` and `high` are those of the shortest and the longest stretch with the diameter at the ends of its error.
 */
export function segmentCurves(
  stretches: Stretches,
  lengthMm: LengthRange,
  basis: CurveBasis,
): Curves {
  if (basis.diameters.length === 0) return unknown("not known without a diameter", ["diameters"]);
  const fromPoints = curvesFromPoints(stretches, lengthMm, basis);
  if ("ranges" in fromPoints) {
    return { ...fromPoints.ranges, curveMethod: fromPoints.method, used: [], missing: [] };
  }
  const { radii } = basis;
  const { largestMm } = basis;
  const [tightest] = centrelineRadii(radii, largestMm / 2).toSorted(
    (one, other) => one.radiusMm - other.radiusMm,
  );
  if (!tightest) {
    const unstated =
      radii.length > 0 ? "whether the radius of curvature is of the centreline" : null;
    const missing =
      unstated ?? "points of the centreline along the stretch, or a radius of curvature";
    return unknown(`not known: ${fromPoints.why}`, [missing]);
  }
  const { radiusMm, key } = tightest;
  const ranges = rangesOf(lengthMm, (which, share) =>
    innerAndOuterMm(lengthMm[which], radiusMm, largestMm + share * basis.diameterErrorMm),
  );
  if ("why" in ranges) return unknown(`not known: ${ranges.why}`, [ranges.why]);
  const method = `by the least radius measured, ${radiusMm.toFixed(1)} mm of the centreline, with the largest diameter over the whole length; ${bendWords(largestMm / radiusMm)}`;
  return { ...ranges, curveMethod: method, used: [key], missing: [] };
}

const unknown = (curveMethod: string, missing: string[]): Curves => ({
  innerMm: null,
  outerMm: null,
  curveMethod,
  used: [],
  missing,
});

/** From this curvature times diameter on the centreline says too little of the inner side: common practice without a source. */
const tightBend = 0.3;

const bendWords = (bend: number): string =>
  `diameter over radius up to ${bend.toFixed(2)}${bend > tightBend ? `, over ${tightBend}: the centreline alone would not do (common practice without a source)` : ""}`;

type Sides = { innerMm: number; outerMm: number } | { why: string };

/**
 * Ranges over the shortest and the longest stretch. Where one of these can't be computed the bounds are used that hold
 * for every bend with a radius over half the diameter: inner 0 to L, outer L to 2 L.
 */
function rangesOf(
  lengthMm: LengthRange,
  sidesOf: (which: "value" | "low" | "high", diameterErrorShare: -1 | 0 | 1) => Sides,
): Ranges | { why: string } {
  const middle = sidesOf("value", 0);
  if ("why" in middle) return middle;
  const bounds: Record<"low" | "high", { innerMm: number; outerMm: number }[]> = {
    low: [
      { innerMm: 0, outerMm: lengthMm.low },
      { innerMm: lengthMm.low, outerMm: 2 * lengthMm.low },
    ],
    high: [
      { innerMm: 0, outerMm: lengthMm.high },
      { innerMm: lengthMm.high, outerMm: 2 * lengthMm.high },
    ],
  };
  const ends = (["low", "high"] as const).flatMap((which) => {
    const both = [sidesOf(which, -1), sidesOf(which, 1)];
    const known = both.filter((sides) => "innerMm" in sides);
    return known.length === both.length ? known : bounds[which];
  });
  const along = (side: "innerMm" | "outerMm"): LengthRange => {
    const lengths = [middle, ...ends].map((sides) => sides[side]);
    return { value: middle[side], low: Math.min(...lengths), high: Math.max(...lengths) };
  };
  return { innerMm: along("innerMm"), outerMm: along("outerMm") };
}

/** The bends of a stretch with the diameter at each. */
interface Places {
  bends: readonly BendAt[];
  diametersMm: readonly number[];
}

function curvesFromPoints(
  stretches: Stretches,
  lengthMm: LengthRange,
  { bends, diameters, diameterErrorMm }: CurveBasis,
): { ranges: Ranges; method: string } | { why: string } {
  const placesOf = (which: keyof Stretches): Places | { why: string } | null => {
    const stretch = stretches[which];
    const between = stretch && bendsBetween(bends, stretch.startMm, stretch.endMm);
    if (between === null || "why" in between) return between;
    const diametersMm = between.map(({ atMm }) => diameterAt(diameters, atMm));
    return { bends: between, diametersMm };
  };
  const places = { value: placesOf("value"), low: placesOf("low"), high: placesOf("high") };
  const ranges = rangesOf(lengthMm, (which, share): Sides => {
    const own = places[which];
    if (own === null) return { innerMm: 0, outerMm: 0 };
    if ("why" in own) return own;
    const errorMm = share * diameterErrorMm;
    const sides = sidesOver(own.bends, (at) => (own.diametersMm[at] ?? Number.NaN) + errorMm);
    if ("why" in sides) return sides;
    const halfMm = sides.differenceMm / 2;
    return { innerMm: lengthMm[which] - halfMm, outerMm: lengthMm[which] + halfMm };
  });
  if ("why" in ranges) return ranges;
  const method = "by the points of the centreline, smoothed, and the diameters between them";
  const { value } = places;
  const isKnown = value !== null && !("why" in value);
  return { ranges, method: isKnown ? `${method}; ${tightness(value)}` : method };
}

function tightness({ bends, diametersMm }: Places): string {
  const tightest = Math.max(0, ...bends.map(({ perMm }, at) => perMm * (diametersMm[at] ?? 0)));
  const sharpest = Math.max(0, ...bends.map(({ perMm }) => perMm));
  const gaps = bends.slice(1).map(({ atMm }, index) => atMm - (bends[index]?.atMm ?? atMm));
  const coarse =
    Math.max(0, ...gaps) * sharpest > 0.1
      ? "; points over a tenth of the radius apart understate the bend"
      : "";
  return `${bendWords(tightest)}${coarse}`;
}

/** Radii as those of the centreline, in mm; a radius of a line that is not stated is left out. */
function centrelineRadii(
  radii: readonly Measurement[],
  halfMm: number,
): { radiusMm: number; key: string }[] {
  return radii.flatMap(({ path, value, key }) => {
    if (path === "centreline") return { radiusMm: value, key };
    if (path === "inner-curve") return { radiusMm: value + halfMm, key };
    return path === "outer-curve" ? { radiusMm: value - halfMm, key } : [];
  });
}
