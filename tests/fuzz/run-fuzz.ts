/* Runs damaged and hostile inputs: npm run fuzz -- --count 10000 --seed 1 */
import { parseArgs } from "node:util";
import { Worker } from "node:worker_threads";
import type { FuzzResult, FuzzTask } from "./fuzz-worker.ts";

/** An input that takes longer hangs: its worker is ended. */
const longestMs = 5000;
const lookAgainMs = 200;
/** Memory that the whole run may take, the making of the inputs included. */
const largestMib = 1024;

const { values } = parseArgs({
  options: {
    count: { type: "string", default: "1000" },
    seed: { type: "string", default: "1" },
    first: { type: "string", default: "0" },
  },
});
const [count, seed, first] = [values.count, values.seed, values.first].map(Number) as [
  number,
  number,
  number,
];
if (![count, seed, first].every((value) => Number.isSafeInteger(value) && value >= 0)) {
  throw new Error("--count, --seed and --first take whole numbers");
}

/** Runs one worker from an input to the end, or to the input that hangs or kills it. */
function runWorker(from: number, onResult: (result: FuzzResult) => void): Promise<void> {
  const clock = new Float64Array(new SharedArrayBuffer(16));
  clock.set([from, Number.POSITIVE_INFINITY]);
  const task: FuzzTask = { seed, first: from, count: first + count - from, clock };
  return new Promise((resolve) => {
    const worker = new Worker(new URL("fuzz-worker.ts", import.meta.url), { workerData: task });
    let fault: string | null = null;
    const watch = setInterval(() => {
      const [, since = 0] = clock;
      if (Date.now() - since <= longestMs) return;
      fault = `hangs: more than ${longestMs} ms`;
      void worker.terminate();
    }, lookAgainMs);
    worker.on("message", onResult);
    worker.on("error", (error) => {
      fault = String(error);
    });
    worker.on("exit", () => {
      clearInterval(watch);
      const [index = from] = clock;
      if (fault !== null) {
        onResult({ index, kind: "unknown", size: 0, ms: longestMs, outcome: null, fault });
      }
      resolve();
    });
  });
}

const results: FuzzResult[] = [];
const print = (line: string) => process.stdout.write(`${line}\n`);
for (let next = first; next < first + count; next = (results.at(-1)?.index ?? next) + 1) {
  await runWorker(next, (result) => {
    results.push(result);
    const { index, kind, fault } = result;
    if (fault !== null) print(`input ${index} of seed ${seed} (${kind}): ${fault}`);
    if (results.length % 1000 === 0) print(`${results.length} of ${count}`);
  });
}

const headings = ["kind", "inputs", "used", "skipped", "set aside", "faults", "slowest ms"];
const rows = [...Map.groupBy(results, ({ kind }) => kind)].map(([kind, ofKind]) => {
  const having = (outcome: string | null) => ofKind.filter((one) => one.outcome === outcome).length;
  const slowest = Math.max(...ofKind.map(({ ms }) => ms));
  const counts = [having("used"), having("skipped"), having("set aside"), having(null)];
  return [kind, ofKind.length, ...counts, slowest.toFixed(0)].map(String);
});
const table = [headings, ...rows.toSorted(([a = ""], [b = ""]) => (a < b ? -1 : 1))];
for (const row of table) {
  print(row.map((cell, column) => (column === 0 ? cell.padEnd(24) : cell.padStart(11))).join(""));
}
const faults = results.filter(({ fault }) => fault !== null).length;
const peakMib = process.resourceUsage().maxRSS / 1024;
print(`${results.length} inputs, ${faults} faults, peak memory ${peakMib.toFixed(0)} MiB`);
const isSound = faults === 0 && results.length === count && peakMib <= largestMib;
process.exitCode = isSound ? 0 : 1;
