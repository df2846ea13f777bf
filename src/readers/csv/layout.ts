import { headingKey, unitInHeading } from "../../site/heading-key.ts";
import { fieldsOf, type SheetField, type SheetKind } from "../../site/sheet-fields.ts";
import { kindOfSheet } from "../../site/check-sheets.ts";
import type {
  DateOrder,
  DecimalMark,
  MeasureColumn,
  SheetConventions,
  SheetSettings,
} from "../../site/sheet-settings.ts";

/** What stands in which column of a sheet, and how its cells are written. */
export interface Layout {
  kind: SheetKind;
  /** The heading key of each field that has a column. */
  fields: ReadonlyMap<SheetField, string>;
  /** The measurements of a wide sheet with the heading key of each. */
  measures: readonly { key: string; column: MeasureColumn }[];
  /** The sheet's name in the site file; null for a sheet with the headings of this program. */
  name: string | null;
  titleLines: number;
  unitRow: boolean;
  decimal: DecimalMark;
  dates: DateOrder;
  /** Cells that say that nothing was measured, as heading keys. */
  notMeasured: ReadonlySet<string>;
  /** How rows of totals begin, as heading keys. */
  totalRows: readonly string[];
  /** What holds for every row. */
  always: ReadonlyMap<SheetField, string>;
  /** The lab's words in the cells of a field, as heading keys, and this program's words for them. */
  words: ReadonlyMap<SheetField, ReadonlyMap<string, string>>;
}

/** The kind of file, as messages name it: long and wide sheets are measurement sheets. */
export function fileKindOf({
  kind,
}: Layout): Exclude<SheetKind, "long sheet" | "wide sheet"> | "measurement sheet" {
  return kind === "long sheet" || kind === "wide sheet" ? "measurement sheet" : kind;
}

/** The layout that a sheet of the site file declares. */
export function declaredLayout(sheet: SheetSettings, conventions: SheetConventions): Layout {
  const fields = new Map<SheetField, string>();
  const measures: { key: string; column: MeasureColumn }[] = [];
  for (const [heading, target] of Object.entries(sheet.columns)) {
    const key = headingKey(heading);
    if (typeof target === "string") fields.set(target, key);
    else measures.push({ key, column: target });
  }
  return {
    kind: kindOfSheet(sheet),
    fields,
    measures,
    name: sheet.name,
    titleLines: sheet.titleLines,
    unitRow: sheet.unitRow,
    decimal: sheet.decimal ?? conventions.decimal,
    dates: sheet.dates ?? conventions.dates,
    notMeasured: new Set(sheet.notMeasured.map(headingKey)),
    totalRows: sheet.totalRows.map(headingKey),
    always: mapOf(sheet.always),
    words: new Map(
      [...mapOf<Record<string, string>>(sheet.words)].map(([field, words]) => [
        field,
        new Map(Object.entries(words).map(([word, meaning]) => [headingKey(word), meaning])),
      ]),
    ),
  };
}

/** The fields that have a value, as a map. */
function mapOf<Value>(record: { [Field in SheetField]?: Value | undefined }): Map<
  SheetField,
  Value
> {
  const entries = Object.entries(record) as [SheetField, Value | undefined][];
  return new Map(entries.filter((entry): entry is [SheetField, Value] => entry[1] !== undefined));
}

/**
 * What a sheet with the headings of this program is: the first kind whose telling heading it has. One with quantity and
 * value is a measurement sheet, even if a column is called finding or distance_mm.
 */
function ownKindOf(keys: ReadonlyMap<string, string>): SheetKind | null {
  const has = (...fields: readonly SheetField[]): boolean => fields.every((key) => keys.has(key));
  if (has("covered_length_mm")) return "graft inventory";
  if (!has("patient_id")) return null;
  if (has("finding") && !has("quantity", "value")) return "finding sheet";
  if (has("quantity") || has("value")) return "long sheet";
  if (has("distance_mm")) return "centreline sheet";
  if (has("order")) return "meeting list";
  return fieldsOf("case sheet").optional.some((field) => has(field)) ? "case sheet" : null;
}

/** The layout of a sheet with the headings of this program, or null where the headings are others. */
export function ownLayout(
  headings: readonly string[],
  { decimal, dates }: SheetConventions,
): Layout | null {
  const keys = new Map(headings.map((heading) => [ownKey(heading), headingKey(heading)]));
  const kind = ownKindOf(keys);
  if (kind === null) return null;
  const { required, optional } = fieldsOf(kind);
  const fields = new Map<SheetField, string>();
  for (const field of [...required, ...optional]) {
    const key = keys.get(field);
    if (key !== undefined) fields.set(field, key);
  }
  return {
    kind,
    fields,
    measures: [],
    name: null,
    titleLines: 0,
    unitRow: false,
    decimal,
    dates,
    notMeasured: new Set(),
    totalRows: [],
    always: new Map(),
    words: new Map(),
  };
}

/** `value [mm]` is the heading `value` with a unit. */
function ownKey(heading: string): string {
  const withoutUnit = headingKey(unitInHeading(heading)?.rest ?? "");
  return withoutUnit === "value" ? withoutUnit : headingKey(heading);
}
