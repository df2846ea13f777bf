import { ucumFromSheet } from "../quantities/unit.ts";

/** A heading as headings are compared: composed form, lower case, runs of any space as one, none outside. */
export function headingKey(heading: string): string {
  return heading.normalize("NFC").toLowerCase().replaceAll(/\s+/g, " ").trim();
}

/**
 * The unit that a heading states in brackets at its end, `Ø asc [mm]` or `area (cm²)`, and the heading without it.
 * Null where there are no brackets or no unit in them.
 */
export function unitInHeading(heading: string): { unit: string; rest: string } | null {
  const parts = /^(.*)[[(]([^[\]()]*)[\])]\s*$/su.exec(heading);
  const unit = parts?.[2]?.trim() ?? "";
  return ucumFromSheet(unit) === null ? null : { unit, rest: parts?.[1] ?? "" };
}
