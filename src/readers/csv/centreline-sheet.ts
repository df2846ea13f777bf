import type { Message } from "../../message.ts";
import { ucumFromSheet } from "../../quantities/unit.ts";
import { type SheetField, unitOfField } from "../../site/sheet-fields.ts";
import { readerMessage } from "../messages.ts";
import type { ReadDocument, StatedStation } from "../reading.ts";
import type { Sheet } from "./sheet.ts";
import { sheetDocuments } from "./sheet-documents.ts";
import type { Loss, SheetRow } from "./sheet-row.ts";

/**
 * Reads a centreline sheet: one row for one section at a distance along a vessel. A cell that can't be used loses only
 * its own value and says why; a row without a usable distance is a station that says why it is refused.
 */
export function readCentrelineSheet(sheet: Sheet): {
  documents: ReadDocument[];
  messages: Message[];
} {
  const { fields } = sheet.layout;
  return sheetDocuments(sheet, (row) => ({ stations: [stationOf(row, fields)] }));
}

type Fields = Sheet["layout"]["fields"];

function stationOf(row: SheetRow, fields: Fields): StatedStation {
  const unusable: Message[] = [];
  const number = (field: SheetField): number | null =>
    numberIn(row, field, { fields, messages: unusable, loss: "cell" });
  const refusals: Message[] = [];
  const distanceMm = numberIn(row, "distance_mm", { fields, messages: refusals, loss: "row" });
  const stated: StatedStation = {
    source: row.place("distance_mm"),
    vessel: row.cell("vessel"),
    distanceMm,
    mark: row.cell("mark"),
    markEdge: row.cell("mark_edge"),
    wall: row.cell("wall"),
    lumen: row.cell("lumen"),
    edge: row.cell("edge"),
    maximumMm: number("max_diameter_mm"),
    minimumMm: number("min_diameter_mm"),
    perimeterMm: number("perimeter_mm"),
    areaMm2: number("area_mm2"),
    thrombusArcDeg: number("thrombus_arc_deg"),
    thrombusThicknessMm: number("thrombus_mm"),
    calciumArcDeg: number("calcium_arc_deg"),
    x: number("x_mm"),
    y: number("y_mm"),
    z: number("z_mm"),
    axes: row.cell("axes"),
    patientPosition: row.cell("patient_position"),
    reader: row.cell("reader"),
    comment: row.cell("comment"),
    unusable,
  };
  if (distanceMm !== null) return stated;
  return { ...stated, refused: refusals[0] ?? row.missing("distance_mm", "row") };
}

/** The number of a cell whose column holds one unit; one under which the row of units states another is not used. */
function numberIn(
  row: SheetRow,
  field: SheetField,
  { fields, messages, loss }: { fields: Fields; messages: Message[]; loss: Loss },
): number | null {
  const key = fields.get(field);
  const expected = unitOfField[field];
  const other =
    key === undefined || expected === undefined || row.cell(field) === null
      ? undefined
      : row.unitsUnder(key).find(({ words }) => ucumFromSheet(words) !== ucumFromSheet(expected));
  if (key === undefined || expected === undefined || other === undefined) {
    return row.number(field, messages, loss);
  }
  const data = { heading: row.headingOf(key), met: other.words, expected, loss };
  messages.push(readerMessage("csv-unit-of-heading", row.placeUnder(key), data));
  return null;
}
