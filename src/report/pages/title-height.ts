import { shortenText, wrapText } from "../text-width.ts";
import type { TitleBlock } from "./title-block.ts";

/** Letters and lines of running text, in points; the stylesheet says the same. */
export const textSizePt = 9;
export const textLinePt = 11.5;

const namePt = 15;
const headPt = 4 + textLinePt + 18 + 4;
const factsPt = 0.6 + 2 + textLinePt + 3;
const wordsPaddingPt = 0.6 + 2 + textLinePt + 3;
const questionPaddingPt = 0.6 + 3 + 4;
const bordersPt = 2.4;
const cellPaddingPt = 14;
const idShare = 0.46;
const questionLabelPt = 50;

const columns = (block: TitleBlock, widthPt: number) => ({
  name: widthPt * (1 - idShare) - 30,
  id: widthPt * idShare,
  fact: (widthPt - bordersPt) / 4.5 - cellPaddingPt - 1,
  word: (widthPt - bordersPt) / block.words.length - cellPaddingPt - 1,
  question: widthPt - bordersPt - cellPaddingPt - questionLabelPt,
});

/** The title block cut so that its height is bounded: one line for names and facts, `lines` for words and question. */
export function shortenTitle(block: TitleBlock, widthPt: number, lines: number): TitleBlock {
  const { name, id, fact, word, question } = columns(block, widthPt);
  const cut = (text: string, width: number, count: number): string =>
    shortenText(text, width, textSizePt, count);
  return {
    kind: block.kind,
    asOf: block.asOf,
    name: shortenText(block.name, name, namePt, 1, "…", 600),
    id: cut(block.id, id, 1),
    lastExam: cut(block.lastExam, id - 46, 1),
    facts: block.facts.map(({ label, value }) => {
      const room = fact - (label.length + 1) * 5;
      return { label, value: cut(value, label === "Born" ? room * 1.5 : room, 1) };
    }),
    words: block.words.map(({ label, value }) => ({
      label,
      value: cut(value, word, Math.min(lines, 2)),
    })),
    question: shortenText(
      block.question,
      question,
      textSizePt,
      lines,
      "… (in full in the plan report)",
      600,
    ),
  };
}

/** Height of a title block in points whose names and facts stand on one line each. */
export function titleHeightPt(block: TitleBlock, widthPt: number): number {
  const { word, question } = columns(block, widthPt);
  const wordLines = block.words.map(({ value }) => wrapText(value, word, textSizePt).length);
  const questionLines = Math.max(1, wrapText(block.question, question, textSizePt, 600).length);
  return (
    bordersPt +
    headPt +
    factsPt +
    wordsPaddingPt +
    Math.max(1, ...wordLines) * textLinePt +
    questionPaddingPt +
    questionLines * textLinePt
  );
}
