import type { Plan } from "../plan.ts";
import { shortenText } from "../text-width.ts";
import { type Flag, flagRows } from "./flag-rows.ts";
import { linearScale, roundTicks, type Scale } from "./scales.ts";
import {
  describeStrip,
  emptyWords,
  isWidest,
  limitsMm,
  rowWords,
  stripLine,
  type StripMark,
  stripMarks,
  type StripRow,
  stripRows,
  wholeDiameters,
} from "./strip-data.ts";
import {
  endMmOf,
  left,
  nameGapPt,
  startMmOf,
  stripScale,
  widthOf,
  wordsGapPt,
} from "./strip-scale.ts";
import {
  drawing,
  element,
  label,
  labelAscentPt,
  labelLinePt,
  labelSizePt,
  line,
  type SvgText,
} from "./svg.ts";

const curvePt = 60;
const axisPt = 17;
const barPt = 7;
const rowPt = 12;

interface NamedLine extends Flag {
  text: string;
  /** All lines of the place; the name stands at the last. */
  lines: number[];
}

/** Names above the curve, each to the right of the line that it belongs to. */
const namedLines = (marks: readonly StripMark[], x: Scale, widthPt: number): NamedLine[] =>
  marks.map(({ text, atMm }) => {
    const at = x(Math.max(...atMm));
    const shown = shortenText(text, widthPt - at - nameGapPt, labelSizePt, 1);
    const until = at + nameGapPt + widthOf(shown);
    return { at, until, text: shown, lines: atMm.map((mm) => x(mm)) };
  });

function drawNames(
  names: readonly NamedLine[],
  rows: readonly number[],
  { top, bottom }: { top: number; bottom: number },
): string[] {
  return names.flatMap(({ at, text, lines }, index) => {
    const base = top - (rows[index] ?? 0) * labelLinePt - 4;
    return [
      ...lines.map((x) =>
        line(
          [
            [x, x === at ? base - labelAscentPt : top],
            [x, bottom],
          ],
          "leader",
        ),
      ),
      label({ x: at + nameGapPt, y: base, text }),
    ];
  });
}

/** A text that nothing shows through. */
const onGround = (text: SvgText): string[] => [
  element("rect", {
    x: text.x - 1,
    y: text.y - labelAscentPt,
    width: widthOf(text.text) + 2,
    height: labelAscentPt + 2,
    class: "strip-ground",
  }),
  label(text),
];

function drawRow(
  row: StripRow,
  { y, x, widthPt }: { y: number; x: Scale; widthPt: number },
): string[] {
  const { heading, stretches } = row;
  const base = y + barPt - 0.3;
  const words = rowWords(row);
  const width = widthOf(words);
  const right = x(endMmOf(row)) + wordsGapPt;
  const begin = right + width <= widthPt ? right : x(startMmOf(row)) - wordsGapPt - width;
  return [
    label({ x: left - 5, y: base, text: heading, anchor: "end" }),
    ...stretches.map((one) =>
      element("rect", {
        x: x(one.startMm),
        y,
        width: Math.max(x(one.endMm) - x(one.startMm), 1),
        height: barPt,
        class: isWidest(one) ? "outline" : "bar",
      }),
    ),
    ...onGround({ x: begin, y: base, text: words }),
  ];
}

/** Axes of the curve: mm along the centreline, mm across the vessel. */
function drawAxes(
  { x, y }: { x: Scale; y: Scale },
  {
    along: [first, last],
    most,
    top,
    bottom,
    widthPt,
  }: { along: [number, number]; most: number; top: number; bottom: number; widthPt: number },
): string[] {
  const right = x(last);
  return [
    line(
      [
        [left, top],
        [left, bottom],
        [right, bottom],
      ],
      "hair",
    ),
    ...roundTicks([0, most], 4).map((tick) =>
      label({ x: left - 5, y: y(tick) + 3, text: String(tick), anchor: "end", className: "faint" }),
    ),
    ...roundTicks([first, last], 8).flatMap((tick) => {
      const text = String(tick);
      return onGround({
        x: x(tick) - widthOf(text) / 2,
        y: bottom + 11.5,
        text,
        className: "faint",
      });
    }),
    label({ x: widthPt, y: bottom + 11.5, text: "mm along", anchor: "end", className: "faint" }),
    label({ x: left - 5, y: top - 8, text: "mm across", anchor: "end", className: "faint" }),
    ...limitsMm.map((limit) =>
      line(
        [
          [left, y(limit)],
          [right, y(limit)],
        ],
        "limit-line",
      ),
    ),
    label({
      x: right + 4,
      y: Math.max(y(Math.max(...limitsMm)) + 3, top + labelAscentPt),
      text: `${limitsMm.join(" and ")} mm`,
      className: "limit-text",
    }),
  ];
}

/** The aorta along its centreline with the stretches that either end of a graft could lie on; null without a centreline. */
export function landingStrip(
  plan: Plan,
  { id, widthPt }: { id: string; widthPt: number },
): { svg: string; caption: string } | null {
  const centreline = stripLine(plan);
  if (centreline === null) return null;
  const sizes = wholeDiameters(centreline);
  const marks = stripMarks(centreline);
  const allRows = stripRows(plan);
  const rows = allRows.filter(({ stretches }) => stretches.length > 0);
  const along: [number, number] = [
    centreline.stations[0]?.distanceMm ?? 0,
    centreline.stations.at(-1)?.distanceMm ?? 0,
  ];
  const x = stripScale({ rows, marks }, along, widthPt);
  const most = Math.ceil(Math.max(40, ...sizes.map(([, size]) => size)) / 10) * 10;
  const names = namedLines(marks, x, widthPt);
  const nameRows = flagRows(names);
  const top = (Math.max(0, ...nameRows) + 1) * labelLinePt + 4;
  const bottom = top + curvePt;
  const barsTop = bottom + axisPt;
  const heightPt = barsTop + rows.length * rowPt;
  const y = linearScale([0, most], [bottom, top]);
  const empty = emptyWords(allRows);
  const svg = drawing(
    {
      id,
      widthPt,
      heightPt,
      title: `Landing stretches along the centreline, ${centreline.exam}.`,
      description: describeStrip(centreline, { marks, rows, empty }),
    },
    ...drawNames(names, nameRows, { top, bottom: heightPt - rowPt + barPt }),
    ...drawAxes({ x, y }, { along, most, top, bottom, widthPt }),
    line(
      sizes.map(([at, size]): [number, number] => [x(at), y(size)]),
      "view-curve",
    ),
    ...sizes.map(([at, size]) =>
      element("circle", { cx: x(at), cy: y(size), r: 1.3, class: "point" }),
    ),
    ...rows.flatMap((row, index) => drawRow(row, { y: barsTop + index * rowPt, x, widthPt })),
  );
  const sentences = [
    `Curve: largest whole diameter at each section, ${centreline.exam}. Dashed: landing diameters that sources name.`,
    rows.some(({ stretches }) => stretches.some(isWidest))
      ? "Bars: stretches under the strictest published limits; outlines: under the widest where these differ."
      : "Bars: stretches under the published limits.",
    empty,
  ];
  return { svg, caption: sentences.filter((one) => one !== "").join(" ") };
}
