import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { noSiteConfig, parseSiteConfig } from "../../src/site/site-config.ts";

describe("site file", () => {
  test("the demo's site file loads", () => {
    const text = readFileSync("fixtures/demo/site.yaml", "utf8");
    const { site, messages } = parseSiteConfig(text, "site.yaml");
    expect(messages).toEqual([]);
    expect(site).toMatchObject({
      issuer: "DEMO-HOSPITAL",
      readingErrors: [{ sdMm: 0.9, appliesTo: {} }],
      paper: "A4",
    });
    expect(site?.codes["99DEMO:SOUND-INNER"]).toEqual({
      quantity: "sound-length",
      path: "inner-curve",
    });
  });

  test.each(["{}", "", "# only a comment\n"])("the file %j states nothing", (text) => {
    expect(parseSiteConfig(text, "site.yaml").site).toEqual(noSiteConfig);
    expect(noSiteConfig).toMatchObject({
      readingErrors: [],
      sheets: [],
      archConventions: [],
      neighbourStepMm: 25,
      decimal: "point",
      dates: "iso",
    });
  });

  test.each([
    ["an unknown key", "isuer: A\n", "line 1", "isuer"],
    ["a place that does not exist", "words:\n  arch top: zone-12\n", "line 2", "words.arch top"],
    ["a code without a scheme", "codes:\n  MAXDIAM: {quantity: diameter}\n", "line 2", "codes"],
    [
      "a reading error without its source",
      "readingErrors:\n  - sdMm: 1\n",
      "line 2",
      "readingErrors.0.source",
    ],
    [
      "a reading error of zero",
      "readingErrors:\n  - {sdMm: 0, source: a}\n",
      "line 2",
      "readingErrors.0.sdMm",
    ],
    ["an alias without its anchor", "issuer: *a\n", "line 1", "whole file"],
    ["no map of keys", "- issuer\n", "line 1", "whole file"],
  ])("%s is refused with its line", (_, text, at, path) => {
    const { site, messages } = parseSiteConfig(text, "site.yaml");
    expect(site).toBeNull();
    expect(messages[0]?.place?.at).toBe(at);
    expect(messages[0]?.data["path"]).toContain(path);
  });
});
