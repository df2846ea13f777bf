import type { ScheduledImaging } from "./surveillance.ts";

/** One exam that is due by one published schedule. */
export interface DueImaging {
  schedule: string;
  body: string;
  year: number;
  confirmed: boolean;
  /** Kind of imaging in the words of the source, and the parts that it must show. */
  imaging: string;
  parts: string[];
  earliest: string;
  latest: string;
  overdueDays: number | null;
  /** The last exam of another kind since it is due, or null. */
  otherExamSince: string | null;
  statements: string[];
}

/** What is due next, by all schedules that apply. */
export interface NextImaging {
  /** By the last day on which it is due, earliest first; those since which an exam of another kind was made come last. */
  due: DueImaging[];
  /** The first of them; null where nothing is due or nothing can be told. */
  earliest: DueImaging | null;
  /** What would have to be known to judge the schedules that could not be judged. */
  missing: string[];
  sentence: string;
}

/** Gathers the due dates of all schedules; where sources differ, each date stands with its body. */
export function nextImaging(schedules: readonly ScheduledImaging[]): NextImaging {
  const due = schedules
    .flatMap(
      ({
        schedule,
        source,
        confirmed,
        imaging,
        due: date,
        overdueDays,
        otherExamSince,
        statements,
      }) =>
        date === null
          ? []
          : [
              {
                schedule,
                body: source.body,
                year: source.year,
                confirmed,
                imaging: imaging.words,
                parts: imaging.parts,
                earliest: date.earliest,
                latest: date.latest,
                overdueDays,
                otherExamSince,
                statements,
              },
            ],
    )
    .toSorted(
      (a, b) =>
        Number(a.otherExamSince !== null) - Number(b.otherExamSince !== null) ||
        compare(a.latest, b.latest) ||
        compare(a.earliest, b.earliest) ||
        compare(a.schedule, b.schedule),
    );
  const missing = [...new Set(schedules.flatMap((one) => one.missing))];
  return { due, earliest: due[0] ?? null, missing, sentence: sentenceOf(due, schedules, missing) };
}

const compare = (a: string, b: string): number => (a < b ? -1 : Number(a > b));

function sentenceOf(
  due: readonly DueImaging[],
  schedules: readonly ScheduledImaging[],
  missing: readonly string[],
): string {
  const unjudged = schedules.filter(({ outcome }) => outcome === "not-assessable").length;
  const open = unjudged === 0 ? "" : ` Not judged for want of facts: ${unjudged} more.`;
  if (due.length > 0) {
    const groups = Map.groupBy(due, (one) => `${windowWords(one)}: ${one.imaging}`);
    const parts = [...groups].map(
      ([when, ofDay]) => `${when} (${[...new Set(ofDay.map(bodyWords))].join("; ")})`,
    );
    return `Next imaging by published schedules: ${parts.join("; ")}.${open}`;
  }
  if (schedules.some(({ outcome }) => outcome === "applies")) {
    return `All dates of the schedules that apply are done; none prints a further one.${open}`;
  }
  if (missing.length === 0) return "No published schedule on file speaks of this patient.";
  return `When imaging is due can't be told; missing: ${missing.join("; ")}.`;
}

const bodyWords = ({ body, year, confirmed }: DueImaging): string =>
  `${body} ${year}${confirmed ? "" : ", not confirmed against the source"}`;

/** "2026-03-01", or "2026-03-01 to 2026-09-01". */
export function windowWords({ earliest, latest }: { earliest: string; latest: string }): string {
  return earliest === latest ? latest : `${earliest} to ${latest}`;
}
