import type { Profile, ProfileRow } from "./profile-data.ts";
import { bandNames, sideOf, type ProfileSide } from "./profile-gaps.ts";
import { spreadLabels } from "./spread-labels.ts";

export interface WidthProfileSize {
  /** Unique on the page. */
  id: string;
  widthPt: number;
  heightPt: number;
  /** Room for the names of branches. */
  branchesPt: number;
  /** Room for the bars. */
  barsPt: number;
}

/** Where everything of a width profile lies, in points. */
export interface ProfileLayout {
  size: WidthProfileSize;
  /** 2 where the bars are drawn at 1 : 2. */
  denominator: number;
  /** Length on the page of a length in mm. */
  mm: (lengthMm: number) => number;
  /** Height on the page of a position in bands. */
  y: (position: number) => number;
  axis: Record<ProfileSide, number>;
  fieldLeft: number;
  fieldRight: number;
  /** Lane of each range's bracket. */
  lanes: number[];
  laneX: (lane: number) => number;
  labelLeft: number;
  labelWidth: number;
}

/** Width of the column of band names. */
export const rulerPt = 24;
/** Height of the outline of the exam before; bars keep this distance. */
export const outlinePt = 10.5;

const pointsInMm = 72 / 25.4;
const scaleDenominators = [1, 2, 3, 4, 5, 10];
const lanePt = 7;
const closestIliacAxesMm = 30;

/** Widest value of the rows in mm, with the exam before. */
export function widestMm(rows: readonly ProfileRow[]): number {
  return Math.max(0, ...rows.flatMap(({ valueMm, before }) => [valueMm, before?.valueMm ?? 0]));
}

/** Highest limit of the rows in mm. */
export function highestLimitMm(rows: readonly ProfileRow[]): number {
  return Math.max(0, ...rows.flatMap(({ limits }) => limits.map(({ valueMm }) => valueMm)));
}

/** Brackets that overlap along the vessel stand in lanes beside each other. */
function lanesOf(ranges: readonly ProfileRow[]): number[] {
  const ends: number[] = [];
  return ranges.map(({ place }) => {
    const [from, to] = place.span ?? [0, 0];
    const free = ends.findIndex((end) => end <= from);
    const lane = free < 0 ? ends.length : free;
    ends[lane] = to;
    return lane;
  });
}

/** Chooses the largest standard scale at which all bars and limits fit, and places columns and axes. */
export function profileLayout(profile: Profile, size: WidthProfileSize): ProfileLayout {
  const middle = profile.bars.filter(({ place }) => sideOf(place.id) === "middle");
  const iliac = profile.bars.filter(({ place }) => sideOf(place.id) !== "middle");
  const axesMm = Math.max(closestIliacAxesMm, widestMm(iliac) + 8);
  const neededMm = Math.max(
    widestMm(middle),
    highestLimitMm(middle),
    axesMm + Math.max(widestMm(iliac), highestLimitMm(iliac)),
  );
  const fits = (scale: number): boolean => (neededMm * pointsInMm) / scale <= size.barsPt - 4;
  const denominator = scaleDenominators.find(fits) ?? Math.ceil(neededMm);
  const mm = (lengthMm: number): number => (lengthMm * pointsInMm) / denominator;
  const fieldLeft = rulerPt + size.branchesPt + 10;
  const fieldRight = fieldLeft + size.barsPt;
  const centre = (fieldLeft + fieldRight) / 2;
  const bandPt = (size.heightPt - 4) / bandNames.length;
  const lanes = lanesOf(profile.ranges);
  const labelLeft = fieldRight + 10 + lanePt * new Set(lanes).size;
  return {
    size,
    denominator,
    mm,
    y: (position) => 2 + position * bandPt,
    axis: { middle: centre, right: centre - mm(axesMm) / 2, left: centre + mm(axesMm) / 2 },
    fieldLeft,
    fieldRight,
    lanes,
    laneX: (lane) => fieldRight + 4 + lane * lanePt,
    labelLeft,
    labelWidth: size.widthPt - labelLeft,
  };
}

/** Height on the page of each bar: bars on one axis keep clear of each other. */
export function barHeights(profile: Profile, layout: ProfileLayout): number[] {
  const heights = profile.bars.map(() => 0);
  for (const side of ["middle", "right", "left"] as const) {
    const here = [...profile.bars.entries()].filter(([, { place }]) => sideOf(place.id) === side);
    const items = here.map(([, { place }]) => ({
      wanted: layout.y(place.position),
      height: Math.min(outlinePt + 2, layout.size.heightPt / here.length),
    }));
    const placed = spreadLabels(items, 0, layout.size.heightPt);
    for (const [order, [index]] of here.entries()) heights[index] = placed[order] ?? 0;
  }
  return heights;
}
