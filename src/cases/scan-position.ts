import type { PlanningSettings } from "../site/planning-settings.ts";

/** How the patient lay in the scanner, and who says so where it is not the file; nulls where nobody does. */
export interface ScanPosition {
  patientPosition: string | null;
  positionBy: string | null;
}

/** The position by the site file, for files that state none. */
export function positionBySite(stated: PlanningSettings["scanPosition"]): ScanPosition {
  if (stated === null) return { patientPosition: null, positionBy: null };
  const { position, by, date } = stated;
  return { patientPosition: position, positionBy: `site file, ${by}, ${date}` };
}
