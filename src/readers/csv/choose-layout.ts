import { nearestWord } from "../../data-file.ts";
import type { Message, SourcePlace } from "../../message.ts";
import { headingKey } from "../../site/heading-key.ts";
import { fieldsOf } from "../../site/sheet-fields.ts";
import type { SheetConventions } from "../../site/sheet-settings.ts";
import { readerMessage } from "../messages.ts";
import { csvRecords, type Delimiter } from "./csv-file.ts";
import { declaredLayout, fileKindOf, type Layout, ownLayout } from "./layout.ts";
import { linesFrom, type SheetText } from "./sheet-text.ts";

/** A layout that fits a sheet, with the delimiter under which it does. */
export interface ChosenLayout {
  layout: Layout;
  delimiter: Delimiter;
}

interface Candidate extends ChosenLayout {
  /** Lines above the headings that the candidate takes for titles. */
  titleLines: number;
  /** Heading keys that the sheet has. */
  present: ReadonlySet<string>;
}

/**
 * Finds the layout of a sheet by its headings: a sheet of the site file all of whose headings are there, of several
 * the one with the most; else the headings of this program. Where none fits, the reason names the nearest miss.
 */
export function chooseLayout(
  text: SheetText,
  conventions: SheetConventions,
  whole: SourcePlace,
): ChosenLayout | { setAside: Message } {
  const headingsUnder = headingReader(text);
  const layouts = conventions.sheets.map((sheet) => declaredLayout(sheet, conventions));
  const candidatesWith = (titleLinesOf: (layout: Layout) => number): Candidate[] =>
    layouts.flatMap((layout) =>
      text.delimiters.map((delimiter) => {
        const titleLines = titleLinesOf(layout);
        const present = new Set(headingsUnder(delimiter, titleLines).map(headingKey));
        return { layout, delimiter, titleLines, present };
      }),
    );
  const [best, next] = candidatesWith(({ titleLines }) => titleLines)
    .filter((candidate) => shareOf(candidate) === 1)
    .toSorted((a, b) => keysOf(b.layout).length - keysOf(a.layout).length);
  if (best) {
    const isTie = next && keysOf(next.layout).length === keysOf(best.layout).length;
    if (!isTie) return best;
    const names = { name: best.layout.name ?? "", other: next.layout.name ?? "" };
    return { setAside: readerMessage("csv-sheets-fit", whole, names) };
  }
  const own = text.delimiters.flatMap((delimiter): Candidate[] => {
    const headings = headingsUnder(delimiter, 0);
    const layout = ownLayout(headings, conventions);
    const present = new Set(headings.map(headingKey));
    return layout ? [{ layout, delimiter, titleLines: 0, present }] : [];
  });
  const fitting = own.find(({ layout }) => missingField(layout) === undefined);
  if (fitting) return fitting;
  const declared = titleLinesTried.flatMap((count) => candidatesWith(() => count));
  return { setAside: nearMiss(declared, own, whole) };
}

/** Where a declared sheet is looked for when it does not stand where the site file says. */
const titleLinesTried = [0, 1, 2, 3, 4, 5];

/** Headings longer than this are no one's. */
const maxHeadingCharacters = 100_000;

/** Reads the heading record after so many title lines, each way once. A record that is broken has no headings. */
function headingReader(text: SheetText): (delimiter: Delimiter, titleLines: number) => string[] {
  const known = new Map<string, string[]>();
  return (delimiter, titleLines) => {
    const key = `${delimiter}${titleLines}`;
    let headings = known.get(key);
    if (headings === undefined) {
      const read = csvRecords(linesFrom(text.text, titleLines), {
        delimiter,
        limit: 1,
        maxCharacters: maxHeadingCharacters,
      });
      headings = "records" in read ? (read.records[0]?.cells ?? []) : [];
      known.set(key, headings);
    }
    return headings;
  };
}

const keysOf = ({ fields, measures }: Layout): string[] => [
  ...fields.values(),
  ...measures.map(({ key }) => key),
];

/** The part of a layout's headings that the sheet has, from 0 to 1. */
function shareOf({ layout, present }: Candidate): number {
  const keys = keysOf(layout);
  return keys.filter((key) => present.has(key)).length / keys.length;
}

const missingField = ({ kind, fields }: Layout) =>
  fieldsOf(kind).required.find((field) => !fields.has(field));

/** Why no layout fits: a declared sheet half of whose headings are there, then a sheet of this program's own. */
function nearMiss(
  declared: readonly Candidate[],
  own: readonly Candidate[],
  whole: SourcePlace,
): Message {
  const [nearest] = declared.toSorted((a, b) => shareOf(b) - shareOf(a));
  if (nearest && shareOf(nearest) >= 0.5) {
    const { layout, present, titleLines: met } = nearest;
    const name = layout.name ?? "";
    const heading = keysOf(layout).find((key) => !present.has(key));
    if (heading === undefined) {
      const data = { name, met, expected: layout.titleLines };
      return readerMessage("csv-title-lines", whole, data);
    }
    const data = { name, heading, nearest: nearestOf(heading, nearest) };
    return readerMessage("csv-declared-heading-missing", whole, data);
  }
  const [first] = own;
  const heading = first && missingField(first.layout);
  if (!first || heading === undefined) return readerMessage("file-not-recognised", whole);
  const kind = fileKindOf(first.layout);
  const data = { kind, heading, nearest: nearestOf(heading, first) };
  return readerMessage("csv-heading-missing", whole, data);
}

/** A heading of the sheet that is used for nothing and spelt much like the one that is missing. */
function nearestOf(heading: string, { layout, present }: Candidate): string {
  const used = new Set(keysOf(layout));
  const word = nearestWord(
    heading,
    [...present].filter((key) => key !== "" && !used.has(key)),
  );
  return word === null ? "" : `; it has ${word}`;
}
