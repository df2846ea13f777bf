import type { Message } from "../../message.ts";
import type { SheetConventions } from "../../site/sheet-settings.ts";
import { readerMessage } from "../messages.ts";
import { openSheet } from "./sheet.ts";

/** One graft that a site keeps: a generic row without maker or brand. Diameters are nominal, in mm. */
export interface InventoryRow {
  id: string;
  proximalMm: number;
  distalMm: number;
  coveredLengthMm: number;
  /** Outer diameter of the sheath. */
  sheathOuterMm: number;
}

/**
 * Reads a site's inventory of grafts (CSV). Every row must be whole: a fault is a message, and the caller does not
 * go on with a list that is only partly understood.
 */
export function readInventory(
  bytes: Uint8Array,
  file: { file: string; sha256: string },
  conventions: SheetConventions,
): { rows: InventoryRow[]; messages: Message[] } {
  const sheet = openSheet(bytes, file, conventions);
  if ("setAside" in sheet) return { rows: [], messages: [sheet.setAside] };
  if (sheet.layout.kind !== "graft inventory") {
    return { rows: [], messages: [readerMessage("file-not-recognised", { ...file, at: null })] };
  }
  const messages = [...sheet.messages];
  const rows: InventoryRow[] = [];
  for (const row of sheet.rows) {
    const id = row.cell("id");
    if (id === null) messages.push(row.missing("id", "row"));
    const [proximalMm, distalMm, coveredLengthMm, sheathOuterMm] = (
      ["proximal_mm", "distal_mm", "covered_length_mm", "sheath_outer_mm"] as const
    ).map((field) => {
      if (row.cell(field) === null) messages.push(row.missing(field, "row"));
      return row.number(field, messages, "row");
    });
    if (id === null || !proximalMm || !distalMm || !coveredLengthMm || !sheathOuterMm) continue;
    if (rows.some((earlier) => earlier.id === id)) {
      messages.push(readerMessage("csv-inventory-id-twice", row.place("id"), { id }));
      continue;
    }
    rows.push({ id, proximalMm, distalMm, coveredLengthMm, sheathOuterMm });
  }
  return { rows, messages };
}
