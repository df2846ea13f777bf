import type { Message, SourcePlace } from "../../message.ts";
import { ucumFromSheet } from "../../quantities/unit.ts";
import { headingKey } from "../../site/heading-key.ts";
import { type SheetField, unitOfField } from "../../site/sheet-fields.ts";
import type { SheetConventions } from "../../site/sheet-settings.ts";
import { readerMessage } from "../messages.ts";
import { chooseLayout } from "./choose-layout.ts";
import { type CsvRecord, csvRecords, type Delimiter } from "./csv-file.ts";
import { fileKindOf, type Layout } from "./layout.ts";
import { bareUnit, type SheetFrame, SheetRow } from "./sheet-row.ts";
import { linesFrom, sheetText } from "./sheet-text.ts";

/** A sheet whose layout is known, and its data rows. */
export interface Sheet {
  layout: Layout;
  rows: SheetRow[];
  messages: Message[];
}

/** No lab's list is larger or wider; the limits bound time and memory. */
const largestSheetMb = 5;
const mostCells = 10_000;

interface FileIdentity {
  file: string;
  sha256: string;
}

/** Reads the headings and rows of a sheet; a fault sets the whole sheet aside. */
export function openSheet(
  bytes: Uint8Array,
  file: FileIdentity,
  conventions: SheetConventions,
): Sheet | { setAside: Message; layout: Layout | null } {
  const whole: SourcePlace = { ...file, at: null };
  const tooLarge = (what: string) => ({
    setAside: readerMessage("csv-too-large", whole, { what }),
    layout: null,
  });
  if (bytes.length > largestSheetMb * 1e6) return tooLarge(`more than ${largestSheetMb} MB`);
  const text = sheetText(bytes);
  if (text === null) return { setAside: readerMessage("csv-not-text", whole), layout: null };
  if (text.widestLine > mostCells) return tooLarge(`a line of more than ${mostCells} cells`);
  const chosen = chooseLayout(text, conventions, whole);
  if ("setAside" in chosen) return { ...chosen, layout: null };
  const { layout, delimiter } = chosen;
  const parsed = csvRecords(linesFrom(text.text, layout.titleLines), {
    delimiter,
    linesBefore: text.linesBefore + layout.titleLines,
  });
  if ("fault" in parsed) {
    const place = { ...file, at: `line ${parsed.line}` };
    return { setAside: readerMessage("csv-broken", place, { what: parsed.fault }), layout };
  }
  const [headingRecord, ...others] = parsed.records;
  const unitRow = layout.unitRow ? (others.shift() ?? null) : null;
  const frame = frameOf(headingRecord?.cells ?? [], { file, layout, unitRow });
  if (layout.unitRow && !holdsUnits(frame)) {
    return { setAside: readerMessage("csv-unit-row-missing", whole), layout };
  }
  const twice = headingTwice(frame);
  if (twice !== undefined) {
    return { setAside: readerMessage("csv-heading-twice", whole, { heading: twice }), layout };
  }
  const sorted = dataRecords(others, frame, delimiter);
  if ("setAside" in sorted) return { ...sorted, layout };
  const { records, messages } = sorted;
  if (text.encoding === "Windows-1252") {
    messages.unshift(readerMessage("csv-encoding-guessed", whole));
  }
  messages.push(...unusedColumns(records, frame));
  return { layout, rows: records.map((record) => new SheetRow(frame, record)), messages };
}

function frameOf(
  cells: readonly string[],
  rest: Pick<SheetFrame, "file" | "layout" | "unitRow">,
): SheetFrame {
  const headings = cells.map((cell) => cell.replaceAll(/\s+/g, " ").trim());
  const columns = new Map(headings.map((heading, index) => [headingKey(heading), index]));
  return { ...rest, headings, columns };
}

const usedKeys = ({ layout: { fields, measures } }: SheetFrame): Set<string> =>
  new Set([...fields.values(), ...measures.map(({ key }) => key)]);

