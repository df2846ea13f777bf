import { takeIn } from "../../batch/intake.ts";
import { History } from "../../history/history.ts";
import { formatPlace } from "../../message.ts";
import { asOfDate, asOfOption, configOption, existingFolder, siteConfig } from "../inputs.ts";
import type { Verb } from "../verb.ts";

/** Reads and places everything in a folder and writes nothing. */
export const check: Verb = {
  name: "check",
  describe: "read and place everything, write nothing, and say what would be set aside and why",
  positionals: [],
  options: {
    in: { describe: "folder of input files", type: "string", required: true },
    config: configOption,
    "as-of": asOfOption,
  },
  example: "aortic-packet check --in inbox",
  run: async (args, terminal) => {
    const folder = existingFolder(args, "in");
    const history = new History(":memory:");
    const { files, failed } = takeIn(folder, history, {
      asOf: asOfDate(args),
      site: siteConfig(args),
      onFile: (done, total) => terminal.progress("reading", done, total),
    });
    history.close();
    if (args.json) {
      const rows = files.map(({ row, details }) => ({ ...row, details }));
      terminal.print(JSON.stringify({ files: rows, failed }, null, 2));
    } else {
      for (const { row, details } of files) {
        const counts =
          row.outcome === "used" ? `, ${row.placed} placed, ${row.leftOut} left out` : "";
        terminal.print(`${row.file}: ${row.kind}, ${row.outcome}${counts}`);
        if (row.outcome === "skipped" || row.outcome === "already-known") {
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
    }
    const isClean = failed.length === 0 && files.every(({ row }) => row.outcome !== "set-aside");
    return isClean ? 0 : 1;
  },
};
