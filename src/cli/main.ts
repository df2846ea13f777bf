import { runCommandLine } from "./command-line.ts";
import { standardTerminal } from "./terminal.ts";
import { check } from "./verbs/check.ts";
import { packet } from "./verbs/packet.ts";
import { rules } from "./verbs/rules.ts";
import { run } from "./verbs/run.ts";
import { summary } from "./verbs/summary.ts";
import { trace } from "./verbs/trace.ts";

const verbs = [run, check, packet, summary, trace, rules];
process.exitCode = await runCommandLine(process.argv.slice(2), verbs, standardTerminal()).catch(
  (error: unknown) => {
    console.error(error);
    return 2;
  },
);
