import type { Message } from "../../message.ts";
import { frenchToMm } from "../../quantities/french.ts";
import { holds } from "../../quantities/limit.ts";
import type { SheetConventions } from "../../site/sheet-settings.ts";
import { readerMessage } from "../messages.ts";
import { openSheet } from "./sheet.ts";
import type { SheetRow } from "./sheet-row.ts";

/** One graft that a site keeps: a generic row without maker or brand. Diameters are nominal, in mm. */
export interface InventoryRow {
  id: string;
  proximalMm: number;
  distalMm: number;
  coveredLengthMm: number;
  /** Outer diameter of the sheath. */
  sheathOuterMm: number;
  /** As the row states it: "22 Fr" or "7.3 mm". */
  sheathAsWritten: string;
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
    const [proximalMm, distalMm, coveredLengthMm] = (
      ["proximal_mm", "distal_mm", "covered_length_mm"] as const
    ).map((field) => {
      if (row.cell(field) === null) messages.push(row.missing(field, "row"));
      return row.number(field, messages, "row");
    });
    const sheath = sheathOf(row, messages);
    if (id === null || !proximalMm || !distalMm || !coveredLengthMm || sheath === null) continue;
    if (rows.some((earlier) => earlier.id === id)) {
      messages.push(readerMessage("csv-inventory-id-twice", row.place("id"), { id }));
      continue;
    }
    rows.push({ id, proximalMm, distalMm, coveredLengthMm, ...sheath });
  }
  return { rows, messages };
}

/** Half of the last decimal of a diameter in mm with one decimal, beside which a size in French is stated. */
const roundingMm = 0.05;

/** The sheath of a row, by the column in mm or in French; by both only where they agree as far as mm are rounded. */
function sheathOf(
  row: SheetRow,
  messages: Message[],
): Pick<InventoryRow, "sheathOuterMm" | "sheathAsWritten"> | null {
  const [mm, french] = [row.cell("sheath_outer_mm"), row.cell("sheath_outer_fr")];
  if (mm === null && french === null) {
    messages.push(row.missing("sheath_outer_mm", "row"));
    return null;
  }
  const statedMm = row.number("sheath_outer_mm", messages, "row");
  const statedFr = row.number("sheath_outer_fr", messages, "row");
  const isFaulty = (mm !== null && !statedMm) || (french !== null && !statedFr);
  if (isFaulty) return null;
  if (!statedFr) return statedMm ? { sheathOuterMm: statedMm, sheathAsWritten: `${mm} mm` } : null;
  const sheathOuterMm = frenchToMm(statedFr);
  if (statedMm && !holds(Math.abs(statedMm - sheathOuterMm), "<=", roundingMm)) {
    const stated = `${sheathOuterMm.toFixed(1)} (${french} Fr)`;
    const data = { heading: "sheath_outer_mm", met: `${mm}`, expected: stated };
    messages.push(
      readerMessage("csv-inventory-sheaths-differ", row.place("sheath_outer_mm"), data),
    );
    return null;
  }
  return { sheathOuterMm, sheathAsWritten: `${french} Fr` };
}
