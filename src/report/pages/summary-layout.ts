import { paperSize, textWidthOf, type Paper } from "../paper.ts";
import type { TitleBlock } from "./title-block.ts";
import { textLinePt, titleHeightPt } from "./title-height.ts";

/** How much a summary holds, most generous first. */
export const summaryLevels = [
  { criteria: 9, lines: 3 },
  { criteria: 9, lines: 2 },
  { criteria: 7, lines: 2 },
  { criteria: 5, lines: 1 },
] as const;
export type SummaryLevel = (typeof summaryLevels)[number];

/** Widths in points of the summary's columns. */
export interface SummaryColumns {
  widthPt: number;
  profilePt: number;
  growthPt: number;
  placePt: number;
  limitPt: number;
  sourcePt: number;
  missingPt: number;
  linePt: number;
}

const topMarginPt = 26;
const upperGapPt = 8;
const captionGapPt = 3;
const tableGapPt = 7;
const rowPt = 1.5 + textLinePt + 1 + 0.75;
const restPt = 1.5 + textLinePt;
const keyLinePt = 0.5 + 2 + 1.5;
const keyLineLabelPt = 78;
/** Kept free against differences in rounding. */
const reservePt = 4;
/** Over this the drawings gain nothing. */
export const largestUpperPt = 430;
/** Under this a drawing can no longer be read. */
export const leastUpperPt = 290;

/** Column widths for a paper; the stylesheet's fixed columns are taken off the width. */
export function summaryColumns(paper: Paper): SummaryColumns {
  const widthPt = textWidthOf(paper);
  const profilePt = Math.round(widthPt * 0.61);
  return {
    widthPt,
    profilePt,
    growthPt: widthPt - profilePt - 14,
    placePt: widthPt - 80 - 40 - 36 - 70 - 82 - 96 - 8,
    limitPt: 82 - 8,
    sourcePt: 96 - 2,
    missingPt: 40 + 36 + 70 - 8,
    linePt: widthPt - keyLineLabelPt,
  };
}

/** What stands on the sheet beside the drawings. */
export interface SummaryText {
  title: TitleBlock;
  captionLines: number;
  criteria: number;
  hasRest: boolean;
  /** Lines of each labelled line at the foot. */
  keyLines: number[];
}

/** Height in points that is left for the drawings. */
export function upperHeightPt(text: SummaryText, paper: Paper): number {
  const { heightPt, bottomPt } = paperSize(paper);
  const keyLines = text.keyLines.map((lines) => keyLinePt + lines * textLinePt);
  const used = [
    titleHeightPt(text.title, textWidthOf(paper)),
    upperGapPt,
    captionGapPt + text.captionLines * textLinePt,
    tableGapPt + rowPt * (Math.max(1, text.criteria) + 1),
    text.hasRest ? restPt : 0,
    tableGapPt,
    ...keyLines,
    reservePt,
  ];
  const free = heightPt - topMarginPt - bottomPt - used.reduce((sum, height) => sum + height, 0);
  return Math.min(largestUpperPt, free);
}
