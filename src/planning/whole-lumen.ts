import type { Dissection } from "../cases/dissection.ts";
import type { PatientCase } from "../cases/patient-case.ts";
import type { LumenId } from "../quantities/measured-quantity.ts";

/** Whether the case may hold a dissection: parts of it speak of one, or no diagnosis is known. */
export const mayBeDissected = (
  { facts }: Pick<PatientCase, "facts">,
  dissection: Dissection | null,
): boolean => dissection !== null || facts.diagnoses === null;

/** Whether a size is of the whole vessel: a lumen that is not stated is so only where there is no dissection. */
export const isWholeLumen = (lumen: LumenId, isDissectionPossible: boolean): boolean =>
  lumen === "whole" || (lumen === "unstated" && !isDissectionPossible);
