import type { Profile, ProfileRow } from "./profile-data.ts";
import {
  bandNames,
  firstIliacBand,
  profileGaps,
  sideOf,
  type ProfileSide,
} from "./profile-gaps.ts";
import { outlinePt, rulerPt, type ProfileLayout } from "./profile-layout.ts";
import { element, label, line } from "./svg.ts";

const barPt = 6;
const tickReachPt = 7;

/** The column of band names with a tick at every border. */
export function drawRuler({ y }: ProfileLayout): string {
  const bands = bandNames.map((text, band) => {
    const top = y(band);
    const middle = (top + y(band + 1)) / 2;
    return (
      line(
        [
          [0, top],
          [rulerPt - 4, top],
        ],
        "hair",
      ) + label({ x: 0, y: middle + 3, text, className: "faint" })
    );
  });
  const end = y(bandNames.length);
  return (
    bands.join("") +
    line(
      [
        [0, end],
        [rulerPt - 4, end],
      ],
      "hair",
    )
  );
}

const wordsAnchor = { middle: "middle", right: "end", left: "start" } as const;

/** Open stretches: two short ends with nothing between them but the words, once where both iliac sides are open alike. */
export function drawGaps(profile: Profile, { axis, y }: ProfileLayout): string {
  const gaps = profileGaps(profile.bars);
  const drawn = gaps.map(({ side, from, to }) => {
    const x = axis[side];
    const top = y(from) + 1.5;
    const bottom = y(to) - 1.5;
    const ends = [top, bottom]
      .map((at) =>
        line(
          [
            [x - 7, at],
            [x + 7, at],
          ],
          "gap-end",
        ),
      )
      .join("");
    const twins = gaps.filter((gap) => gap.side !== "middle" && gap.from === from && gap.to === to);
    const isShared = side !== "middle" && twins.length === 2;
    if (isShared && side === "left") return ends;
    const anchor = isShared ? "middle" : wordsAnchor[side];
    const shift = { start: -7, middle: 0, end: 7 }[anchor];
    const wordsX = (isShared ? axis.middle : x) + shift;
    const words = { x: wordsX, y: (top + bottom) / 2 + 3, text: "not measured" };
    return ends + label({ ...words, anchor, className: "faint" });
  });
  return drawn.join("");
}

/** Chain line, as a centre line is drawn, along the measured stretches only. */
export function drawAxis(profile: Profile, { axis, y }: ProfileLayout): string {
  const gaps = profileGaps(profile.bars);
  const stretch = (side: ProfileSide, first: number, last: number): string => {
    const open = gaps.filter((gap) => gap.side === side);
    const edges = [first, ...open.flatMap(({ from, to }) => [from, to]), last];
    const lines: string[] = [];
    for (let index = 0; index < edges.length; index += 2) {
      const from = edges[index] ?? last;
      const to = edges[index + 1] ?? last;
      if (to > from)
        lines.push(
          line(
            [
              [axis[side], y(from)],
              [axis[side], y(to)],
            ],
            "axis",
          ),
        );
    }
    return lines.join("");
  };
  const end = bandNames.length;
  return (
    stretch("middle", 0, firstIliacBand) +
    stretch("right", firstIliacBand, end) +
    stretch("left", firstIliacBand, end)
  );
}

/** One bar to scale with true lumen, outline of the exam before and limit ticks. */
export function drawBar(row: ProfileRow, y: number, { axis, mm }: ProfileLayout): string {
  const side = sideOf(row.place.id);
  const x = axis[side];
  const bar = (valueMm: number, heightPt: number, className: string): string =>
    element("rect", {
      x: x - mm(valueMm) / 2,
      y: y - heightPt / 2,
      width: mm(valueMm),
      height: heightPt,
      class: className,
    });
  const parts = [bar(row.valueMm, barPt, row.lumen === "true" ? "lumen" : "bar")];
  if (row.trueLumenMm !== null) parts.push(bar(row.trueLumenMm, barPt, "lumen"));
  if (row.before) parts.push(bar(row.before.valueMm, outlinePt, "outline"));
  const signs = { middle: [-1, 1], right: [-1], left: [1] }[side];
  for (const { valueMm } of row.limits) {
    for (const sign of signs) {
      const at = x + (sign * mm(valueMm)) / 2;
      parts.push(
        line(
          [
            [at, y - tickReachPt],
            [at, y + tickReachPt],
          ],
          "limit-tick",
        ),
      );
    }
  }
  return parts.join("");
}

/** Brackets of the ranges beside the bands. */
export function drawBrackets({ ranges }: Profile, { y, lanes, laneX }: ProfileLayout): string {
  const brackets = ranges.map(({ place }, index) => {
    const [from, to] = place.span ?? [0, 0];
    const x = laneX(lanes[index] ?? 0);
    const top = y(from) + 1;
    const bottom = y(to) - 1;
    return line(
      [
        [x - 3, top],
        [x, top],
        [x, bottom],
        [x - 3, bottom],
      ],
      "bracket",
    );
  });
  return brackets.join("");
}
