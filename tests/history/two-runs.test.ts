import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import {
  globSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { hostname, tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { runBatch } from "../../src/batch/run-batch.ts";
import { loadRules } from "../../src/guidelines/load-rules.ts";
import { loadSchedules } from "../../src/guidelines/load-schedules.ts";
import { noSiteConfig } from "../../src/site/site-config.ts";

/** Stands in for the browser; what it does when it is to print is set by each test. */
const printer = vi.hoisted(() => ({ onPrint: () => {} }));
vi.setConfig({ testTimeout: 60_000 });
vi.mock("../../src/report/pdf-printer.ts", () => ({
  openPrinter: async () => ({
    print: async () => {
      printer.onPrint();
      return new TextEncoder().encode("printed");
    },
    close: async () => {},
  }),
}));

let base = "";
let out = "";
beforeEach(() => {
  base = mkdtempSync(join(tmpdir(), "two-runs-"));
  out = join(base, "out");
  mkdirSync(join(base, "inbox"));
  const sheet =
    "patient_id,exam_date,place,quantity,value,unit\nTEST-1,2024-01-10,aortic arch,diameter,50,mm\n";
  writeFileSync(join(base, "inbox/numbers.csv"), sheet);
  printer.onPrint = () => {};
});
afterEach(() => rmSync(base, { recursive: true }));

const run = () =>
  runBatch({
    input: join(base, "inbox"),
    out,
    asOf: "2026-01-15",
    site: noSiteConfig,
    rules: loadRules(),
    hiddenRules: [],
    schedules: loadSchedules(),
    inventory: null,
    onProgress: () => {},
  });
const program = (...words: string[]) =>
  spawnSync(process.execPath, ["src/cli/main.ts", ...words, "--out", out], { encoding: "utf8" });
/** Digest of every file of the output folder, the history and its lock included. */
const allBytes = (): string[] =>
  globSync("**/*", { cwd: out })
    .filter((name) => statSync(join(out, name)).isFile())
    .toSorted()
    .map((name) => {
      const digest = createHash("sha256")
        .update(readFileSync(join(out, name)))
        .digest("hex");
      return `${name} ${digest}`;
    });

test("a second process is refused while a run is at work, says whose the history is, and writes nothing", async () => {
  const refused: ReturnType<typeof program>[] = [];
  const bytes: string[][] = [];
  printer.onPrint = () => {
    if (refused.length > 0) return;
    bytes.push(allBytes());
    refused.push(
      program("run", "--in", join(base, "inbox")),
      program("history", "forget", "--patient", "TEST-1", "--yes"),
    );
    bytes.push(allBytes());
  };
  const summary = await run();
  expect(refused.map(({ status }) => status)).toEqual([2, 2]);
  for (const { stderr, stdout } of refused) {
    expect(stderr).toContain(`in use by process ${process.pid} on ${hostname()} since `);
    expect(stderr).toContain("history-in-use");
    expect(stdout).toBe("");
  }
  expect(bytes[1]).toEqual(bytes[0]);
  expect(summary.patients.map(({ id, outcome }) => [id, outcome])).toEqual([
    ["TEST-1", "reported"],
  ]);
  expect(globSync("history.sqlite*", { cwd: out })).toEqual(["history.sqlite"]);
});

test("others may read while a run is at work", async () => {
  const read: ReturnType<typeof program>[] = [];
  printer.onPrint = () => {
    if (read.length === 0) read.push(program("history", "list"));
  };
  await run();
  expect(read[0]?.stdout).toContain("TEST-1, no issuer");
  expect(read[0]?.status).toBe(0);
});

test("what happened to the lock and the schema stands in the run's summary", async () => {
  await run();
  const lock = join(out, "history.sqlite.lock");
  const { pid } = spawnSync(process.execPath, ["-e", ""]);
  writeFileSync(lock, JSON.stringify({ pid, host: hostname(), since: "2026-01-14T02:00:00.000Z" }));
  const { messages } = await run();
  expect(messages.map(({ code }) => code)).toContain("history-lock-left-behind");
});

test("a run that breaks off gives the history back", async () => {
  await run();
  writeFileSync(join(out, "history.sqlite"), "");
  await expect(run()).rejects.toThrow("history-damaged");
  rmSync(join(out, "history.sqlite"));
  await run();
  expect(globSync("history.sqlite*", { cwd: out })).toEqual(["history.sqlite"]);
});
