import { stringify } from "csv-stringify/sync";

/** A table as CSV with a heading and CRLF line ends. Text that a spreadsheet would run as a formula is escaped. */
export function csvText(
  columns: readonly string[],
  rows: readonly (readonly (string | number | null)[])[],
): string {
  return stringify(
    rows.map((row) => [...row]),
    { header: true, columns: [...columns], escape_formulas: true, record_delimiter: "windows" },
  );
}
