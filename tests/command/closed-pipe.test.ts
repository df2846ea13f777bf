import { spawnSync } from "node:child_process";
import { expect, test } from "vitest";

test("a pipe that its reader closes early is no error", () => {
  const command = `"${process.execPath}" src/cli/main.ts rules --json | head -n 1`;
  const { stdout, stderr } = spawnSync("sh", ["-c", command], { encoding: "utf8" });
  expect(stdout.trim()).toBe("{");
  expect(stderr).toBe("");
});
