import { parentPort, workerData } from "node:worker_threads";
import { fuzzInput } from "../../fixtures/fuzz-inputs.ts";
import { type FuzzOutcome, judgeInput } from "./judge-input.ts";

/** Which inputs a worker takes, and where it writes which one it is at and since when (ms). */
export interface FuzzTask {
  seed: number;
  first: number;
  count: number;
  clock: Float64Array<SharedArrayBuffer>;
}

/** What became of one input; `fault` says what the program did wrong. */
export interface FuzzResult {
  index: number;
  kind: string;
  size: number;
  ms: number;
  outcome: FuzzOutcome | null;
  fault: string | null;
}

const { seed, first, count, clock } = workerData as FuzzTask;
for (let index = first; index < first + count; index++) {
  const { kind, bytes } = fuzzInput(seed, index);
  const start = Date.now();
  clock.set([index, start]);
  const from = performance.now();
  let judged: Pick<FuzzResult, "outcome" | "fault">;
  try {
    judged = { outcome: judgeInput(bytes), fault: null };
  } catch (error) {
    judged = { outcome: null, fault: error instanceof Error ? String(error.stack) : String(error) };
  }
  const ms = performance.now() - from;
  clock.set([index, Number.POSITIVE_INFINITY]);
  const result: FuzzResult = { index, kind, size: bytes.length, ms, ...judged };
  // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker's port takes none
  parentPort?.postMessage(result);
}
