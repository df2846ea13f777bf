import type { z } from "zod";
import { ucumFromSheet } from "../quantities/unit.ts";
import { headingKey, unitInHeading } from "./heading-key.ts";
import { fieldsOf, type SheetField, type SheetKind, unitOfField } from "./sheet-fields.ts";

/** What the checks look at in a column of measurements. */
type DeclaredMeasure = Partial<Record<"unit" | "plane" | "phase", string | undefined>>;

/** What the checks look at; a column is a field or a measurement. */
interface DeclaredSheet {
  columns: Record<string, SheetField | DeclaredMeasure>;
  always: Partial<Record<string, string | undefined>>;
}

type Report = (path: PropertyKey[], message: string) => void;

const reportTo =
  (context: z.RefinementCtx): Report =>
  (path, message) =>
    context.addIssue({ code: "custom", path, message });

/** What kind of sheet its columns, and what holds for every row of it, make it. */
export function kindOfSheet({ columns, always }: DeclaredSheet): SheetKind {
  const targets = Object.values(columns);
  if (targets.some((target) => typeof target !== "string")) return "wide sheet";
  const has = (field: SheetField): boolean =>
    targets.includes(field) || always[field] !== undefined;
  if (has("distance_mm")) return "centreline sheet";
  if (has("finding") || has("state")) return "finding sheet";
  if ((["place", "quantity", "value"] as const).some((field) => targets.includes(field))) {
    return "long sheet";
  }
  return targets.includes("order") ? "meeting list" : "case sheet";
}

/** Mistakes in one declared sheet that no single line shows: headings, fields and units that clash, fields that lack. */
export function checkSheet(sheet: DeclaredSheet, context: z.RefinementCtx): void {
  const report = reportTo(context);
  checkHeadings(sheet, report);
  checkFields(sheet, report);
  checkUnits(sheet, report);
}

/** Two sheets with the same headings can't be told apart. */
export function checkSheets(
  sheets: readonly (DeclaredSheet & { name: string })[],
  context: z.RefinementCtx,
): void {
  const keys = sheets.map(({ columns }) =>
    JSON.stringify(Object.keys(columns).map(headingKey).toSorted()),
  );
  for (const [index, key] of keys.entries()) {
    const first = keys.indexOf(key);
    if (first === index) continue;
    const message = `it has the same headings as ${sheets[first]?.name ?? ""}`;
    reportTo(context)([index, "columns"], message);
  }
}

function checkHeadings({ columns }: DeclaredSheet, report: Report): void {
  const seen = new Set<string>();
  for (const heading of Object.keys(columns)) {
    const key = headingKey(heading);
    if (seen.has(key)) report(["columns", heading], "the same heading stands above");
    seen.add(key);
  }
}

function checkFields(sheet: DeclaredSheet, report: Report): void {
  const kind = kindOfSheet(sheet);
  const { required, optional } = fieldsOf(kind);
  const fields: readonly SheetField[] = [...required, ...optional];
  const seen = new Set<string>();
  const check = (field: string, path: string[]): void => {
    if (!(fields as readonly string[]).includes(field)) {
      report(path, `${field} is not a field of a ${kind}, which this is by its columns`);
    }
    if (seen.has(field)) report(path, `${field} is stated twice`);
    seen.add(field);
  };
  for (const [heading, target] of Object.entries(sheet.columns)) {
    if (typeof target === "string") check(target, ["columns", heading]);
  }
  for (const [field, text] of Object.entries(sheet.always)) {
    if (text !== undefined) check(field, ["always", field]);
  }
  for (const [heading, target] of Object.entries(sheet.columns)) {
    if (typeof target === "string") continue;
    for (const field of ["plane", "phase"] as const) {
      if (target[field] === undefined || !seen.has(field)) continue;
      report(["columns", heading, field], `${field} is stated for the whole row too`);
    }
  }
  for (const field of required) {
    if (!seen.has(field)) report(["columns"], `a ${kind} needs a column for ${field}`);
  }
}

function checkUnits({ columns }: DeclaredSheet, report: Report): void {
  for (const [heading, target] of Object.entries(columns)) {
    const inHeading = unitInHeading(heading)?.unit;
    const declared = typeof target === "string" ? unitOfField[target] : target.unit;
    if (inHeading === undefined || declared === undefined) continue;
    if (ucumFromSheet(inHeading) !== (ucumFromSheet(declared) ?? declared)) {
      report(["columns", heading], `the heading states ${inHeading}, and ${declared} is declared`);
    }
  }
}
