import { existsSync, mkdirSync, readdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import type { PatientCase } from "../cases/patient-case.ts";
import type { HiddenRule } from "../guidelines/apply-rule-decisions.ts";
import { rulesDigest } from "../guidelines/load-rules.ts";
import type { Schedule } from "../guidelines/schedule.ts";
import { doubleReadings } from "../growth/double-readings.ts";
import { estimateReadingErrors } from "../growth/estimated-reading-error.ts";
import type { Rule } from "../guidelines/rule.ts";
import { type OpenedHistory, openToWrite } from "../history/open-to-write.ts";
import type { Message } from "../message.ts";
import type { InventoryRow } from "../readers/csv/inventory.ts";
import type { BatchSummary } from "../report/batch-summary.ts";
import { buildPlan, type PlanBasis } from "../report/build-plan.ts";
import { indexHtml } from "../report/pages/index-page.ts";
import { optionsHtml } from "../report/pages/options-page.ts";
import { hasOptions } from "../report/pages/options-view.ts";
import { planHtml } from "../report/pages/plan-page.ts";
import { summaryHtml } from "../report/pages/summary-page.ts";
import { openPrinter, type Printer } from "../report/pdf-printer.ts";
import { type Plan, planSchema } from "../report/plan.ts";
import type { SiteConfig } from "../site/site-config.ts";
import { writeFollowUp } from "./follow-up-output.ts";
import { takeIn } from "./intake.ts";
import { mapWithLimit } from "./limit.ts";
import { measurementsCsv } from "./measurements-csv.ts";
import { batchMessage } from "./messages.ts";
import { writeSetAside } from "./set-aside.ts";
import { version } from "./software.ts";
import { failedRow, reportedRow } from "./summarise.ts";
import { jsonText, writeOutput } from "./write-output.ts";

/** Pages of the browser that print at the same time. */
const printingPages = 2;

export interface BatchOptions {
  input: string;
  out: string;
  /** YYYY-MM-DD. */
  asOf: string;
  site: SiteConfig;
  rules: readonly Rule[];
  /** Rules that the site hides, with its decisions. */
  hiddenRules: readonly HiddenRule[];
  schedules: readonly Schedule[];
  /** Null where the site names no inventory. */
  inventory: readonly InventoryRow[] | null;
  /** Called as work goes on; `stage` is "reading" or "printing". */
  onProgress: (stage: "reading" | "printing", done: number, total: number) => void;
}

/** Runs the batch: reads the folder, stores what is new, writes every report, the index and `batch.json`. */
export async function runBatch(options: BatchOptions): Promise<BatchSummary> {
  mkdirSync(options.out, { recursive: true, mode: 0o700 });
  const store = openToWrite(join(options.out, "history.sqlite"));
  try {
    const printer = await openPrinter({ pages: printingPages });
    try {
      return await runWith(store, printer, options);
    } finally {
      await printer.close();
    }
  } finally {
    store.close();
  }
}

async function runWith(
  { history, notes }: OpenedHistory,
  printer: Printer,
  options: BatchOptions,
): Promise<BatchSummary> {
  const { input, out, asOf, site, rules, hiddenRules, schedules, inventory, onProgress } = options;
  const onFile = (done: number, total: number) => onProgress("reading", done, total);
  const intake = takeIn(input, history, { asOf, site, onFile });
  await writeSetAside(out, input, intake);
  removeOldReports(out, new Set(intake.cases.map(({ key }) => key)));
  history.addNight(intake.night, asOf);
  const basis: PlanBasis = {
    asOf,
    version,
    rules,
    rulesDigest: rulesDigest([...rules, ...schedules]),
    hiddenRules,
    schedules,
    readingErrorEstimates: estimateReadingErrors(doubleReadings(intake.cases)),
    site,
    inventory,
  };
  let printed = 0;
  const reports = await mapWithLimit(intake.cases, printingPages, async (patientCase) => {
    const report = await writeReport(patientCase, basis, out, printer);
    onProgress("printing", ++printed, intake.cases.length);
    return report;
  });
  const plans = reports.flatMap(({ plan }) => plan ?? []);
  const rows = [
    ...reports.map(({ plan, failure }, index) => {
      const patientCase = intake.cases[index] as PatientCase;
      const changed = intake.changed.has(patientCase.key);
      if (plan) return reportedRow(plan, changed);
      const { key, patient } = patientCase;
      const { id, issuer } = patient;
      return failedRow({ key, id, issuer, failure: failure as Message }, changed, patientCase);
    }),
    ...intake.failed.map((failed) => failedRow(failed, intake.changed.has(failed.key))),
  ];
  const summary: BatchSummary = {
    schema: "aortic-packet/batch/1",
    asOf,
    software: { name: "aortic-packet", version, rulesDigest: basis.rulesDigest },
    files: intake.files.map(({ row }) => row),
    patients: rows.toSorted((a, b) => (`${a.id} ${a.key}` < `${b.id} ${b.key}` ? -1 : 1)),
    messages: [
      ...notes,
      ...intake.messages,
      ...intake.files.flatMap(({ row, details }) => (isUsed(row) ? details : [])),
      ...reports.flatMap(({ plan, failure }) => (plan && failure ? [failure] : [])),
    ],
  };
  await writeOutput(out, "measurements.csv", measurementsCsv(plans));
  await writeOutput(out, "batch.json", jsonText(summary));
  await writeOutput(out, "index.html", indexHtml(summary));
  await writeFollowUp(out, summary, plans, site);
  return summary;
}

/** Takes away the reports of patients who have none any more, because their files disagree or are another person's. */
function removeOldReports(out: string, keys: ReadonlySet<string>): void {
  const folder = join(out, "patients");
  if (!existsSync(folder)) return;
  for (const key of readdirSync(folder)) {
    if (!keys.has(key)) rmSync(join(folder, key), { recursive: true });
  }
}

/** Used tonight or before: what is said of its parts belongs to the run; of other files it stands beside the copy. */
const isUsed = ({ outcome }: BatchSummary["files"][number]): boolean =>
  outcome === "used" || outcome === "already-known";

/** Writes the files of one patient. What goes wrong with this patient stays with this patient. */
async function writeReport(
  patientCase: PatientCase,
  basis: PlanBasis,
  out: string,
  printer: Printer,
): Promise<{ plan: Plan | null; failure: Message | null }> {
  const { paper } = basis.site;
  let plan: Plan;
  let pages: { name: string; html: string }[];
  try {
    plan = planSchema.parse(buildPlan(patientCase, basis));
    pages = [
      { name: "plan", html: planHtml(plan, { paper }) },
      { name: "summary", html: summaryHtml(plan, { paper }) },
      ...(hasOptions(plan) ? [{ name: "options", html: optionsHtml(plan, { paper }) }] : []),
    ];
  } catch (error) {
    return { plan: null, failure: batchMessage("case-failed", null, { what: String(error) }) };
  }
  const folder = `patients/${plan.patient.key}`;
  if (!hasOptions(plan)) {
    for (const kind of ["html", "pdf"])
      rmSync(join(out, folder, `options.${kind}`), { force: true });
  }
  await writeOutput(out, `${folder}/plan.json`, jsonText(plan));
  let failure: Message | null = null;
  for (const { name, html } of pages) {
    await writeOutput(out, `${folder}/${name}.html`, html);
    try {
      const pdf = await printer.print(html, { asOf: basis.asOf });
      await writeOutput(out, `${folder}/${name}.pdf`, pdf);
    } catch (error) {
      failure = batchMessage("print-failed", null, { what: String(error) });
    }
  }
  return { plan, failure };
}

/** 1 where a file was set aside, a case failed or a page was not printed; else 0. */
export function exitCodeOf({ files, patients, messages }: BatchSummary): 0 | 1 {
  const isClean =
    files.every(({ outcome }) => outcome !== "set-aside") &&
    patients.every(({ outcome }) => outcome !== "failed") &&
    messages.every(({ code }) => code !== "print-failed");
  return isClean ? 0 : 1;
}
