import { addMonths } from "../growth/due-date.ts";
import { daysBetween } from "../quantities/days-between.ts";
import { formatCount } from "./format.ts";
import type { Plan } from "./plan.ts";
import { type PrintedSource, sourcesWords } from "./printed-source.ts";

/** Imaging that is due on the same days, of the same kind and under the same conditions, by one or more sources. Dates are YYYY-MM-DD. */
export interface DueGroup {
  earliest: string;
  latest: string;
  imaging: string;
  parts: string[];
  /** What no sheet states and must be true for the date to hold. */
  statements: string[];
  sources: PrintedSource[];
  /** Days after the last due day; 0 up to that day, and where an exam of another kind has been made since. */
  overdueDays: number;
  otherExamSince: string | null;
}

/** Why a patient has no due date. */
export interface NoDue {
  kind: "nothing due" | "cannot be told";
  words: string;
}

/** What is due, by the last due day, earliest first. */
export function dueGroups({ surveillance: { next } }: Plan, asOf: string): DueGroup[] {
  const groups = Map.groupBy(next.due, (due) =>
    JSON.stringify([
      due.earliest,
      due.latest,
      due.imaging,
      due.parts,
      due.statements,
      due.otherExamSince,
    ]),
  );
  return [...groups.values()].flatMap(([first, ...others]) => {
    if (!first) return [];
    const { earliest, latest, imaging, parts, statements, otherExamSince } = first;
    const sources = [first, ...others].map(({ body, year, confirmed }) => ({
      body,
      year,
      confirmed,
    }));
    const overdueDays = otherExamSince === null ? Math.max(0, daysBetween(latest, asOf)) : 0;
    return [{ earliest, latest, imaging, parts, statements, sources, overdueDays, otherExamSince }];
  });
}

/** "CT of the parts (ESC 2024), holds if size stable". */
export function imagingWords({ imaging, parts, sources, statements }: DueGroup): string {
  const holdsIf = statements.length === 0 ? "" : `, holds if ${statements.join("; ")}`;
  return `${imaging} of ${parts.join(", ")} (${sourcesWords(sources)})${holdsIf}`;
}

/** "overdue by 35 days: CT of …"; "due now, until 2026-03-01: CT of …" from the first to the last due day; null before. */
export function dueReason(group: DueGroup, asOf: string): string | null {
  const { earliest, latest, overdueDays, otherExamSince } = group;
  if (otherExamSince !== null) {
    return `due since ${earliest}, with other imaging there on ${otherExamSince}: ${imagingWords(group)}`;
  }
  if (overdueDays > 0) {
    return `overdue by ${formatCount(overdueDays, "day")}: ${imagingWords(group)}`;
  }
  return earliest <= asOf ? `due now, until ${latest}: ${imagingWords(group)}` : null;
}

const missingShown = 3;

/** Why there is no due date; null where there is one. */
export function noDue({ surveillance: { schedules, next } }: Plan): NoDue | null {
  if (next.due.length > 0) return null;
  const applies = schedules.some(({ outcome }) => outcome === "applies");
  if (applies || next.missing.length === 0) {
    return { kind: "nothing due", words: "nothing due by the schedules on file" };
  }
  const shown = next.missing.slice(0, missingShown).join("; ");
  const rest = next.missing.length - missingShown;
  const more = rest > 0 ? `; and ${rest} more` : "";
  return {
    kind: "cannot be told",
    words: `when imaging is due cannot be told: missing ${shown}${more}`,
  };
}

/** Whole months from one date to a later one. */
export function wholeMonthsBetween(from: string, to: string): number {
  const monthOf = (date: string): number =>
    Number(date.slice(0, 4)) * 12 + Number(date.slice(5, 7));
  const months = monthOf(to) - monthOf(from);
  return addMonths(from, months) > to ? months - 1 : months;
}
