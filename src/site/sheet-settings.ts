import { z } from "zod";
import { buildDictionary } from "../anatomy/dictionary.ts";
import { placeTable } from "../anatomy/places.ts";
import { type PathId, type QuantityId, quantityIds } from "../quantities/measured-quantity.ts";
import { ucumFromSheet } from "../quantities/unit.ts";
import { checkSheet, checkSheets } from "./check-sheets.ts";
import { allSheetFields } from "./sheet-fields.ts";

/** The id of a place in `places.yaml`. */
export const placeIdSchema = z.enum(placeTable.map(({ place }) => place.id));

/** How decimals are written in sheets; point where nothing is declared. */
export const decimalMarkSchema = z.enum(["point", "comma"]);
export type DecimalMark = z.infer<typeof decimalMarkSchema>;

/** The order of day, month and year in dates that are not ISO dates; `iso` allows no other. */
export const dateOrderSchema = z.enum([
  "iso",
  "day-month-year",
  "month-day-year",
  "year-month-day",
]);
export type DateOrder = z.infer<typeof dateOrderSchema>;

/** YAML reads a bare true or false as a truth value; here the words are meant. */
const asWord = (value: unknown): unknown => (typeof value === "boolean" ? String(value) : value);
const cellText = z.preprocess(asWord, z.string().min(1));
const statistic = z.enum(["maximum", "minimum", "mean"]);
const lumen = z.preprocess(asWord, z.enum(["whole", "true", "false"]));
const edge = z.enum(["inner", "outer"]);
const plane = z.enum(["perpendicular", "axial"]);
const phase = z.enum(["systole", "diastole"]);

const measureColumnSchema = z
  .strictObject({
    place: placeIdSchema,
    quantity: z.enum(quantityIds),
    statistic: statistic.optional(),
    lumen: lumen.optional(),
    edge: edge.optional(),
    plane: plane.optional(),
    phase: phase.optional(),
    unit: z
      .string()
      .refine((unit) => ucumFromSheet(unit) !== null, "not one of mm, cm, mm2, cm2, mL, deg")
      .optional(),
    path: z.enum(["centreline", "inner-curve", "outer-curve"]).optional(),
  })
  .refine((column) => quantityWords(column) !== null, {
    path: ["path"],
    message: "this quantity is not known along this path",
  });

/** A column of a wide sheet: what is measured in it and where. */
export type MeasureColumn = z.infer<typeof measureColumnSchema>;

const sheetSchema = z
  .strictObject({
    name: z.string().min(1),
    titleLines: z.int().min(0).max(100).default(0),
    unitRow: z.boolean().default(false),
    decimal: decimalMarkSchema.optional(),
    dates: dateOrderSchema.optional(),
    notMeasured: z.array(cellText).default([]),
    totalRows: z.array(z.string().regex(/\S/)).default([]),
    columns: z.record(
      z.string().regex(/\S/, "a heading is needed"),
      z.union([z.enum(allSheetFields), measureColumnSchema]),
    ),
    always: z
      .strictObject({
        place: cellText.optional(),
        quantity: cellText.optional(),
        statistic: statistic.optional(),
        lumen: lumen.optional(),
        edge: edge.optional(),
        plane: plane.optional(),
        phase: phase.optional(),
        finding: cellText.optional(),
        state: cellText.optional(),
        vessel: cellText.optional(),
        wall: cellText.optional(),
        axes: cellText.optional(),
        patient_position: cellText.optional(),
        unit: z.string().min(1).optional(),
        issuer: cellText.optional(),
        gated: z.enum(["yes", "no"]).optional(),
        modality: cellText.optional(),
        reader: cellText.optional(),
      })
      .default({}),
    words: z
      .strictObject({
        quantity: z.record(z.string(), z.enum(quantityIds)).optional(),
        statistic: z.record(z.string(), statistic).optional(),
        lumen: z.record(z.string(), lumen).optional(),
        edge: z.record(z.string(), edge).optional(),
        plane: z.record(z.string(), plane).optional(),
        phase: z.record(z.string(), phase).optional(),
        finding: z.record(z.string(), cellText).optional(),
        state: z.record(z.string(), cellText).optional(),
        vessel: z.record(z.string(), cellText).optional(),
        mark: z.record(z.string(), cellText).optional(),
        mark_edge: z.record(z.string(), cellText).optional(),
        wall: z.record(z.string(), cellText).optional(),
        axes: z.record(z.string(), cellText).optional(),
        patient_position: z.record(z.string(), cellText).optional(),
        gated: z.record(z.string(), z.enum(["yes", "no"])).optional(),
        sex: z.record(z.string(), z.enum(["F", "M", "O"])).optional(),
      })
      .default({}),
  })
  .superRefine(checkSheet);

/** The sheets of a site, each told by its headings. */
export const sheetsSchema = z.array(sheetSchema).superRefine(checkSheets);

/** One sheet as the site declares it. `columns` goes from heading to what stands below it. */
export type SheetSettings = z.infer<typeof sheetSchema>;

/** How sheets of this site are to be read. A sheet's own declarations go before the general ones. */
export interface SheetConventions {
  decimal: DecimalMark;
  dates: DateOrder;
  sheets: readonly SheetSettings[];
}

const { quantityWords: knownWords } = buildDictionary({ codes: {}, words: {} });

/** The words by which the quantity of a wide column, with its path, is known; null where there are none. */
export function quantityWords(column: {
  quantity: QuantityId;
  path?: PathId | undefined;
}): string | null {
  const { quantity, path } = column;
  for (const [words, meaning] of knownWords) {
    const count = path === undefined ? 1 : 2;
    if (Object.keys(meaning).length !== count) continue;
    if (meaning.quantity === quantity && meaning.path === path) return words;
  }
  return null;
}
