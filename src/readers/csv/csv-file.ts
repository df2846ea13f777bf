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

interface Info {
  lines: number;
  empty_lines: number;
}

/**
 * Splits the text of a sheet into records. The delimiter (comma, semicolon or tab) is the one that
 * stands most often in the heading line outside quotes. No cell is converted.
 */
export function csvRecords(text: string): CsvRecords {
  const unixText = text.replaceAll(/\r\n?/g, "\n");
  try {
    const parsed = parse(unixText, {
      delimiter: delimiterOf(unixText),
      skip_empty_lines: true,
      info: true,
      columns: false,
    }) as unknown as { record: string[]; info: Info }[];
    let previousEnd = 0;
    let previousEmpty = 0;
    const records = parsed.map(({ record, info }, index) => {
      const firstLine = previousEnd + 1 + (info.empty_lines - previousEmpty);
      previousEnd = info.lines;
      previousEmpty = info.empty_lines;
      return { record: index + 1, firstLine, lastLine: info.lines, cells: record };
    });
    return { records };
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    return { fault: error.message, line: Number(error["lines"] ?? 1) };
  }
}

function delimiterOf(text: string): string {
  const [heading = ""] = text
    .replaceAll(/"[^"]*"/g, "")
    .trimStart()
    .split("\n");
  const count = (delimiter: string): number => heading.split(delimiter).length;
  return [",", ";", "\t"].reduce((best, next) => (count(next) > count(best) ? next : best));
}
