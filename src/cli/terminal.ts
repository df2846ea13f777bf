import cliProgress from "cli-progress";
import type { Terminal } from "./verb.ts";

/** Prints to the standard streams; a progress bar on standard error where that is a terminal. */
export function standardTerminal(): Terminal {
  let bar: cliProgress.SingleBar | null = null;
  let barStage = "";
  const stopBar = () => {
    bar?.stop();
    bar = null;
  };
  const drawBar = (stage: string, done: number, total: number) => {
    if (!bar || barStage !== stage) {
      stopBar();
      barStage = stage;
      bar = new cliProgress.SingleBar({
        format: `${stage} [{bar}] {value} of {total}, {eta_formatted} left`,
        stream: process.stderr,
        hideCursor: true,
      });
      bar.start(total, done);
    }
    bar.update(done);
    if (done >= total) stopBar();
  };
  return {
    print: (line) => {
      process.stdout.write(`${line}\n`);
    },
    complain: (line) => {
      stopBar();
      process.stderr.write(`${line}\n`);
    },
    progress: (stage, done, total) => {
      if (process.stderr.isTTY) drawBar(stage, done, total);
      else if (done === total) process.stderr.write(`${stage}: ${done} of ${total}\n`);
    },
  };
}
