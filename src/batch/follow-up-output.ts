import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { BatchSummary } from "../report/batch-summary.ts";
import {
  type FollowUpList,
  type FollowUpRow,
  followUpRows,
  type FollowUpSettings,
  type NotListed,
} from "../report/follow-up.ts";
import type { SizeStanding } from "../report/follow-up-sizes.ts";
import { followUpHtml } from "../report/pages/follow-up-page.ts";
import type { Paper } from "../report/paper.ts";
import { type Plan, planSchema } from "../report/plan.ts";
import { sourcesWords } from "../report/printed-source.ts";
import { csvText } from "./csv-text.ts";
import { writeOutput } from "./write-output.ts";

type Thresholds = Omit<FollowUpSettings, "asOf">;

/** The follow-up list of a run: the patients with a plan, and those without a report beside them. */
export function followUpList(
  { asOf, patients }: Pick<BatchSummary, "asOf" | "patients">,
  plans: readonly Plan[],
  thresholds: Thresholds,
): FollowUpList {
  const settings = { asOf, ...thresholds };
  const notListed = patients.flatMap(({ key, id, issuer, name, failure }) =>
    failure === null
      ? []
      : [{ key, id, issuer, name, reason: `${failure.text}. ${failure.remedy}` }],
  );
  return { ...settings, rows: followUpRows(plans, settings), notListed };
}

/** Writes `follow-up.html` and `follow-up.csv` beside the index. */
export async function writeFollowUp(
  out: string,
  summary: BatchSummary,
  plans: readonly Plan[],
  { paper, followUp }: { paper: Paper; followUp: Thresholds },
): Promise<void> {
  const list = followUpList(summary, plans, followUp);
  const { software } = summary;
  await writeOutput(out, "follow-up.html", followUpHtml(list, { software, paper }));
  await writeOutput(out, "follow-up.csv", followUpCsv(list));
}

/** The follow-up list of the last run in an output folder, from the plan reports that it wrote. */
export function readFollowUp(
  out: string,
  batch: BatchSummary,
  thresholds: Thresholds,
): FollowUpList {
  const plans = batch.patients
    .filter(({ outcome }) => outcome === "reported")
    .map(({ key }) => {
      const path = join(out, "patients", key, "plan.json");
      return planSchema.parse(JSON.parse(readFileSync(path, "utf8")));
    });
  return followUpList(batch, plans, thresholds);
}

type Cell = string | number | null;

/** Columns of a patient with a report, in order. */
const columns: Record<string, (row: FollowUpRow) => Cell> = {
  patient_key: ({ key }) => key,
  patient_id: ({ id }) => id,
  issuer: ({ issuer }) => issuer,
  name: ({ name }) => name,
  report: () => "yes",
  last_exam_date: ({ lastExam }) => lastExam?.date ?? null,
  last_exam_modality: ({ lastExam }) => lastExam?.modality ?? null,
  since_last_exam_months: ({ monthsSince }) => monthsSince,
  due_earliest_date: ({ due: [next] }) => next?.earliest ?? null,
  due_latest_date: ({ due: [next] }) => next?.latest ?? null,
  due_imaging: ({ due: [next] }) => (next ? `${next.imaging} of ${next.parts.join(", ")}` : null),
  due_sources: ({ due: [next] }) => (next ? sourcesWords(next.sources) : null),
  due_holds_if: ({ due: [next] }) => next?.statements.join("; ") ?? null,
  overdue_days: ({ overdueDays }) => overdueDays,
  no_due_date: ({ noDue }) => noDue?.words ?? null,
  schedules_not_judged: ({ schedulesNotJudged }) => schedulesNotJudged,
  growth_beyond_limits: ({ growing }) => joined(growing.map(({ words }) => words)),
  growth_largest_rate_mm_per_year: ({ growing }) => largestRate(growing),
  growth_not_told_places: ({ growthNotTold }) => growthNotTold,
  size_criteria_met: (row) => joined([...sizesOf(row, "met"), ...row.metAtSmallSizes]),
  size_reached_conditions_not_stated: (row) => joined(sizesOf(row, "reached")),
  size_nearing_limit: (row) => joined(sizesOf(row, "nearing")),
  size_projected: ({ projected }) => joined(projected),
  no_exam_for_long: ({ lost }) => lost,
  reasons: ({ reasons }) => joined(reasons),
};

function largestRate(growing: FollowUpRow["growing"]): string | null {
  const rates = growing.map(({ rateMmPerYear }) => rateMmPerYear);
  return rates.length === 0 ? null : Math.max(...rates).toFixed(2);
}

const joined = (items: readonly string[]): string => items.join(" | ");

const sizesOf = ({ sizes }: FollowUpRow, wanted: SizeStanding): string[] =>
  sizes.filter(({ standing }) => standing === wanted).map(({ words }) => words);

/** The list as CSV, one row for each patient; those without a report last, with the reason. */
export function followUpCsv({ rows, notListed }: FollowUpList): string {
  const names = Object.keys(columns);
  return csvText(names, [
    ...rows.map((row) => Object.values(columns).map((cellOf) => cellOf(row))),
    ...notListed.map((patient) => names.map((name) => cellWithoutReport(patient, name))),
  ]);
}

function cellWithoutReport({ key, id, issuer, name, reason }: NotListed, column: string): Cell {
  const cells: Record<string, Cell> = {
    patient_key: key,
    patient_id: id,
    issuer,
    name,
    report: "no",
    reasons: `no report: ${reason}`,
  };
  return cells[column] ?? null;
}
