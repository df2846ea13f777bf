import type { Message } from "../../message.ts";
import type { ReadDocument } from "../reading.ts";
import { readingsOf } from "./row-readings.ts";
import type { Sheet } from "./sheet.ts";
import { sheetDocuments } from "./sheet-documents.ts";

/** Reads a measurement sheet, long or wide; a cell that can't be used is a reading that says why. */
export function readMeasurementSheet(sheet: Sheet): {
  documents: ReadDocument[];
  messages: Message[];
} {
  return sheetDocuments(sheet, (row) => ({ readings: readingsOf(row, sheet.layout) }));
}
