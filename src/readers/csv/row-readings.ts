import { placeById } from "../../anatomy/places.ts";
import type { SourcePlace } from "../../message.ts";
import { type MeasureColumn, quantityWords } from "../../site/sheet-settings.ts";
import { readerMessage } from "../messages.ts";
import type { Reading } from "../reading.ts";
import type { Layout } from "./layout.ts";
import type { SheetRow } from "./sheet-row.ts";
import { cellValue, type StatedUnit } from "./value-cell.ts";

/** The readings of a row: one of a long sheet, one per filled column of a wide sheet. */
export function readingsOf(row: SheetRow, layout: Layout): Reading[] {
  if (layout.kind === "long sheet") return [longReading(row, layout)];
  return layout.measures.flatMap(({ key, column }) => {
    const text = row.cellUnder(key);
    return text === null ? [] : [wideReading(row, layout, { key, column, text })];
  });
}

function longReading(row: SheetRow, layout: Layout): Reading {
  const terms = termsOf({
    place: row.cell("place") ?? "",
    quantity: row.cell("quantity") ?? "",
    statistic: row.cell("statistic"),
    lumen: row.cell("lumen"),
    edge: row.cell("edge"),
    ...methodCells(row, layout),
  });
  const key = layout.fields.get("value") ?? "";
  const source = row.placeUnder(key);
  const empty = (["place", "quantity", "value"] as const).find((field) => row.cell(field) === null);
  if (empty !== undefined) {
    const refused = row.missing(empty, "reading");
    return { ...emptyReading(row, source, terms), refused };
  }
  const text = row.cell("value") ?? "";
  const unit = row.cell("unit");
  const where = layout.fields.has("unit") ? "unit column" : "site file";
  const units: StatedUnit[] = row.unitsUnder(key);
  if (unit !== null) units.push({ words: unit, where });
  const heading = `${row.cell("quantity")} at ${row.cell("place")}`;
  return valueReading(row, layout, { source, terms, text, units, heading });
}

function wideReading(
  row: SheetRow,
  layout: Layout,
  { key, column, text }: { key: string; column: MeasureColumn; text: string },
): Reading {
  const terms = termsOf({
    place: placeById(column.place).label,
    quantity: quantityWords(column) ?? "",
    statistic: column.statistic ?? null,
    lumen: column.lumen ?? null,
    edge: column.edge ?? null,
    ...methodCells(row, layout),
    ...methodOf(column),
  });
  const units: StatedUnit[] = row.unitsUnder(key);
  if (column.unit !== undefined) units.push({ words: column.unit, where: "site file" });
  const source = row.placeUnder(key);
  return valueReading(row, layout, { source, terms, text, units, heading: row.headingOf(key) });
}

/** The reading of a filled cell; one that can't be used says why. */
function valueReading(
  row: SheetRow,
  layout: Layout,
  cell: {
    source: SourcePlace;
    terms: Reading["terms"];
    text: string;
    units: StatedUnit[];
    heading: string;
  },
): Reading {
  const { source, terms, text, units, heading } = cell;
  const value = cellValue(text, layout.decimal, units);
  const reading = emptyReading(row, source, terms);
  if (!("problem" in value)) return { ...reading, ...value };
  const data = { ...value.data, heading, loss: "reading" };
  return { ...reading, valueText: text, refused: readerMessage(value.problem, source, data) };
}

function emptyReading(row: SheetRow, source: SourcePlace, terms: Reading["terms"]): Reading {
  return {
    source,
    valueText: null,
    qualifier: null,
    unit: null,
    terms,
    trackingIdentifier: null,
    reader: row.cell("reader"),
    comment: row.cell("comment"),
    graphic: null,
  };
}

/** Plane and phase, as far as the sheet says something of them in a column or for every row. */
function methodCells(row: SheetRow, { fields, always }: Layout): Pick<Cells, "plane" | "phase"> {
  const stated = (["plane", "phase"] as const).filter(
    (field) => fields.has(field) || always.has(field),
  );
  return Object.fromEntries(stated.map((field) => [field, row.cell(field)]));
}

/** Plane and phase, as far as the site file states them of a column. */
function methodOf({ plane, phase }: MeasureColumn): Pick<Cells, "plane" | "phase"> {
  return {
    ...(plane === undefined ? {} : { plane }),
    ...(phase === undefined ? {} : { phase }),
  };
}

interface Cells extends Pick<Reading["terms"], "statistic" | "lumen" | "edge" | "plane" | "phase"> {
  place: string;
  quantity: string;
}

function termsOf(cells: Cells): Reading["terms"] {
  const { place, quantity, ...rest } = cells;
  return {
    places: [{ origin: "sheet column", terms: [{ words: place, code: null }] }],
    laterality: null,
    modifiers: [],
    quantity: { words: quantity, code: null },
    ...rest,
  };
}
