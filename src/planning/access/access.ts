import type { PatientCase } from "../../cases/patient-case.ts";
import { accessLimits, type AccessStatement } from "./access-limits.ts";
import { accessQuestions } from "./access-questions.ts";
import { type AccessBasis, type AccessSide, accessSide } from "./access-side.ts";
import type { Prompt } from "../prompts/prompt.ts";

/** The two ways in and what they raise; no side is picked. */
export interface Access {
  /** Right, then left. */
  sides: AccessSide[];
  questions: Prompt[];
  statements: readonly AccessStatement[];
}

/** Both ways in through the groin against published limits and the sheaths of the inventory. */
export function access(patientCase: PatientCase, basis: AccessBasis): Access {
  const sides = (["right", "left"] as const).map((side) => accessSide(patientCase, side, basis));
  return {
    sides,
    questions: accessQuestions(sides, patientCase),
    statements: accessLimits.statements,
  };
}
