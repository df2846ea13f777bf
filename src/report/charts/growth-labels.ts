import { formatList, formatNumber } from "../format.ts";
import { limitLabel, type LimitInForce } from "../limits-in-force.ts";
import { textWidthPt } from "../text-width.ts";
import type { GrowthFrame, GrowthPoint } from "./growth-frame.ts";
import { placeLabels, type Box } from "./spread-labels.ts";
import { labelAscentPt, labelDescentPt, labelSizePt } from "./svg.ts";

/** A line of text and the room it takes. */
export interface TextBox extends Box {
  x: number;
  baseline: number;
  text: string;
  className: string;
}

function textBox(x: number, baseline: number, text: string, className: string): TextBox {
  const width = textWidthPt(text, labelSizePt) + 1;
  return {
    x,
    baseline,
    text,
    className,
    left: x,
    right: x + width,
    top: baseline - labelAscentPt,
    bottom: baseline + labelDescentPt,
  };
}

/** Places beside a point for its number, kept inside the plot. */
function numberPlaces({ date, low, high, values }: GrowthPoint, frame: GrowthFrame): TextBox[] {
  const text = formatList(values.map((value) => formatNumber(value)));
  const width = textWidthPt(text, labelSizePt) + 1;
  const at = frame.x(date);
  const clamp = (x: number): number =>
    Math.max(frame.left + 2, Math.min(x, frame.size.widthPt - width));
  const middle = (frame.y(low) + frame.y(high)) / 2 + 3;
  const places = [
    textBox(clamp(at - width / 2), frame.y(high) - 3.5, text, ""),
    textBox(clamp(at - width / 2), frame.y(low) + labelAscentPt + 2.5, text, ""),
    textBox(clamp(at + 5), middle, text, ""),
    textBox(clamp(at - 5 - width), middle, text, ""),
  ];
  return places.filter(({ top, bottom }) => top >= 0 && bottom <= frame.bottom);
}

/** Dates under their exams. */
function datePlaces({ date }: GrowthPoint, frame: GrowthFrame): TextBox[] {
  const width = textWidthPt(date, labelSizePt);
  const low = frame.left - 16;
  const x = Math.max(low, Math.min(frame.x(date) - width / 2, frame.size.widthPt - width - 1));
  return [textBox(x, frame.size.heightPt - 2.5, date, "faint")];
}

function limitPlaces(limit: LimitInForce, { left, right, y }: GrowthFrame): TextBox[] {
  const text = limitLabel(limit);
  const width = textWidthPt(text, labelSizePt) + 1;
  const at = y(limit.valueMm);
  const above = at - 2.5;
  const below = at + labelAscentPt + 1.5;
  const steps = Math.max(1, Math.floor((right - width - left - 2) / 6));
  const columns = Array.from({ length: steps + 1 }, (_, step) => left + 2 + step * 6);
  const places = [above, below].flatMap((baseline) =>
    columns.map((x) => textBox(x, baseline, text, "limit-text")),
  );
  return places.filter((place) => place.right <= right + 1);
}

/** Last and first first: they must be named; then the rest in time. */
function byImportance<Item>(items: readonly Item[]): Item[] {
  const [first, ...rest] = items;
  const last = rest.pop();
  return [last, first, ...rest].filter((item) => item !== undefined);
}

/** Places dates, numbers and limit names so that none covers another or a point; returns the limits that found no room. */
export function growthLabels(
  points: readonly GrowthPoint[],
  limits: readonly LimitInForce[],
  frame: GrowthFrame,
) {
  const { x, y } = frame;
  const marks = points.map(({ date, low, high }) => ({
    left: x(date) - 3,
    right: x(date) + 3,
    top: y(high) - 1,
    bottom: y(low) + 1,
  }));
  const lines = limits.map(({ valueMm }) => ({
    left: frame.left,
    right: frame.right,
    top: y(valueMm) - 0.4,
    bottom: y(valueMm) + 0.4,
  }));
  const ordered = byImportance(points);
  const [last, ...others] = ordered.map((point) => numberPlaces(point, frame));
  const dates = ordered.map((point) => datePlaces(point, frame));
  const limitLabels = limits.map((limit) => limitPlaces(limit, frame));
  const candidates = [...dates, last ?? [], ...limitLabels, ...others];
  const placed = placeLabels(candidates, [...marks, ...lines]);
  const unnamed = limits.filter((_, index) => placed[dates.length + 1 + index] === null);
  return { texts: placed.filter((place) => place !== null), unnamed };
}
