import { existsSync } from "node:fs";
import { join } from "node:path";
import { takeIn } from "../../batch/intake.ts";
import { HistoryFault } from "../../history/history-fault.ts";
import { History } from "../../history/history.ts";
import { formatPlace } from "../../message.ts";
import { asOfDate, asOfOption, configOption, existingFolder, siteConfig } from "../inputs.ts";
import { rulesInForce } from "../rules-in-force.ts";
import { CannotStart, type Verb } from "../verb.ts";

/** Reads and places everything in a folder and writes nothing. */
export const check: Verb = {
  name: "check",
  describe: "read and place everything, write nothing, and say what would be set aside and why",
  positionals: [],
  options: {
    in: { describe: "folder of input files", type: "string", required: true },
    out: {
      describe: "output folder of earlier runs, to judge beside what they have read",
      type: "string",
    },
    config: configOption,
    "as-of": asOfOption,
  },
  example: "aortic-packet check --in inbox",
  run: async (args, terminal) => {
    const folder = existingFolder(args, "in");
    const site = siteConfig(args);
    rulesInForce(site);
    const history = storeOf(args.optionalText("out"));
    const { files, failed, messages } = takeIn(folder, history, {
      asOf: asOfDate(args),
      site,
      onFile: (done, total) => terminal.progress("reading", done, total),
    });
    history.close();
    if (args.json) {
      const rows = files.map(({ row, details }) => ({ ...row, details }));
      terminal.print(JSON.stringify({ files: rows, failed, messages }, null, 2));
    } else {
      for (const { row, details } of files) {
        const counts =
          row.outcome === "used" ? `, ${row.placed} placed, ${row.leftOut} left out` : "";
        terminal.print(`${row.file}: ${row.kind}, ${row.outcome}${counts}`);
        if (row.outcome === "skipped") {
          terminal.print(`  ${row.reason?.text ?? ""}`);
          continue;
        }
        for (const message of [row.reason, ...details]) {
          if (message === null) continue;
          const at = message.place?.at ? ` (${message.place.at})` : "";
          terminal.print(`  ${message.severity}${at}: ${message.text}`);
        }
      }
      for (const { id, failure } of failed) {
        const place = failure.place ? ` (${formatPlace(failure.place)})` : "";
        terminal.print(`patient ${id}${place}: ${failure.text}`);
      }
      for (const { severity, text } of messages) terminal.print(`${severity}: ${text}`);
    }
    const isClean = failed.length === 0 && files.every(({ row }) => row.outcome !== "set-aside");
    return isClean ? 0 : 1;
  },
};

/** The store of an output folder, which is only read; an empty one where there is none. */
function storeOf(out: string | null): History {
  const path = join(out ?? "", "history.sqlite");
  if (out === null || !existsSync(path)) return new History(":memory:");
  try {
    return new History(path, { readOnly: true });
  } catch (error) {
    throw error instanceof HistoryFault ? new CannotStart(error.message) : error;
  }
}
