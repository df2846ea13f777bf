import { addMonths } from "../growth/due-date.ts";
import { formatCount } from "./format.ts";
import {
  type DueGroup,
  dueGroups,
  dueReason,
  noDue,
  type NoDue,
  wholeMonthsBetween,
} from "./follow-up-due.ts";
import {
  type GrowthBeyondLimits,
  growthBeyondLimits,
  growthNotTold,
  metAtSmallSizes,
  projectedSizes,
  type SizeAtLimits,
  sizeReason,
  sizesAtLimits,
} from "./follow-up-sizes.ts";
import type { Plan } from "./plan.ts";

/** What the list is made for. */
export interface FollowUpSettings {
  /** YYYY-MM-DD. */
  asOf: string;
  /** A patient whose last exam is longer ago is listed as without exam for long. */
  lostAfterMonths: number;
  /** A size under a limit by no more than this is listed as nearing it. */
  nearLimitMm: number;
}

/** One patient of the follow-up list. Dates are YYYY-MM-DD. */
export interface FollowUpRow {
  key: string;
  id: string;
  issuer: string | null;
  name: string | null;
  /** The last exam up to the day of the list; null where none is on file. */
  lastExam: { date: string; modality: string | null } | null;
  /** Whole months from the last exam. */
  monthsSince: number | null;
  /** By the last due day, earliest first. */
  due: DueGroup[];
  /** Of the date that is due first: days after its last day, 0 up to it; null where there is no date. */
  overdueDays: number | null;
  /** "overdue by 35 days: CT of … (ESC 2024)", for every date that has passed. */
  overdue: string[];
  /** "due now, until 2026-03-01: …". */
  dueNow: string[];
  /** Null where there is a due date. */
  noDue: NoDue | null;
  /** Schedules that may speak of the patient and could not be judged for want of facts. */
  schedulesNotJudged: number;
  growing: GrowthBeyondLimits[];
  /** Number of series of which it can't be told whether growth is beyond a limit. */
  growthNotTold: number;
  sizes: SizeAtLimits[];
  /** Criteria that are met at any size, or below a limit. */
  metAtSmallSizes: string[];
  projected: string[];
  /** "no exam for 27 months", "no exam on file"; null where the last exam is recent enough. */
  lost: string | null;
  /** Everything that stands for this patient, in words; never empty. */
  reasons: string[];
}

/** A patient of whom the run made no report, so that nothing can be said. */
export interface NotListed {
  key: string;
  id: string;
  issuer: string | null;
  name: string | null;
  reason: string;
}

/** The follow-up list of one run. */
export interface FollowUpList extends FollowUpSettings {
  rows: FollowUpRow[];
  notListed: NotListed[];
}

/**
 * The rows of all patients with a report: one row for each plan, by the day on which imaging is due first, patients without
 * such a day last; then by patient ID. There is no score. Pure.
 */
export function followUpRows(plans: readonly Plan[], settings: FollowUpSettings): FollowUpRow[] {
  return plans.map((plan) => followUpRow(plan, settings)).toSorted(byDueDate);
}

function byDueDate(a: FollowUpRow, b: FollowUpRow): number {
  const [first, second] = [a, b].map(({ due: [next], id, key }) =>
    [next?.latest ?? "none", next?.earliest ?? "none", id, key].join(" "),
  ) as [string, string];
  return first < second ? -1 : Number(first > second);
}

function followUpRow(plan: Plan, settings: FollowUpSettings): FollowUpRow {
  const { asOf } = settings;
  const { key, id, issuer, name } = plan.patient;
  const exam = plan.exams.findLast(({ imagingDate }) => imagingDate <= asOf);
  const due = dueGroups(plan, asOf);
  const reasonsOf = (groups: readonly DueGroup[]): string[] =>
    groups.flatMap((group) => dueReason(group, asOf) ?? []);
  const facts = {
    lastExam: exam ? { date: exam.imagingDate, modality: exam.modality } : null,
    monthsSince: exam ? wholeMonthsBetween(exam.imagingDate, asOf) : null,
    due,
    overdueDays: due[0]?.overdueDays ?? null,
    overdue: reasonsOf(due.filter(({ overdueDays }) => overdueDays > 0)),
    dueNow: reasonsOf(due.filter(({ overdueDays }) => overdueDays === 0)),
    noDue: noDue(plan),
    schedulesNotJudged: plan.surveillance.schedules.filter(
      ({ outcome }) => outcome === "not-assessable",
    ).length,
    growing: growthBeyondLimits(plan),
    growthNotTold: growthNotTold(plan).length,
    sizes: sizesAtLimits(plan, settings),
    metAtSmallSizes: metAtSmallSizes(plan),
    projected: projectedSizes(plan),
    lost: lostWords(exam?.imagingDate ?? null, settings),
  };
  return { key, id, issuer, name, ...facts, reasons: allReasons(facts) };
}

function lostWords(
  lastExam: string | null,
  { asOf, lostAfterMonths }: FollowUpSettings,
): string | null {
  if (lastExam === null) return "no exam on file";
  if (addMonths(lastExam, lostAfterMonths) >= asOf) return null;
  return `no exam for ${formatCount(wholeMonthsBetween(lastExam, asOf), "month")}`;
}

function allReasons(
  facts: Omit<FollowUpRow, "key" | "id" | "issuer" | "name" | "reasons">,
): string[] {
  const { due, overdue, dueNow, growing, sizes, projected, lost, noDue: none } = facts;
  const reasons = [
    ...overdue,
    ...dueNow,
    ...growing.map(({ words }) => `grows: ${words}`),
    ...sizes.map(sizeReason),
    ...facts.metAtSmallSizes.map((words) => `meets a size criterion: ${words}`),
    ...projected.map((words) => `projected: ${words}`),
    ...(lost === null ? [] : [lost]),
    ...(none === null ? [] : [none.words]),
  ];
  if (reasons.length > 0) return reasons;
  const [next] = due.map(({ earliest }) => earliest).toSorted();
  return [`nothing before ${next}, the next day on which imaging is due`];
}

const filters = {
  overdue: ({ overdue }) => overdue.length > 0,
  due: ({ dueNow }) => dueNow.length > 0,
  growing: ({ growing }) => growing.length > 0,
  met: ({ sizes, metAtSmallSizes: small }) =>
    small.length > 0 || sizes.some(({ standing }) => standing === "met"),
  near: ({ sizes }) => sizes.length > 0,
  projected: ({ projected }) => projected.length > 0,
  lost: ({ lost }) => lost !== null,
  untold: ({ noDue: none }) => none?.kind === "cannot be told",
} satisfies Record<string, (row: FollowUpRow) => boolean>;

/** What a row can be picked by. `near` holds for a size that meets, reaches or nears a limit. */
export type FollowUpTag = keyof typeof filters;

/** The tags that hold for a row. */
export function followUpTags(row: FollowUpRow): FollowUpTag[] {
  return (Object.keys(filters) as FollowUpTag[]).filter((tag) => filters[tag](row));
}
