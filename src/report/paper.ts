/** Paper that pages are laid out for. */
export type Paper = "A4" | "Letter";

/** Sheet and margins in points. */
export interface PaperSize {
  widthPt: number;
  heightPt: number;
  /** Above the running head's text, at the sides, and below with the footer. */
  topPt: number;
  sidePt: number;
  bottomPt: number;
}

/** ISO 216 A4 (210 by 297 mm) and ANSI Letter (8.5 by 11 in). */
const sheets = {
  A4: { widthPt: (210 * 72) / 25.4, heightPt: (297 * 72) / 25.4 },
  Letter: { widthPt: 612, heightPt: 792 },
} as const;

/** The sheet with the margins of every page. */
export function paperSize(paper: Paper): PaperSize {
  return { ...sheets[paper], topPt: 40, sidePt: 36, bottomPt: 50 };
}

/** Width between the margins in points. */
export function textWidthOf(paper: Paper): number {
  const { widthPt, sidePt } = paperSize(paper);
  return widthPt - 2 * sidePt;
}
