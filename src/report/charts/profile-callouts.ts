import type { Profile, ProfileRow } from "./profile-data.ts";
import { firstIliacBand, profileGaps, sideOf } from "./profile-gaps.ts";
import {
  branchLines,
  labelDetails,
  labelHeightPt,
  labelLines,
  type LabelDetail,
  type LabelLine,
} from "./profile-labels.ts";
import { highestLimitMm, rulerPt, widestMm, type ProfileLayout } from "./profile-layout.ts";
import { spreadLabels } from "./spread-labels.ts";
import { label, labelAscentPt, labelLinePt, line } from "./svg.ts";

/** A label and the point that its leader comes from. */
interface Callout {
  lines: LabelLine[];
  x: number;
  y: number;
  isRange: boolean;
  /** Where there is no room for all, labels of higher weight stay. */
  weight: number;
}

/** The labels on one side of the drawing. */
export interface LabelColumn {
  side: "left" | "right";
  callouts: Callout[];
  detail: LabelDetail;
  /** Places drawn without a label because there is no room. */
  unnamed: number;
}

const limitWeight = 1000;
/** Half the width of the words "not measured", with some air. */
const gapWordsPt = 31;

function weightOf(row: ProfileRow): number {
  return row.valueMm + (row.limits.length > 0 ? limitWeight : 0);
}

/** Half of what a bar takes up on its axis. */
function reachPt(row: ProfileRow, { mm }: ProfileLayout): number {
  return mm(Math.max(widestMm([row]), highestLimitMm([row]))) / 2;
}

function branchCallouts(profile: Profile, { size, axis, y }: ProfileLayout): Callout[] {
  const gaps = profileGaps(profile.bars);
  return profile.branches.map((branch) => {
    const isIliac = branch.position > firstIliacBand;
    const isInGap = gaps.some(({ from, to }) => branch.position > from && branch.position < to);
    const end = isIliac ? axis.right : axis.middle;
    return {
      lines: branchLines(branch, size.branchesPt),
      x: isInGap ? end - gapWordsPt : end,
      y: y(branch.position),
      isRange: false,
      weight: branch.measured === "" ? 0 : 1,
    };
  });
}

function barCallouts(
  side: LabelColumn["side"],
  profile: Profile,
  layout: ProfileLayout,
  heights: readonly number[],
  detail: LabelDetail,
): Callout[] {
  const { axis, size, labelWidth } = layout;
  const isRight = side === "right";
  return profile.bars.flatMap((row, index) => {
    const bodySide = sideOf(row.place.id);
    if ((bodySide === "right") === isRight) return [];
    const reach = reachPt(row, layout) + 2;
    return [
      {
        lines: labelLines(row, profile, detail, isRight ? labelWidth : size.branchesPt),
        x: axis[bodySide] + (isRight ? reach : -reach),
        y: heights[index] ?? 0,
        isRange: false,
        weight: weightOf(row),
      },
    ];
  });
}

function rangeCallouts(profile: Profile, layout: ProfileLayout, detail: LabelDetail): Callout[] {
  const { laneX, lanes, labelWidth, y } = layout;
  return profile.ranges.map((row, index) => ({
    lines: labelLines(row, profile, detail, labelWidth),
    x: laneX(lanes[index] ?? 0),
    y: y(row.place.position),
    isRange: true,
    weight: weightOf(row),
  }));
}

const heightOf = (callouts: readonly Callout[]): number =>
  callouts.reduce((sum, { lines }) => sum + labelHeightPt(lines), 0);

/** The labels of highest weight that fit, in the order of the input. */
function heaviest(callouts: readonly Callout[], heightPt: number): Callout[] {
  const kept = new Set<Callout>();
  let used = 0;
  for (const callout of callouts.toSorted((a, b) => b.weight - a.weight)) {
    const height = labelHeightPt(callout.lines);
    if (used + height > heightPt) continue;
    used += height;
    kept.add(callout);
  }
  return callouts.filter((callout) => kept.has(callout));
}

/** The fullest labels of one side that fit beside the bands, no fuller than `most`. */
function fittingColumn(
  side: LabelColumn["side"],
  profile: Profile,
  layout: ProfileLayout,
  heights: readonly number[],
  most: LabelDetail,
): LabelColumn {
  const room = layout.size.heightPt;
  const at = (detail: LabelDetail): Callout[] => [
    ...(side === "left" ? branchCallouts(profile, layout) : rangeCallouts(profile, layout, detail)),
    ...barCallouts(side, profile, layout, heights, detail),
  ];
  for (const detail of labelDetails.slice(labelDetails.indexOf(most))) {
    const callouts = at(detail);
    if (heightOf(callouts) <= room) return { side, callouts, detail, unnamed: 0 };
  }
  const all = at("least");
  const callouts = heaviest(all, room);
  return { side, callouts, detail: "least", unnamed: all.length - callouts.length };
}

/** The labels of both sides: branches and the right iliac arteries on the left, all others on the right. */
export function labelColumns(
  profile: Profile,
  layout: ProfileLayout,
  heights: readonly number[],
): LabelColumn[] {
  const right = fittingColumn("right", profile, layout, heights, "full");
  const left = fittingColumn("left", profile, layout, heights, right.detail);
  return [left, right];
}

function drawLines(
  lines: readonly LabelLine[],
  x: number,
  middle: number,
  anchor: "start" | "end",
): string {
  const first = middle - labelHeightPt(lines) / 2 + labelAscentPt + 1.5;
  const drawn = lines.map(({ text, kind }, index) => {
    const at = { x, y: first + index * labelLinePt, text, anchor };
    if (kind === "limit") return label({ ...at, className: "limit-text" });
    return label({ ...at, weight: kind === "name" ? 600 : 400 });
  });
  return drawn.join("");
}

/** The labels of one side, spread so that none covers another, with their leaders. */
export function drawColumn({ side, callouts }: LabelColumn, layout: ProfileLayout): string {
  const items = callouts.map(({ y, lines }) => ({ wanted: y, height: labelHeightPt(lines) }));
  const middles = spreadLabels(items, 0, layout.size.heightPt);
  const atRight = side === "right";
  const x = atRight ? layout.labelLeft : rulerPt + layout.size.branchesPt;
  const elbow = atRight ? layout.labelLeft - 8 : layout.fieldLeft - 2;
  const drawn = callouts.map((callout, index) => {
    const middle = middles[index] ?? callout.y;
    const end = x + (atRight ? -2.5 : 2.5);
    const way: [number, number][] = [
      [callout.x, callout.y],
      [elbow, callout.y],
      [end, middle],
    ];
    const leader = line(way, callout.isRange ? "range-leader" : "leader");
    return leader + drawLines(callout.lines, x, middle, atRight ? "start" : "end");
  });
  return drawn.join("");
}
