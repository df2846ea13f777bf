import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { noSiteConfig, parseSiteConfig } from "../../src/site/site-config.ts";

describe("site file", () => {
  test("the demo's site file loads", () => {
    const text = readFileSync("fixtures/demo/site.yaml", "utf8");
    const { site, messages } = parseSiteConfig(text, "site.yaml");
    expect(messages).toEqual([]);
    expect(site).toMatchObject({ issuer: "DEMO-HOSPITAL", readingErrorSdMm: 0.9, paper: "A4" });
    expect(site?.codes["99DEMO:SOUND-INNER"]).toEqual({
      quantity: "sound-length",
      path: "inner-curve",
    });
  });

  test("an empty file is the defaults", () => {
    expect(parseSiteConfig("{}", "site.yaml").site).toEqual(noSiteConfig);
    expect(noSiteConfig.readingErrorSdMm).toBeNull();
  });

  test.each([
    ["an unknown key", "isuer: A\n", "line 1", "isuer"],
    ["a place that does not exist", "words:\n  arch top: zone-12\n", "line 2", "words.arch top"],
    ["a code without a scheme", "codes:\n  MAXDIAM: {quantity: diameter}\n", "line 2", "codes"],
    ["a reading error without its source", "readingErrorSdMm: 1\n", "line 1", "readingErrorSource"],
    ["a reading error of zero", "readingErrorSdMm: 0\n", "line 1", "readingErrorSdMm"],
  ])("%s is refused with its line", (_, text, at, path) => {
    const { site, messages } = parseSiteConfig(text, "site.yaml");
    expect(site).toBeNull();
    expect(messages[0]?.place?.at).toBe(at);
    expect(messages[0]?.data["path"]).toContain(path);
  });
});
