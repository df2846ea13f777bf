import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, describe, expect, test, vi } from "vitest";
import { bundledBrowser } from "../../src/report/bundled-browser.ts";

const isBundledHere = process.platform === "linux" && process.arch === "x64";

describe.runIf(isBundledHere)("the browser of the optional package", () => {
  let cache = "";
  afterEach(() => {
    vi.unstubAllEnvs();
    rmSync(cache, { recursive: true });
  });

  test(
    "is unpacked once, whole, beside what a broken-off run has left",
    { timeout: 60_000 },
    async () => {
      cache = mkdtempSync(join(tmpdir(), "browser-cache-"));
      vi.stubEnv("XDG_CACHE_HOME", cache);
      const leftOver = join(cache, "aortic-packet", "chromium-0-unfinished-x");
      mkdirSync(leftOver, { recursive: true });
      writeFileSync(join(leftOver, "chromium"), "half");

      const first = await bundledBrowser();
      if (!first) throw new Error("the package is not installed");
      expect(
        execFileSync(first.executable, ["--version"], {
          encoding: "utf8",
          env: { ...process.env, LD_LIBRARY_PATH: first.libraries },
        }),
      ).toMatch(/^Chromium \d+\./);
      expect(readdirSync(first.libraries)).toContain("libnss3.so");

      const { mtimeMs } = statSync(first.executable);
      expect(await bundledBrowser()).toEqual(first);
      expect(statSync(first.executable).mtimeMs).toBe(mtimeMs);
      const folders = readdirSync(join(cache, "aortic-packet"));
      expect(folders.filter((name) => !name.includes("unfinished"))).toHaveLength(1);
      expect(folders).toHaveLength(2);
    },
  );
});
