import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { globSync, mkdtempSync, readFileSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";

interface Ended {
  exitCode: number;
  out: string;
  err: string;
}

/** Runs the program as a user does, under plain Node, from the checkout. */
export const runProgram = (...words: string[]): Ended => runProgramIn(".", ...words);

/** The same from another folder. */
export function runProgramIn(folder: string, ...words: string[]): Ended {
  const start = resolve("src/cli/start.mjs");
  const { status, stdout, stderr } = spawnSync(process.execPath, [start, ...words], {
    cwd: folder,
    encoding: "utf8",
    maxBuffer: 64 * 1024 * 1024,
  });
  return { exitCode: status ?? -1, out: stdout, err: stderr };
}

export const newFolder = (): string => mkdtempSync(join(tmpdir(), "aortic-packet-test-"));

/** Digest of every file under a folder, by relative name; the history store is left out, its pages hold times. */
export function digests(folder: string): Record<string, string> {
  const names = globSync("**/*", { cwd: folder }).toSorted();
  const files = names.filter(
    (name) => statSync(join(folder, name)).isFile() && !name.startsWith("history.sqlite"),
  );
  return Object.fromEntries(
    files.map((name) => [
      name,
      createHash("sha256")
        .update(readFileSync(join(folder, name)))
        .digest("hex"),
    ]),
  );
}
