import type { Centreline, Ring } from "../../cases/patient-case.ts";

/** A number that is not given, and what would give it. */
export interface NotAssessable {
  what: string;
  missing: string;
}

const supine = new Set(["HFS", "FFS"]);

/**
 * Why no C-arm angle can be told from the coordinates of a scan; null where one can. Angles are of a patient who lies on
 * the back: a scan in another position, or in one that is not stated, gives none.
 */
export function whyNoAngles({
  patientPosition,
}: Pick<Centreline | Ring, "patientPosition">): NotAssessable | null {
  if (patientPosition === null) {
    return {
      what: "C-arm angles",
      missing: "how the patient lay in the scanner (patient position, such as HFS)",
    };
  }
  if (supine.has(patientPosition)) return null;
  return {
    what: "C-arm angles",
    missing: `a scan of the patient lying on the back, HFS or FFS (this one: ${patientPosition})`,
  };
}
