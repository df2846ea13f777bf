import type { PatientCase } from "../cases/patient-case.ts";
import { dissections } from "../cases/vocabulary.ts";

/** A question for the meeting, tied to the fact that raised it. It never says what to do. */
export interface Prompt {
  text: string;
  raisedBy: string;
  answeredBy: string;
}

/** Questions that facts of the case raise. All are common practice without a source unless one is named. */
export function promptsOf(patientCase: PatientCase): Prompt[] {
  const { facts, exams, measurements } = patientCase;
  const prompts: Prompt[] = [];
  const last = exams.at(-1);
  if (last && last.reportState.length > 0) {
    prompts.push({
      text: `Is there a final report of the exam of ${last.imagingDate}?`,
      raisedBy: `the report is ${last.reportState.join(", ")}`,
      answeredBy: "imaging lab",
    });
  }
  const dissection = facts.diagnoses?.find((diagnosis) => dissections.has(diagnosis));
  if (dissection !== undefined) {
    prompts.push({
      text: "How will the wire be shown to lie in the true lumen along its whole way?",
      raisedBy: dissection,
      answeredBy: "aortic surgeon",
    });
  }
  const unstated = measurements.filter(
    ({ exam, quantity, edge }) =>
      exam === last?.key && quantity === "diameter" && edge === "unstated",
  );
  if (unstated.length > 0) {
    const places = [...new Set(unstated.map(({ place }) => place.label))].join(", ");
    prompts.push({
      text: "Between which wall edges were these diameters taken?",
      raisedBy: `no edge stated on ${last?.imagingDate}: ${places}`,
      answeredBy: "imaging lab",
    });
  }
  for (const repair of facts.priorRepairs ?? []) {
    if (repair.zones !== null && repair.date !== null) continue;
    prompts.push({
      text: "Which zones were repaired, and when?",
      raisedBy: `prior repair as stated: ${repair.words}`,
      answeredBy: "coordinator",
    });
  }
  return prompts;
}