/** The first heading in use that stands twice. */
function headingTwice(frame: SheetFrame): string | undefined {
  const used = usedKeys(frame);
  const seen = new Set<string>();
  return frame.headings.find((heading) => {
    const key = headingKey(heading);
    const isTwice = seen.has(key);
    seen.add(key);
    return isTwice && used.has(key);
  });
}

/** True where the row under the headings has a unit, and nothing else, under the columns of numbers. */
function holdsUnits({ layout, unitRow, headings, columns }: SheetFrame): boolean {
  if (unitRow === null || unitRow.cells.length !== headings.length) return false;
  const isNumber = (field: SheetField): boolean =>
    field === "value" || (layout.kind === "centreline sheet" && unitOfField[field] !== undefined);
  const numbers = [...layout.fields].filter(([field]) => isNumber(field));
  const keys = [...layout.measures, ...numbers.map(([, key]) => ({ key }))].map(({ key }) => key);
  const cells = keys.map((key) => bareUnit(unitRow.cells[columns.get(key) ?? -1] ?? ""));
  const filled = cells.filter((cell) => cell !== "");
  return filled.length > 0 && filled.every((cell) => ucumFromSheet(cell) !== null);
}

/** Takes rows that hold nothing and rows of totals out, each said, and checks the length of the others. */
function dataRecords(
  records: readonly CsvRecord[],
  { file, layout, headings }: SheetFrame,
  delimiter: Delimiter,
): { records: CsvRecord[]; messages: Message[] } | { setAside: Message } {
  const kept: CsvRecord[] = [];
  const messages: Message[] = [];
  const empty: CsvRecord[] = [];
  for (const one of records) {
    const { record, firstLine, cells } = one;
    const place = { ...file, at: `record ${record}, line ${firstLine}` };
    const first = cells.find((cell) => cell.trim() !== "")?.trim();
    if (first === undefined) {
      empty.push(one);
    } else if (isTotal(first, layout)) {
      messages.push(readerMessage("csv-row-total", place, { met: first }));
    } else if (fits(cells, headings.length, delimiter)) {
      kept.push(one);
    } else {
      const data = { record, met: cells.length, expected: headings.length };
      return { setAside: readerMessage("csv-row-length", place, data) };
    }
  }
  const [firstEmpty] = empty;
  if (firstEmpty) {
    const data = { count: empty.length, line: firstEmpty.firstLine };
    messages.push(readerMessage("csv-rows-empty", { ...file, at: null }, data));
  }
  return { records: kept, messages };
}

function isTotal(first: string, { totalRows }: Layout): boolean {
  const key = headingKey(first);
  return totalRows.some(
    (word) => key.startsWith(word) && !/^[\p{L}\p{N}]/u.test(key.slice(word.length)),
  );
}

/**
 * As many cells as headings; more only if they are empty and the delimiter is no comma, because with commas a decimal
 * comma without quotes makes the same row.
 */
function fits(cells: readonly string[], width: number, delimiter: Delimiter): boolean {
  if (cells.length === width) return true;
  const isTrailing = cells.slice(width).every((cell) => cell.trim() === "");
  return cells.length > width && isTrailing && delimiter !== ",";
}

const longestList = 20;

/** Says once which columns are not used; one without a heading counts where a cell of it holds something. */
function unusedColumns(records: readonly CsvRecord[], frame: SheetFrame): Message[] {
  const used = usedKeys(frame);
  const names = frame.headings.flatMap((heading, index) => {
    if (heading !== "") return used.has(headingKey(heading)) ? [] : [heading];
    const isFilled = records.some(({ cells }) => (cells[index] ?? "").trim() !== "");
    return isFilled ? [`column ${index + 1} (without a heading)`] : [];
  });
  if (names.length === 0) return [];
  const more = names.length - longestList;
  const list = names.slice(0, longestList).join(", ");
  const headings = more > 0 ? `${list} and ${more} more` : list;
  const { file, layout } = frame;
  const data = { headings, kind: fileKindOf(layout) };
  return [readerMessage("csv-heading-not-used", { ...file, at: null }, data)];
}
