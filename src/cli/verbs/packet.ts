import { existsSync, realpathSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { readInputFile } from "../../batch/input-files.ts";
import { makePacket } from "../../batch/make-packet.ts";
import { formatPlace } from "../../message.ts";
import { checkedDate, configOption, lastRun, outOption, siteConfig } from "../inputs.ts";
import { CannotStart, type Verb } from "../verb.ts";

/** The meeting packet. */
export const packet: Verb = {
  name: "packet",
  describe: "put the reports of a meeting list together as one document",
  positionals: [],
  options: {
    meeting: { describe: "meeting list (CSV)", type: "string", required: true },
    out: outOption,
    config: configOption,
    date: {
      describe: "date of the meeting, YYYY-MM-DD; the run's date if not given",
      type: "string",
    },
  },
  example: "aortic-packet packet --meeting meeting.csv --date 2026-01-20",
  run: async (args, terminal) => {
    const file = args.text("meeting");
    if (!existsSync(file)) throw new CannotStart(`--meeting: there is no file ${file}`);
    const out = args.text("out");
    const batch = lastRun(out);
    const date = args.optionalText("date");
    const meetingDate = date === null ? batch.asOf : checkedDate(date, "date");
    const site = siteConfig(args);
    const path = realpathSync(file);
    const read = readInputFile(dirname(path), { file: basename(path), fault: null }, site);
    if (read.kind !== "meeting list" || read.setAside) {
      const why = read.setAside?.text ?? `it is a ${read.kind}`;
      throw new CannotStart(`--meeting: ${file} is not a meeting list: ${why}`);
    }
    for (const { place, text } of read.messages) {
      terminal.complain(`${place ? formatPlace(place) : file}: ${text}`);
    }
    const { paper } = site;
    const made = await makePacket(read.meetingRows, batch, { out, meetingDate, paper });
    const failed = made.packet.cases.filter(({ failure }) => failure !== null);
    if (args.json) {
      const cases = made.packet.cases.map(({ order, patientId, failure }) => ({
        order,
        patientId,
        failure,
      }));
      const { htmlFile, pdfFile } = made;
      terminal.print(JSON.stringify({ meetingDate, htmlFile, pdfFile, cases }, null, 2));
    } else {
      for (const { patientId, failure } of failed) {
        terminal.print(`patient ${patientId}: ${failure?.text ?? ""}`);
      }
      terminal.print(`${made.packet.cases.length} cases, ${failed.length} without a report`);
      terminal.print(join(out, made.pdfFile));
    }
    return failed.length + read.messages.length > 0 ? 1 : 0;
  },
};
