import { type Message, messageMaker, type SourcePlace } from "../../message.ts";
import { parseDecimal } from "../../quantities/decimal.ts";
import { readerMessages } from "../messages.ts";
import { type CsvRecord, csvRecords } from "./csv-file.ts";
import { decodeText } from "./decode-text.ts";

export const readerMessage = messageMaker(readerMessages);

/** A sheet with checked headings and rows that know their place. */
export interface Sheet {
  headings: string[];
  rows: SheetRow[];
  messages: Message[];
}

/** One data row. Cells are trimmed; an empty cell is null. */
export class SheetRow {
  readonly #cells: ReadonlyMap<string, string>;
  readonly #record: CsvRecord;
  readonly #file: { file: string; sha256: string };

  constructor(headings: string[], record: CsvRecord, file: { file: string; sha256: string }) {
    this.#cells = new Map(headings.map((heading, index) => [heading, record.cells[index] ?? ""]));
    this.#record = record;
    this.#file = file;
  }

  cell(heading: string): string | null {
    const text = this.#cells.get(heading)?.trim() ?? "";
    return text === "" ? null : text;
  }

  /** The place of a cell, or of the whole row. */
  place(heading?: string): SourcePlace {
    const { record, firstLine, lastLine } = this.#record;
    const lines =
      firstLine === lastLine ? `line ${firstLine}` : `lines ${firstLine} to ${lastLine}`;
    const column = heading === undefined ? "" : `, column ${heading}`;
    return { ...this.#file, at: `record ${record}, ${lines}${column}` };
  }

  /** A cell that must be one of a few words; anything else is reported and not used. */
  choice<T>(heading: string, words: Record<string, T>, messages: Message[]): T | null {
    const met = this.cell(heading);
    if (met === null) return null;
    const value = words[met.toLowerCase()];
    if (value !== undefined) return value;
    const expected = Object.keys(words).join(", ");
    messages.push(
      readerMessage("csv-choice-not-understood", this.place(heading), { heading, met, expected }),
    );
    return null;
  }

  /** A cell that must be a number; anything else is reported, with what is lost by it. */
  number(heading: string, messages: Message[], loss: "cell" | "row"): number | null {
    const met = this.cell(heading);
    if (met === null) return null;
    const decimal = parseDecimal(met);
    if (decimal) return decimal.value;
    messages.push(
      readerMessage("csv-number-not-understood", this.place(heading), { heading, met, loss }),
    );
    return null;
  }

  /** A cell that must be an ISO date; anything else is reported, with what is lost by it. */
  date(heading: string, messages: Message[], loss: "cell" | "row"): string | null {
    const met = this.cell(heading);
    if (met === null) return null;
    if (isCalendarDate(met)) return met;
    messages.push(readerMessage("csv-date-not-iso", this.place(heading), { heading, met, loss }));
    return null;
  }
}

/** True for YYYY-MM-DD that names a day of the calendar. */
export function isCalendarDate(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const date = new Date(`${text}T00:00:00Z`);
  return !Number.isNaN(date.getTime()) && date.toISOString().startsWith(text);
}

/** Reads the headings and rows of a sheet; a fault sets the whole sheet aside. */
export function openSheet(
  bytes: Uint8Array,
  file: { file: string; sha256: string },
): Sheet | { setAside: Message } {
  const whole: SourcePlace = { ...file, at: null };
  const { text, encoding } = decodeText(bytes);
  // oxlint-disable-next-line no-control-regex
  if (/[\u0000-\u0008\u000b\u000c\u000e-\u001f]/.test(text)) {
    return { setAside: readerMessage("csv-not-text", whole) };
  }
  const parsed = csvRecords(text);
  if ("fault" in parsed) {
    const place = { ...file, at: `line ${parsed.line}` };
    return { setAside: readerMessage("csv-broken", place, { what: parsed.fault }) };
  }
  const [headingRecord, ...records] = parsed.records;
  const headings = (headingRecord?.cells ?? []).map((cell) => cell.trim().toLowerCase());
  const twice = headings.find((heading, index) => headings.indexOf(heading) !== index);
  if (twice !== undefined && twice !== "") {
    return { setAside: readerMessage("csv-heading-twice", whole, { heading: twice }) };
  }
  return {
    headings,
    rows: records.map((record) => new SheetRow(headings, record, file)),
    messages: encoding === "Windows-1252" ? [readerMessage("csv-encoding-guessed", whole)] : [],
  };
}

/** Notes each heading that this kind of sheet does not have. */
export function unusedHeadings(
  sheet: Sheet,
  known: readonly string[],
  kind: string,
  file: { file: string; sha256: string },
): Message[] {
  return sheet.headings
    .filter((heading) => heading !== "" && !known.includes(heading))
    .map((heading) =>
      readerMessage("csv-heading-not-used", { ...file, at: null }, { heading, kind }),
    );
}
