import type { Message, SourcePlace } from "../../message.ts";
import { headingKey, unitInHeading } from "../../site/heading-key.ts";
import type { SheetField } from "../../site/sheet-fields.ts";
import { readerMessage } from "../messages.ts";
import type { CsvRecord } from "./csv-file.ts";
import type { Layout } from "./layout.ts";
import { sheetDate } from "./sheet-date.ts";
import { sheetNumber } from "./sheet-number.ts";
import type { StatedUnit } from "./value-cell.ts";

/** What all rows of a sheet share. */
export interface SheetFrame {
  file: { file: string; sha256: string };
  layout: Layout;
  /** Headings as printed, by column. */
  headings: readonly string[];
  /** The column of each heading key. */
  columns: ReadonlyMap<string, number>;
  /** The row of units under the headings; null where the sheet has none. */
  unitRow: CsvRecord | null;
}

/** What is lost where a cell can't be understood. */
export type Loss = "cell" | "row" | "reading" | "finding";

/** One data row. Cells are trimmed; an empty cell, or one that says "not measured", is null. */
export class SheetRow {
  readonly #frame: SheetFrame;
  readonly #record: CsvRecord;

  constructor(frame: SheetFrame, record: CsvRecord) {
    this.#frame = frame;
    this.#record = record;
  }

  /** The cell of a field in this program's words: of its column, else what holds for every row. */
  cell(field: SheetField): string | null {
    const { fields, always, words } = this.#frame.layout;
    const key = fields.get(field);
    const text = key === undefined ? (always.get(field) ?? null) : this.cellUnder(key);
    const meanings = words.get(field);
    return text === null ? null : (meanings?.get(headingKey(text)) ?? text);
  }

  /** The cell under a heading. */
  cellUnder(key: string): string | null {
    const { notMeasured } = this.#frame.layout;
    const text = cellOf(this.#record, this.#frame, key);
    const isNothing = text === "" || (notMeasured.size > 0 && notMeasured.has(headingKey(text)));
    return isNothing ? null : text;
  }

  /** The place of a field's cell, or of the whole row. */
  place(field?: SheetField): SourcePlace {
    return this.placeUnder(field && this.#frame.layout.fields.get(field));
  }

  /** The place of the cell under a heading, or of the whole row. */
  placeUnder(key: string | undefined): SourcePlace {
    const { record, firstLine, lastLine } = this.#record;
    const lines =
      firstLine === lastLine ? `line ${firstLine}` : `lines ${firstLine} to ${lastLine}`;
    const column = key === undefined ? "" : `, column ${this.headingOf(key)}`;
    return { ...this.#frame.file, at: `record ${record}, ${lines}${column}` };
  }

  /** A heading as the sheet prints it. */
  headingOf(key: string): string {
    return this.#frame.headings[this.#frame.columns.get(key) ?? -1] ?? key;
  }

  /** The units that the heading of a column and the row of units state. */
  unitsUnder(key: string): StatedUnit[] {
    const { unitRow } = this.#frame;
    const inHeading = unitInHeading(this.headingOf(key))?.unit ?? "";
    const inRow = unitRow === null ? "" : cellOf(unitRow, this.#frame, key);
    const stated: StatedUnit[] = [
      { words: inHeading, where: "heading" },
      { words: bareUnit(inRow), where: "unit row" },
    ];
    return stated.filter(({ words }) => words !== "");
  }

  /** A cell that must be one of a few words; anything else is reported and not used. */
  choice<T>(field: SheetField, words: Record<string, T>, messages: Message[]): T | null {
    const met = this.cell(field);
    if (met === null) return null;
    const value = new Map(Object.entries(words)).get(met.toLowerCase());
    if (value !== undefined) return value;
    const data = { heading: this.#nameOf(field), met, expected: Object.keys(words).join(", ") };
    messages.push(readerMessage("csv-choice-not-understood", this.place(field), data));
    return null;
  }

  /** A cell that must be a number; anything else is reported, with what is lost by it. */
  number(field: SheetField, messages: Message[], loss: Loss): number | null {
    const met = this.cell(field);
    if (met === null) return null;
    const decimal = sheetNumber(met, this.#frame.layout.decimal);
    if ("value" in decimal) return decimal.value;
    const data = { heading: this.#nameOf(field), met, loss };
    messages.push(readerMessage(decimal.problem, this.place(field), data));
    return null;
  }

  /** A cell that must be a date, as YYYY-MM-DD; anything else is reported, with what is lost by it. */
  date(field: SheetField, messages: Message[], loss: Loss): string | null {
    const met = this.cell(field);
    if (met === null) return null;
    const read = sheetDate(met, this.#frame.layout.dates);
    if ("date" in read) return read.date;
    const { problem, expected } = read;
    const data = { heading: this.#nameOf(field), met, loss, expected };
    messages.push(readerMessage(problem, this.place(field), data));
    return null;
  }

  /** Says that a cell without which there is nothing to use is empty. */
  missing(field: SheetField, loss: Loss): Message {
    const data = { heading: this.#nameOf(field), loss };
    return readerMessage("csv-cell-missing", this.place(field), data);
  }

  #nameOf(field: SheetField): string {
    const key = this.#frame.layout.fields.get(field);
    return key === undefined ? field : this.headingOf(key);
  }
}

/** The cell of a row of units without brackets. */
export function bareUnit(cell: string): string {
  return cell.trim().replace(/^[[(]\s*(.*?)\s*[\])]$/u, "$1");
}

function cellOf(record: CsvRecord, { columns }: SheetFrame, key: string): string {
  return record.cells[columns.get(key) ?? -1]?.trim() ?? "";
}
