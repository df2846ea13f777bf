import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { describeUnlessMissing } from "./outside-tools.ts";

/** Debian's package python3-pydicom belongs to the system's own Python. */
const python = "/usr/bin/python3";
const script = fileURLToPath(new URL("pydicom-reports.py", import.meta.url));

function run(options: string[], input = ""): string {
  const { stdout, stderr, status } = spawnSync(python, ["-W", "ignore", script, ...options], {
    encoding: "utf8",
    input,
    maxBuffer: 2 ** 26,
  });
  if (status !== 0) throw new Error(stderr);
  return stdout;
}

/** A number of a report as an outside reader gives it. */
export interface OutsideNumber {
  concept: string | null;
  value: string | null;
  unit: string | null;
  scheme: string | null;
}

/** A report as pydicom reads it. */
export interface PydicomReport {
  patientId: string | null;
  patientName: string | null;
  numbers: (OutsideNumber & { at: string; tracking: string | null })[];
}

/** Tables of the standard as pydicom carries them. */
export interface PydicomTables {
  /** SRT spelling to SCT value. */
  srt: Record<string, string>;
  /** Code meaning by SCHEME:VALUE. */
  codes: Record<string, string>;
  /** Name of each storage SOP class by its UID. */
  storage: Record<string, string>;
}

/** Each file as pydicom reads it; null for one that it fails on. */
export const readWithPydicom = (files: string[]): (PydicomReport | null)[] =>
  JSON.parse(run(["read", ...files])) as (PydicomReport | null)[];

/** Writes each report `from` again as `to`, its text in these character sets. */
export const recodeWithPydicom = (jobs: { from: string; to: string; terms: string[] }[]): void => {
  run(["recode"], JSON.stringify(jobs));
};

export const pydicomTables = (): PydicomTables => JSON.parse(run(["tables"])) as PydicomTables;

/** A `describe` that needs pydicom. */
export function describeWithPydicom(name: string, define: () => void): void {
  const { status } = spawnSync(python, ["-c", "import pydicom"]);
  describeUnlessMissing(status === 0 ? [] : ["python3-pydicom"], name, define);
}
