import type { PatientCase } from "../cases/patient-case.ts";
import { modalities, type Schedule } from "../guidelines/schedule.ts";
import { aortaParts } from "../guidelines/schedule-parts.ts";
import { populationAnswers, repairDate } from "../guidelines/schedule-population.ts";
import { sizeAnswer } from "../guidelines/schedule-size.ts";
import { daysBetween } from "../quantities/days-between.ts";
import { sentenceCase } from "../quantities/sentence-case.ts";
import { type CountedExams, countedExams } from "./counted-exams.ts";
import { type DueWindow, monthWords, type NextDue, nextDue } from "./due-date.ts";
import { type NextImaging, nextImaging, windowWords } from "./next-imaging.ts";

/** One published schedule applied to one patient. Dates are YYYY-MM-DD. */
export interface ScheduledImaging {
  schedule: string;
  title: string;
  source: Schedule["source"];
  /** Of the part of the schedule that is due. */
  recommendation: Schedule["recommendation"];
  /** False: recalled, or seen in part only. */
  confirmed: boolean;
  checkedAgainst: string | null;
  says: string;
  /** Kind of imaging in the words of the source, and the parts of the aorta that an exam must have measured. */
  imaging: { words: string; parts: string[] };
  outcome: "applies" | "does-not-apply" | "not-assessable";
  /** Facts that are not stated, and special circumstances that a person would have to affirm. */
  missing: string[];
  /** What no sheet states and must be true for the date to hold. */
  statements: string[];
  /** What the dates are counted from. */
  start: { event: Schedule["start"]["from"]; date: string } | null;
  /** The last exams of the right kind and level, also before the start. */
  lastExam: CountedExams | null;
  /** Null where the schedule does not apply, can't be judged, or prints no further date. */
  due: DueWindow | null;
  /** Days from the last due day to the day of the report; null where that day is still to come. */
  overdueDays: number | null;
  /** The last exam, of whatever kind, that measured the parts on or after the first due day; the source asks for another kind. */
  otherExamSince: string | null;
  sentence: string;
}

export interface Surveillance {
  schedules: ScheduledImaging[];
  next: NextImaging;
}

/**
 * Applies every schedule to a patient, in the order of their ids, and says what imaging is due next. `asOf` is
 * YYYY-MM-DD; later exams and repairs do not count.
 */
export function surveillance(
  patientCase: PatientCase,
  schedules: readonly Schedule[],
  { asOf }: { asOf: string },
): Surveillance {
  const found = schedules
    .toSorted((a, b) => (a.id < b.id ? -1 : 1))
    .map((schedule) => scheduledImaging(schedule, patientCase, asOf));
  return { schedules: found, next: nextImaging(found) };
}

function scheduledImaging(
  schedule: Schedule,
  patientCase: PatientCase,
  asOf: string,
): ScheduledImaging {
  const { population, checked, imaging } = schedule;
  const { counted, unclear } = countedExams(patientCase, imaging, asOf);
  const lastExam = counted.at(-1) ?? null;
  const shared: Omit<ScheduledImaging, "outcome" | "sentence"> = {
    schedule: schedule.id,
    title: schedule.title,
    source: schedule.source,
    recommendation: schedule.recommendation,
    confirmed: checked.how === "seen",
    checkedAgainst: checked.how === "from-memory" ? null : checked.against,
    says: schedule.says,
    imaging: {
      words: imaging.words,
      parts: imaging.covers.map((part) => aortaParts[part].label),
    },
    missing: [],
    statements: [],
    start: null,
    lastExam,
    due: null,
    overdueDays: null,
    otherExamSince: null,
  };
  const start = startDate(schedule, patientCase, counted, asOf);
  const size = schedule.size === undefined ? null : sizeAnswer(schedule.size, patientCase, asOf);
  // Without a size no exam is asked for as well: the one that gives the size is the one to count from.
  const needsSize = size !== null && "missing" in size && schedule.start.from.endsWith("exam");
  const answers = [
    ...populationAnswers(schedule, patientCase, asOf),
    needsSize && "missing" in start ? null : start,
    size,
  ];
  const missing: string[] = [];
  for (const answer of answers) {
    if (answer === null || "date" in answer) continue;
    if ("excludes" in answer) {
      const sentence = `${sentenceCase(answer.excludes)}.`;
      return { ...shared, outcome: "does-not-apply", sentence };
    }
    missing.push(...answer.missing);
  }
  const { onlyIf = [] } = population;
  missing.push(
    ...unclear
      .filter((date) => lastExam === null || date > lastExam.date)
      .map((date) => `modality of the exam of ${date}`),
  );
  if (missing.length + onlyIf.length > 0 || !("date" in start)) {
    const facts = [...new Set(missing)];
    const sentences = [
      ...(facts.length === 0 ? [] : [`Can't be told without: ${facts.join("; ")}.`]),
      ...(onlyIf.length === 0 ? [] : [`Used only if someone states: ${onlyIf.join("; ")}.`]),
    ];
    return {
      ...shared,
      outcome: "not-assessable",
      missing: [...facts, ...onlyIf],
      sentence: sentences.join(" "),
    };
  }

  const next = nextDue(
    schedule.due,
    start.date,
    counted.map(({ date }) => date),
  );
  const begun = { event: schedule.start.from, date: start.date };
  const statements = [
    ...new Set([...(population.statements ?? []), ...(next?.phase?.statements ?? [])]),
  ];
  const daysPast = next === null ? -1 : daysBetween(next.window.latest, asOf);
  const result = {
    ...shared,
    recommendation: next?.phase?.recommendation ?? schedule.recommendation,
    outcome: "applies" as const,
    statements,
    start: begun,
    due: next?.window ?? null,
    overdueDays: daysPast < 0 ? null : daysPast,
    otherExamSince: next === null ? null : otherExamSince(next.window, patientCase, imaging, asOf),
  };
  return { ...result, sentence: dueSentence(result, next) };
}

