import { sentenceCase } from "../../quantities/sentence-case.ts";
import { windowWords } from "../../growth/next-imaging.ts";
import { formatCount, notConfirmed } from "../format.ts";
import { notConfirmedMark } from "../limits-in-force.ts";
import type { Plan } from "../plan.ts";

type Due = Plan["surveillance"]["next"]["due"][number];

/** One exam that is due by a published schedule. */
export interface DueRow {
  when: string;
  overdue: string;
  imaging: string;
  source: string;
  countedFrom: string;
  holdsIf: string;
}

function overdueWords({ overdueDays, otherExamSince }: Due): string {
  if (overdueDays === null || overdueDays === 0) return "";
  return otherExamSince === null
    ? `overdue by ${formatCount(overdueDays, "day")}`
    : `passed; other imaging there on ${otherExamSince}`;
}

const sourceWords = ({ body, year, confirmed }: Due): string =>
  `${body} ${year}${confirmed ? "" : `, ${notConfirmed}`}`;

/** The exams due, earliest first, and what could not be judged. */
export function surveillanceView({ surveillance: { schedules, next } }: Plan): {
  rows: DueRow[];
  sentence: string;
  notJudged: string | null;
} {
  const byId = new Map(schedules.map((one) => [one.schedule, one]));
  const rows = next.due.map((due) => {
    const schedule = byId.get(due.schedule);
    const start = schedule?.start;
    return {
      when: windowWords(due),
      overdue: overdueWords(due),
      imaging: `${sentenceCase(due.imaging)} of ${due.parts.join(", ")}`,
      source: sourceWords(due),
      countedFrom: start ? `${start.event} ${start.date}` : "",
      holdsIf: due.statements.join("; "),
    };
  });
  const open = schedules.filter(({ outcome }) => outcome === "not-assessable");
  return {
    rows,
    sentence: next.sentence,
    notJudged:
      open.length === 0
        ? null
        : `Not judged: ${formatCount(open.length, "schedule")}; missing: ${next.missing.join("; ")}.`,
  };
}

/** "By 2026-06-15: CT (ESC 2024); …": what is due, shortest form, earliest first; an overdue one says so. */
export function nextImagingItems({ surveillance: { next } }: Plan): string[] {
  const groups = Map.groupBy(next.due, (due) => `${windowWords(due)}: ${due.imaging}`);
  return [...groups].map(([when, due]) => {
    const sources = [
      ...new Set(
        due.map(
          ({ body, year, confirmed }) => `${body} ${year}${confirmed ? "" : notConfirmedMark}`,
        ),
      ),
    ];
    const overdue = due[0] ? overdueWords(due[0]) : "";
    return `${when}${overdue === "" ? "" : `, ${overdue}`} (${sources.join(", ")})`;
  });
}
