import { CsvError, parse } from "csv-parse/sync";

/** One record of a sheet with its place: records count from 1 with the heading record as 1, lines from 1. */
export interface CsvRecord {
  record: number;
  firstLine: number;
  lastLine: number;
  cells: string[];
}

/** The records of a sheet, or the first fault and its line. */
export type CsvRecords = { records: CsvRecord[] } | { fault: string; line: number };

export const delimiters = [",", ";", "\t", "|"] as const;
export type Delimiter = (typeof delimiters)[number];

interface Info {
  lines: number;
  empty_lines: number;
}

/** Line ends of any kind (CRLF, CR) as LF, in cells too. */
export function withUnixLines(text: string): string {
  return text.replaceAll(/\r\n?/g, "\n");
}

/** No sane record of a sheet is longer; it bounds time and memory. */
const maxRecordCharacters = 1_000_000;

const faults: Readonly<Record<string, string>> = {
  CSV_QUOTE_NOT_CLOSED: "a quote that opens in the record from here on is not closed",
  CSV_INVALID_CLOSING_QUOTE: "letters follow a closing quote",
  INVALID_OPENING_QUOTE: "a quote stands inside a cell that does not begin with one",
  CSV_MAX_RECORD_SIZE: "the record from here on is longer than any sane one",
};

interface CsvOptions {
  delimiter: Delimiter;
  /** Lines of the file before the text. */
  linesBefore?: number;
  /** The most records to read. */
  limit?: number;
  /** The longest record that is read. */
  maxCharacters?: number;
}

/**
 * Splits text with LF line ends into records by RFC 4180, with one delimiter. No cell is converted, lines without any
 * character are passed over, and records may have different lengths: the caller checks them.
 */
export function csvRecords(
  text: string,
  { delimiter, linesBefore = 0, limit = -1, maxCharacters = maxRecordCharacters }: CsvOptions,
): CsvRecords {
  const records: CsvRecord[] = [];
  let previousEnd = 0;
  let previousEmpty = 0;
  const takeRecord = (cells: string[], { lines, empty_lines: emptyLines }: Info): null => {
    const firstLine = linesBefore + previousEnd + 1 + (emptyLines - previousEmpty);
    records.push({
      record: records.length + 1,
      firstLine,
      lastLine: linesBefore + lines,
      cells,
    });
    previousEnd = lines;
    previousEmpty = emptyLines;
    return null;
  };
  try {
    parse(text, {
      delimiter,
      record_delimiter: "\n",
      skip_empty_lines: true,
      relax_column_count: true,
      max_record_size: maxCharacters,
      to: limit,
      on_record: takeRecord,
    });
    return { records };
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const isOpen = error.code === "CSV_QUOTE_NOT_CLOSED" || error.code === "CSV_MAX_RECORD_SIZE";
    const line = isOpen ? previousEnd + 1 : Number(error["lines"] ?? 1);
    return { fault: faults[error.code] ?? error.code, line: linesBefore + line };
  }
}
