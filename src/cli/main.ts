import { runCommandLine } from "./command-line.ts";
import { standardTerminal } from "./terminal.ts";
import { check } from "./verbs/check.ts";
import { followUp } from "./verbs/follow-up.ts";
import { history } from "./verbs/history.ts";
import { packet } from "./verbs/packet.ts";
import { rules } from "./verbs/rules.ts";
import { run } from "./verbs/run.ts";
import { sheet } from "./verbs/sheet.ts";
import { summary } from "./verbs/summary.ts";
import { trace } from "./verbs/trace.ts";

const verbs = [run, check, packet, summary, followUp, trace, sheet, rules, history];
// A reader such as `head` may close the pipe early; what it did not want is not an error.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") throw error;
});
process.exitCode = await runCommandLine(process.argv.slice(2), verbs, standardTerminal()).catch(
  (error: unknown) => {
    console.error(error);
    return 2;
  },
);
