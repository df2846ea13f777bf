import type { PatientCase } from "../cases/patient-case.ts";
import { latestFinding } from "./latest-finding.ts";

const vertebrals = ["left-vertebral-artery", "right-vertebral-artery"] as const;

/** Whether an exam by `asOf` says, without contradiction, how one vertebral artery compares with the other. */
export const isDominanceKnown = (patientCase: PatientCase, asOf: string): boolean =>
  vertebrals.some((id) => latestFinding(patientCase, asOf, "dominance", id).state !== null);
