import { existsSync } from "node:fs";
import { delimiter, join } from "node:path";
import { describe, test } from "vitest";

const folders = (process.env["PATH"] ?? "").split(delimiter);
const isInstalled = (tool: string): boolean =>
  folders.some((folder) => existsSync(join(folder, tool)));

/**
 * A `describe` whose tests run programs that no registry package brings. Where one is not installed the tests are
 * skipped and the reason is printed; with REQUIRE_OUTSIDE_TOOLS=1 a missing program is a failed test.
 */
export function describeWithTools(tools: string[], name: string, define: () => void): void {
  const missing = tools.filter((tool) => !isInstalled(tool));
  describeUnlessMissing(missing, name, define);
}

/** As `describeWithTools`, for what the caller has looked for itself. */
export function describeUnlessMissing(missing: string[], name: string, define: () => void): void {
  if (missing.length === 0) {
    describe(name, define);
    return;
  }
  const reason = `not installed: ${missing.join(", ")}`;
  if (process.env["REQUIRE_OUTSIDE_TOOLS"] === "1") {
    test(name, () => {
      throw new Error(reason);
    });
    return;
  }
  process.stdout.write(`skipped "${name}": ${reason}\n`);
  describe.skip(`${name} (${reason})`, define);
}
