import type { Message } from "../../message.ts";
import type { ReadDocument, StatedFinding } from "../reading.ts";
import type { Sheet } from "./sheet.ts";
import { sheetDocuments } from "./sheet-documents.ts";
import type { SheetRow } from "./sheet-row.ts";

/**
 * Reads a finding sheet: one row for something seen that is no number. A row without a finding or a state is a finding
 * that says why it can't be used; whether a place is needed depends on the finding, and an empty one stays empty.
 */
export function readFindingSheet(sheet: Sheet): { documents: ReadDocument[]; messages: Message[] } {
  return sheetDocuments(sheet, (row) => ({ findings: [findingOf(row)] }));
}

function findingOf(row: SheetRow): StatedFinding {
  const stated: StatedFinding = {
    source: row.place("finding"),
    place: row.cell("place") ?? "",
    finding: row.cell("finding") ?? "",
    state: row.cell("state") ?? "",
    reader: row.cell("reader"),
    comment: row.cell("comment"),
  };
  const empty = (["finding", "state"] as const).find((field) => row.cell(field) === null);
  return empty === undefined ? stated : { ...stated, refused: row.missing(empty, "finding") };
}
