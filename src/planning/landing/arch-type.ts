import type { PatientCase } from "../../cases/patient-case.ts";
import { latestFinding, type LatestFinding } from "../latest-finding.ts";

/** The type of the arch by the height of the innominate artery, as the last exam up to `asOf` (YYYY-MM-DD) states it. */
export const archTypeOf = (patientCase: PatientCase, asOf: string): LatestFinding<"arch type"> =>
  latestFinding(patientCase, asOf, "arch type", "aortic-arch");
