import { textWidthPt } from "../text-width.ts";
import { linearScale, type Scale } from "./scales.ts";
import { rowWords, type StripMark, type StripRow } from "./strip-data.ts";
import { labelSizePt } from "./svg.ts";

/** Where the line begins on paper: the headings of the rows stand to the left of it. */
export const left = 82;
/** Between a line and its name, and between a stretch and its words. */
export const nameGapPt = 3;
export const wordsGapPt = 4;
/** To the right of the line at least: the names of the axis and of the limits stand there. */
const leastRightPt = 62;
/** A text is cut only where it is surely too long. */
const safety = 1.03;
/** A longer name at the end of the line is cut. */
const longestNamePt = 130;

export const widthOf = (text: string): number => textWidthPt(text, labelSizePt);

export const endMmOf = ({ stretches }: StripRow): number =>
  Math.max(...stretches.map(({ endMm }) => endMm));
export const startMmOf = ({ stretches }: StripRow): number =>
  Math.min(...stretches.map(({ startMm }) => startMm));

const fitsLeft = (row: StripRow, x: Scale): boolean =>
  x(startMmOf(row)) - 2 * wordsGapPt - widthOf(rowWords(row)) >= left;

/** From distance to paper: as wide as the names and the words of the rows allow, to the left of their stretches or to the right. */
export function stripScale(
  { rows, marks }: { rows: readonly StripRow[]; marks: readonly StripMark[] },
  along: [number, number],
  widthPt: number,
): Scale {
  const [first, last] = along;
  const roomBeyond = (mm: number, wordsPt: number): number => {
    const share = (mm - first) / (last - first);
    // left + share * (widthPt - room - left) + wordsPt <= widthPt
    return share <= 0 ? 0 : widthPt - left - (widthPt - left - wordsPt) / share;
  };
  const names = marks.map(({ text, atMm }) =>
    roomBeyond(Math.max(...atMm), nameGapPt + Math.min(widthOf(text) * safety, longestNamePt)),
  );
  const scaleFor = (toTheRight: readonly StripRow[]): Scale => {
    const rooms = toTheRight.map((row) =>
      roomBeyond(endMmOf(row), widthOf(rowWords(row)) + 2 * wordsGapPt),
    );
    return linearScale(along, [left, widthPt - Math.max(leastRightPt, ...names, ...rooms)]);
  };
  const toTheRight = rows.filter((row) => !fitsLeft(row, scaleFor([])));
  const x = scaleFor(toTheRight);
  const isStillSo = rows.every((row) => toTheRight.includes(row) || fitsLeft(row, x));
  return isStillSo ? x : scaleFor(rows);
}
