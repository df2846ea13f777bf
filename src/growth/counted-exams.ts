import type { Exam, PatientCase } from "../cases/patient-case.ts";
import type { Schedule } from "../guidelines/schedule.ts";
import { showsPart } from "../guidelines/schedule-parts.ts";

/** The exams of one day that together count for a schedule. */
export interface CountedExams {
  /** YYYY-MM-DD. */
  date: string;
  /** Keys of the exams. */
  exams: string[];
  modalities: string[];
}

type Imaging = Pick<Schedule["imaging"], "counts" | "covers">;

/**
 * The days on which exams of the right kind measured all parts that the schedule asks for, earliest first, up to `asOf`
 * (YYYY-MM-DD); chest and abdomen may be two exams of one day. `unclear` holds the days that would count if an exam
 * without a modality were of the right kind.
 */
export function countedExams(
  { exams, measurements }: PatientCase,
  { counts, covers }: Imaging,
  asOf: string,
): { counted: CountedExams[]; unclear: string[] } {
  const placesOf = Map.groupBy(measurements, ({ exam }) => exam);
  const isSeen = (ofDay: readonly Exam[]): boolean =>
    covers.every((part) =>
      ofDay.some(({ key }) => placesOf.get(key)?.some(({ place }) => showsPart(place, part))),
    );
  const takesAny = counts.length === 3;
  const isRight = ({ modality }: Exam): boolean =>
    modality === null ? takesAny : counts.some((one) => one === modality);
  const done = exams.filter(({ imagingDate }) => imagingDate <= asOf);
  const counted: CountedExams[] = [];
  const unclear: string[] = [];
  for (const [date, ofDay] of Map.groupBy(done, ({ imagingDate }) => imagingDate)) {
    const right = ofDay.filter(isRight);
    if (isSeen(right)) {
      const modalities = right.flatMap(({ modality }) => (modality === null ? [] : [modality]));
      counted.push({
        date,
        exams: right.map(({ key }) => key),
        modalities: [...new Set(modalities)],
      });
    } else if (isSeen(ofDay.filter((exam) => exam.modality === null || isRight(exam)))) {
      unclear.push(date);
    }
  }
  return { counted: counted.toSorted((a, b) => (a.date < b.date ? -1 : 1)), unclear };
}
