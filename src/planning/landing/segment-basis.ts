import type { ArchConvention } from "../../anatomy/arch-variants.ts";
import type { Dissection } from "../../cases/dissection.ts";
import type { Measurement, Station } from "../../cases/patient-case.ts";
import type { PlanningSettings } from "../../site/planning-settings.ts";

/** What the segments stand on besides the case. */
export interface SegmentBasis {
  /** YYYY-MM-DD; later exams are passed over. */
  asOf: string;
  dissection: Dissection | null;
  archConventions: readonly ArchConvention[];
  planning: PlanningSettings;
  /** SD of a diameter reading and of the diameter of a station, in mm. */
  readingSdMmOf: (reading: Measurement) => number;
  stationSdMmOf: (station: Station) => number;
}
