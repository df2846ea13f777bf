import { sentenceCase } from "../../quantities/sentence-case.ts";
import { formatLimit, formatList, formatNumber, notConfirmed } from "../format.ts";
import {
  hasUnconfirmed,
  limitLabel,
  notConfirmedMark,
  type LimitInForce,
} from "../limits-in-force.ts";
import type { PlanGrowth } from "../plan.ts";
import { fittedBand, isComparedPoint } from "./growth-fit.ts";
import {
  growthFrame,
  splitLimits,
  type GrowthChartSize,
  type GrowthFrame,
  type GrowthPoint,
  type SplitLimits,
} from "./growth-frame.ts";
import { growthLabels } from "./growth-labels.ts";
import { roundTicks } from "./scales.ts";
import { drawing, element, label, line, linePath } from "./svg.ts";

const markPt = 2.6;

function drawScale({ domain, left, right, bottom, top, y, size }: GrowthFrame): string {
  const ticks = roundTicks(domain, size.heightPt > 140 ? 6 : 3).filter(Number.isInteger);
  const marks = ticks.map(
    (tick) =>
      line(
        [
          [left - 3, y(tick)],
          [left, y(tick)],
        ],
        "hair",
      ) +
      label({ x: left - 5, y: y(tick) + 3, text: String(tick), anchor: "end", className: "faint" }),
  );
  return (
    marks.join("") +
    line(
      [
        [left, top],
        [left, bottom],
        [right, bottom],
      ],
      "hair",
    )
  );
}

function drawFit(growth: PlanGrowth, { x, y }: GrowthFrame): string {
  const fit = fittedBand(growth);
  if (fit.length === 0) return "";
  const upper = fit.map(({ date, highMm }): [number, number] => [x(date), y(highMm)]);
  const lower = fit.map(({ date, lowMm }): [number, number] => [x(date), y(lowMm)]);
  const outline = `${linePath([...upper, ...lower.toReversed()])}Z`;
  const middle = fit.map(({ date, valueMm }): [number, number] => [x(date), y(valueMm)]);
  return element("path", { d: outline, class: "fit-band" }) + line(middle, "fit-line");
}

function drawPoint(
  { date, values, low, high, comparability }: GrowthPoint,
  { x, y }: GrowthFrame,
): string {
  const at = x(date);
  const bar = line(
    [
      [at, y(high)],
      [at, y(low)],
    ],
    "error",
  );
  const ends = [high, low].map((end) =>
    line(
      [
        [at - 2, y(end)],
        [at + 2, y(end)],
      ],
      "error",
    ),
  );
  const marks = values.map((value) =>
    element("circle", {
      cx: at,
      cy: y(value),
      r: markPt,
      class: isComparedPoint({ comparability }) ? "point" : "point-hollow",
    }),
  );
  return [bar, ...ends, ...marks].join("");
}

/** The day of a repair: an upright chain line through the plot. */
function drawRepair(date: string, { x, top, bottom }: GrowthFrame): string {
  return line(
    [
      [x(date), top],
      [x(date), bottom],
    ],
    "axis",
  );
}

const isInside = (date: string, points: readonly GrowthPoint[]): boolean =>
  (points.at(0)?.date ?? "") < date && date < (points.at(-1)?.date ?? "");

function describe(
  growth: PlanGrowth,
  limits: readonly LimitInForce[],
  repairs: readonly string[],
): string {
  const points = growth.points.map(({ date, values, low, high, comparability, reasons }) => {
    const readings = formatList(values.map((value) => formatNumber(value)));
    const range = `${formatNumber(low)} to ${formatNumber(high)}`;
    const why = isComparedPoint({ comparability }) ? "" : `, not comparable: ${reasons.join("; ")}`;
    return `${date}: ${readings} mm (${range})${why}.`;
  });
  const list = limits.map(limitLabel);
  const limitSentence = list.length === 0 ? "" : ` Limits in mm: ${formatList(list)}.`;
  const repairSentence = repairs.length === 0 ? "" : ` Repaired on ${formatList(repairs)}.`;
  return `${points.join(" ")} ${growth.sentence}${limitSentence}${repairSentence}`;
}

function captionOf(
  growth: PlanGrowth,
  { drawn, beyond }: SplitLimits,
  unnamed: LimitInForce[],
  frame: GrowthFrame,
  repairs: readonly string[],
): string {
  const [base] = frame.domain;
  const sentences = base === 0 ? [] : [`Axis from ${formatLimit(base)} mm, not from zero.`];
  const hollow = growth.points.filter((point) => !isComparedPoint(point));
  for (const { date, reasons } of hollow)
    sentences.push(`Hollow ${date}: ${reasons.join("; ") || "not comparable"}.`);
  if (repairs.length > 0) sentences.push(`Upright chain line: repair on ${formatList(repairs)}.`);
  if (unnamed.length > 0) sentences.push(`Unnamed line: ${formatList(unnamed.map(limitLabel))}.`);
  if (beyond.length > 0) sentences.push(`Beyond the axis: ${formatList(beyond.map(limitLabel))}.`);
  if (hasUnconfirmed([...drawn, ...beyond])) sentences.push(`${notConfirmedMark} ${notConfirmed}.`);
  return sentences.join(" ");
}

/** Diameter over time at one place, with reading error, fitted band and the size limits compared there; `unnamed` lists the limits whose line had no room for its name. */
export function growthChart(
  growth: PlanGrowth,
  limits: readonly LimitInForce[],
  repairDates: readonly string[],
  size: GrowthChartSize,
): { svg: string; caption: string; unnamed: string[] } {
  const { points } = growth;
  const split = splitLimits(points, limits);
  const frame = growthFrame(points, split.drawn, size);
  const { texts, unnamed } = growthLabels(points, split.drawn, frame);
  const limitLines = split.drawn.map(({ valueMm }) =>
    line(
      [
        [frame.left, frame.y(valueMm)],
        [frame.right, frame.y(valueMm)],
      ],
      "limit-line",
    ),
  );
  const ticks = points.map(({ date }) =>
    line(
      [
        [frame.x(date), frame.bottom],
        [frame.x(date), frame.bottom + 3],
      ],
      "hair",
    ),
  );
  const repairs = repairDates.filter((date) => isInside(date, points));
  const svg = drawing(
    {
      ...size,
      title: `${sentenceCase(growth.place.label)}: ${growth.quantity} over time.`,
      description: describe(growth, limits, repairs),
    },
    drawScale(frame),
    ...ticks,
    drawFit(growth, frame),
    ...limitLines,
    ...repairs.map((date) => drawRepair(date, frame)),
    ...points.map((point) => drawPoint(point, frame)),
    ...texts.map(({ x, baseline, text, className }) =>
      label(className === "" ? { x, y: baseline, text } : { x, y: baseline, text, className }),
    ),
  );
  const caption = captionOf(growth, split, unnamed, frame, repairs);
  return { svg, caption, unnamed: unnamed.map(limitLabel) };
}
