import { join } from "node:path";
import { exitCodeOf, runBatch } from "../../batch/run-batch.ts";
import { loadSchedules } from "../../guidelines/load-schedules.ts";
import { HistoryFault } from "../../history/history-fault.ts";
import { formatPlace } from "../../message.ts";
import type { Rule } from "../../guidelines/rule.ts";
import type { BatchSummary } from "../../report/batch-summary.ts";
import { NoBrowser } from "../../report/find-browser.ts";
import type { SiteConfig } from "../../site/site-config.ts";
import {
  asOfDate,
  asOfOption,
  configOption,
  existingFolder,
  outOption,
  siteConfig,
  siteInventory,
} from "../inputs.ts";
import { rulesInForce } from "../rules-in-force.ts";
import { CannotStart, type Terminal, type Verb } from "../verb.ts";

/** The nightly batch. */
export const run: Verb = {
  name: "run",
  describe: "read a folder of reports and sheets, and write every patient's plan report",
  positionals: [],
  options: {
    in: { describe: "folder of input files", type: "string", required: true },
    out: outOption,
    config: configOption,
    "as-of": asOfOption,
  },
  example: "aortic-packet run --in inbox --out out --config site.yaml",
  run: async (args, terminal) => {
    const out = args.text("out");
    const site = siteConfig(args);
    const { rules, hidden } = rulesInForce(site);
    checkPreference(site, rules);
    const options = {
      input: existingFolder(args, "in"),
      out,
      asOf: asOfDate(args),
      site,
      rules,
      hiddenRules: hidden,
      schedules: loadSchedules(),
      inventory: siteInventory(args, site),
      onProgress: terminal.progress,
    };
    const summary = await runBatch(options).catch((error: unknown) => {
      if (error instanceof HistoryFault || error instanceof NoBrowser) {
        throw new CannotStart(error.message);
      }
      throw error;
    });
    if (args.json) terminal.print(JSON.stringify(summary, null, 2));
    else printSummary(summary, out, terminal);
    return exitCodeOf(summary);
  },
};

/** A preferred guideline must be a body of the criteria in force. */
function checkPreference({ preferredGuideline }: SiteConfig, rules: readonly Rule[]): void {
  const bodies = new Set(rules.map(({ source }) => source.body));
  if (preferredGuideline === null || bodies.has(preferredGuideline)) return;
  const known = [...bodies].join(", ");
  throw new CannotStart(
    `the site file prefers ${preferredGuideline}, which is no body of the criteria (${known})`,
  );
}

function printSummary({ files, patients }: BatchSummary, out: string, terminal: Terminal): void {
  const count = (outcome: string) => files.filter((file) => file.outcome === outcome).length;
  for (const { outcome, reason } of files) {
    if (outcome !== "set-aside" || !reason) continue;
    terminal.print(`${reason.place ? formatPlace(reason.place) : ""}: ${reason.text}`);
  }
  for (const { outcome, id, failure } of patients) {
    if (outcome === "failed" && failure) terminal.print(`patient ${id}: ${failure.text}`);
  }
  const reported = patients.filter(({ outcome }) => outcome === "reported").length;
  terminal.print(
    `files: ${count("used")} used, ${count("already-known")} already known, ${count("skipped")} skipped, ${count("set-aside")} set aside`,
  );
  terminal.print(`patients: ${reported} reported, ${patients.length - reported} failed`);
  terminal.print(`open ${join(out, "index.html")}`);
}
