import type { ReadDocument } from "../readers/reading.ts";
import type { Exam } from "./patient-case.ts";

/** Documents that report one examination. */
export interface ExamDocuments {
  exam: Exam;
  documents: ReadDocument[];
}

/**
 * Groups documents into examinations by imaging date and, where one day has several studies, by Study
 * Instance UID. A document without a study UID belongs to the day's only study; with several it stands alone.
 */
export function examsOf(documents: ReadDocument[]): ExamDocuments[] {
  const byDate = Map.groupBy(documents, ({ exam }) => exam.imagingDate);
  const dates = [...byDate.keys()].toSorted();
  return dates.flatMap((date) => {
    const ofDay = byDate.get(date) ?? [];
    const studies = Map.groupBy(ofDay, ({ exam }) => exam.studyUid ?? "");
    const withoutUid = studies.get("") ?? [];
    studies.delete("");
    const uids = [...studies.keys()].toSorted();
    const groups = uids.map((uid) => studies.get(uid) ?? []);
    if (groups.length === 1) groups[0]?.push(...withoutUid);
    else if (withoutUid.length > 0) groups.push(withoutUid);
    return groups.map((group, index) => {
      const letter = groups.length > 1 ? String.fromCodePoint(97 + index) : "";
      return { exam: examOf(`${date}${letter}`, date, group), documents: group };
    });
  });
}

function examOf(key: string, imagingDate: string, documents: ReadDocument[]): Exam {
  const agreed = <T>(values: (T | null)[]): T | null => {
    const stated = [...new Set(values.filter((value) => value !== null))];
    return stated.length === 1 ? (stated[0] ?? null) : null;
  };
  const exams = documents.map((document) => document.exam);
  return {
    key,
    studyUid: agreed(exams.map((exam) => exam.studyUid)),
    imagingDate,
    imagingDateOrigin: exams[0]?.imagingDateOrigin ?? "study date",
    modality: agreed(exams.map((exam) => exam.modality)),
    gated: agreed(exams.map((exam) => exam.gated)),
    reportState: [...new Set(documents.flatMap(reportState))],
  };
}

/** Words for a report that is not final: its completion, verification and preliminary flags. */
function reportState({ report }: ReadDocument): string[] {
  if (report === null) return [];
  const states: string[] = [];
  if (report.preliminary === "PRELIMINARY") states.push("preliminary");
  if (report.completion === "PARTIAL") states.push("partial");
  if (report.verification === "UNVERIFIED") states.push("unverified");
  return states;
}