/** The last exam of any kind that measured the parts since the first due day. One that counts would have moved that day on. */
function otherExamSince(
  { earliest }: DueWindow,
  patientCase: PatientCase,
  { covers }: Schedule["imaging"],
  asOf: string,
): string | null {
  const { counted } = countedExams(patientCase, { counts: [...modalities], covers }, asOf);
  const date = counted.at(-1)?.date ?? null;
  return date !== null && date >= earliest ? date : null;
}

/** The day that the dates are counted from. */
function startDate(
  { start, population, imaging }: Schedule,
  patientCase: PatientCase,
  counted: readonly CountedExams[],
  asOf: string,
): { date: string } | { excludes: string } | { missing: string[] } {
  const { facts } = patientCase;
  const repair =
    population.repaired === undefined
      ? null
      : repairDate(population.repaired, facts.priorRepairs, asOf);
  if (repair !== null && (start.from === "repair" || !("date" in repair))) return repair;
  if (start.from === "onset") {
    return facts.onsetDate === null ? { missing: ["onset date"] } : { date: facts.onsetDate };
  }
  const starts =
    start.counts === undefined
      ? counted
      : countedExams(patientCase, { ...imaging, counts: start.counts }, asOf).counted;
  const exam = start.from === "first exam" ? starts[0] : starts.at(-1);
  if (exam) return { date: exam.date };
  const parts = imaging.covers.map((part) => aortaParts[part].label).join(" and ");
  const words = start.counts === undefined ? imaging.words : kindWords(start.counts);
  return { missing: [`an exam to count from: ${words}, ${parts}`] };
}

const kindWords = (counts: readonly string[]): string =>
  counts.length === 3 ? "imaging" : counts.join(" or ");

function dueSentence(
  { imaging, due, overdueDays, statements, start, lastExam }: Omit<ScheduledImaging, "sentence">,
  next: NextDue | null,
): string {
  const last =
    lastExam === null ? "no such exam is on file" : `the last such exam was on ${lastExam.date}`;
  if (next === null || due === null || start === null) {
    return `All dates that the schedule prints are done; ${last}.`;
  }
  const from =
    next.after === "start" ? `the ${start.event} of ${start.date}` : "the last such exam";
  const span = monthWords(next.months);
  const counted = span.startsWith("within") ? `${span} of ${from}` : `${span} after ${from}`;
  const late =
    overdueDays === null || overdueDays === 0
      ? ""
      : `, overdue by ${overdueDays} ${overdueDays === 1 ? "day" : "days"}`;
  const holds = statements.length === 0 ? "" : ` It holds only while: ${statements.join("; ")}.`;
  const what = `${imaging.words} of the ${imaging.parts.join(" and ")}`;
  return `${sentenceCase(what)} due ${windowWords(due)} (${counted})${late}; ${last}.${holds}`;
}
