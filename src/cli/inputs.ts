import { existsSync, readFileSync, statSync } from "node:fs";
import { dirname, join } from "node:path";
import { readBatchSummary } from "../batch/reports.ts";
import { formatPlace } from "../message.ts";
import { isCalendarDate } from "../readers/csv/sheet-date.ts";
import { type InventoryRow, readInventory } from "../readers/csv/inventory.ts";
import { sha256Of } from "../readers/read-file.ts";
import type { BatchSummary } from "../report/batch-summary.ts";
import { noSiteConfig, parseSiteConfig, type SiteConfig } from "../site/site-config.ts";
import { CannotStart, type OptionSpec, type VerbArguments } from "./verb.ts";

/** Options that several verbs share. */
export const outOption: OptionSpec = {
  describe: "output folder",
  type: "string",
  default: "out",
};
export const configOption: OptionSpec = { describe: "site file (YAML)", type: "string" };
export const asOfOption: OptionSpec = {
  describe: "the date that the run stands on, YYYY-MM-DD; today if not given",
  type: "string",
};

/** A folder that must be there. */
export function existingFolder(args: VerbArguments, name: string): string {
  const folder = args.text(name);
  if (!existsSync(folder) || !statSync(folder).isDirectory()) {
    throw new CannotStart(`--${name}: there is no folder ${folder}`);
  }
  return folder;
}

/** The date of `--as-of`, or today's local date: the only place where the clock is asked. */
export function asOfDate(args: VerbArguments): string {
  const given = args.optionalText("as-of");
  if (given === null) return new Date().toLocaleDateString("sv-SE");
  return checkedDate(given, "as-of");
}

/** A date option, which must be a day of the calendar. */
export function checkedDate(given: string, name: string): string {
  if (!isCalendarDate(given)) {
    throw new CannotStart(`--${name}: ${given} is not a calendar date written YYYY-MM-DD`);
  }
  return given;
}

/** The site file of `--config`, or the defaults without one. Every mistake in it is told with its line. */
export function siteConfig(args: VerbArguments): SiteConfig {
  const file = args.optionalText("config");
  if (file === null) return noSiteConfig;
  if (!existsSync(file)) throw new CannotStart(`--config: there is no file ${file}`);
  const { site, messages } = parseSiteConfig(readFileSync(file, "utf8"), file);
  if (site) return site;
  const lines = messages.map(
    ({ place, text }) => `  ${place ? formatPlace(place) : file}: ${text}`,
  );
  throw new CannotStart(`the site file can't be used:\n${lines.join("\n")}`);
}

/** The inventory that the site file names, beside it; null where it names none. A fault in it is told with its line. */
export function siteInventory(args: VerbArguments, site: SiteConfig): InventoryRow[] | null {
  if (site.inventory === null) return null;
  const file = join(dirname(args.text("config")), site.inventory);
  if (!existsSync(file))
    throw new CannotStart(`the site file names an inventory ${file}, which is not there`);
  const bytes = readFileSync(file);
  const { rows, messages } = readInventory(bytes, { file, sha256: sha256Of(bytes) }, site);
  if (messages.length === 0) return rows;
  const lines = messages.map(
    ({ place, text }) => `  ${place ? formatPlace(place) : file}: ${text}`,
  );
  throw new CannotStart(`the inventory can't be used:\n${lines.join("\n")}`);
}

/** The summary of the last run in the output folder, which must be there. */
export function lastRun(out: string): BatchSummary {
  const batch = readBatchSummary(out);
  if (!batch) throw new CannotStart(`--out: no run has written to ${out} yet`);
  return batch;
}
