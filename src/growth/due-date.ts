import type { MonthSpan, Schedule } from "../guidelines/schedule.ts";
import { daysBetween } from "../quantities/days-between.ts";

/** First and last day on which an exam is due, YYYY-MM-DD. */
export interface DueWindow {
  earliest: string;
  latest: string;
}

/** The next exam by a schedule: when, and counted how; `phase` is the one of `due.phases` that it belongs to. */
export interface NextDue {
  window: DueWindow;
  months: { from: number; to: number };
  after: "start" | "last exam";
  phase: Schedule["due"]["phases"][number] | null;
}

/** The day so many months later; the last of the month where the month has no such day. Dates are YYYY-MM-DD. */
export function addMonths(date: string, months: number): string {
  const [year = Number.NaN, month = Number.NaN, day = Number.NaN] = date.split("-").map(Number);
  const count = year * 12 + (month - 1) + months;
  const toYear = Math.floor(count / 12);
  const toMonth = count % 12;
  const lastDay = new Date(Date.UTC(toYear, toMonth + 1, 0)).getUTCDate();
  const parts = [String(toYear).padStart(4, "0"), twoDigits(toMonth + 1)];
  return [...parts, twoDigits(Math.min(day, lastDay))].join("-");
}

const twoDigits = (value: number): string => String(value).padStart(2, "0");

const bothEnds = (span: MonthSpan): { from: number; to: number } =>
  typeof span === "number" ? { from: span, to: span } : span;

const windowAfter = (date: string, { from, to }: { from: number; to: number }): DueWindow => ({
  earliest: addMonths(date, from),
  latest: addMonths(date, to),
});

/**
 * The exam that is due next. Our rule, not a published one: an exam counts for a fixed date when it lies nearer to it
 * than to the date before (the start, for the first), and so for all dates before. The first date that no exam counts for
 * is due. When all have their exam, the phase without end runs from the last exam. Null where nothing more is printed.
 * `examDates` are those of exams that count, in any order; exams before the start are passed over.
 */
export function nextDue(
  due: Schedule["due"],
  start: string,
  examDates: readonly string[],
): NextDue | null {
  const dates = examDates.filter((date) => date >= start);
  const steps = fixedSteps(due).map((step) => ({
    ...step,
    window: windowAfter(start, step.months),
  }));
  const open = steps.find(({ window }, index) => {
    const before = steps[index - 1]?.window ?? { earliest: start, latest: start };
    return !dates.some((date) => daysOff(date, window) < daysOff(date, before));
  });
  if (open) return { ...open, after: "start" };
  const phase = due.phases.at(-1);
  if (phase === undefined || phase.until !== undefined) return null;
  const last = dates.toSorted().at(-1);
  const months = bothEnds(phase.every);
  const after = last === undefined ? "start" : "last exam";
  return { window: windowAfter(last ?? start, months), months, after, phase };
}

/** The dates that are counted from the start: those listed, followed by those of every phase with an end. */
function fixedSteps({ at, phases }: Schedule["due"]): Pick<NextDue, "months" | "phase">[] {
  const steps: Pick<NextDue, "months" | "phase">[] = at.map((span) => ({
    months: bothEnds(span),
    phase: null,
  }));
  for (const phase of phases) {
    if (phase.until === undefined) continue;
    const { to: every } = bothEnds(phase.every);
    const first = (steps.at(-1)?.months.to ?? 0) + every;
    for (let month = first; month <= phase.until; month += every) {
      steps.push({ months: { from: month, to: month }, phase });
    }
  }
  return steps;
}

/** Days between a date and the nearest day of a window; 0 inside it. */
function daysOff(date: string, { earliest, latest }: DueWindow): number {
  if (date < earliest) return daysBetween(date, earliest);
  return date > latest ? daysBetween(latest, date) : 0;
}

/** "6 months", "1 year", "2 to 3 years", "within 1 month". */
export function monthWords({ from, to }: { from: number; to: number }): string {
  const isYears = from % 12 === 0 && to % 12 === 0;
  const [first, last] = isYears ? [from / 12, to / 12] : [from, to];
  const unit = `${isYears ? "year" : "month"}${last === 1 ? "" : "s"}`;
  if (from === to) return `${last} ${unit}`;
  return from === 0 ? `within ${last} ${unit}` : `${first} to ${last} ${unit}`;
}
