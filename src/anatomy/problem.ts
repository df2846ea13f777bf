import type { AnatomyMessageCode } from "./messages.ts";

/** Why the terms could not be understood: a message code of this folder and its data. */
export interface InterpretationProblem {
  problem: AnatomyMessageCode;
  data: Record<string, string>;
}

export const problem = (
  code: AnatomyMessageCode,
  data: Record<string, string> = {},
): InterpretationProblem => ({ problem: code, data });

export const isProblem = (value: object): value is InterpretationProblem => "problem" in value;
