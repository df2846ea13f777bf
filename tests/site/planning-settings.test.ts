import { describe, expect, test } from "vitest";
import { noSiteConfig, parseSiteConfig } from "../../src/site/site-config.ts";

const planningOf = (text: string) => parseSiteConfig(`planning: ${text}`, "site.yaml");

describe("what a site states about the planning of repairs", () => {
  test("without an entry nothing is left out, no position is taken for granted, and the defaults are those of the README", () => {
    expect(noSiteConfig.planning).toEqual({
      leaveOut: [],
      cArm: { primaryDeg: 90, secondaryDeg: 45 },
      scanPosition: null,
      overlapMm: 50,
      sheathRatio: 1.05,
      coverageMm: 205,
    });
  });

  test("a stated part keeps the defaults of the others", () => {
    expect(planningOf("{ cArm: { secondaryDeg: 30 } }").site?.planning).toMatchObject({
      cArm: { primaryDeg: 90, secondaryDeg: 30 },
      overlapMm: 50,
    });
  });

  test.each([
    ["{ overlapMm: 0 }", "Too small"],
    ["{ sheathRatio: wide }", "expected number"],
    ["{ cArm: { primaryDeg: 200 } }", "Too big"],
    ["{ scanPosition: { position: HFZ, by: lab, date: 2026-01-15 } }", "HFZ is none of its values"],
    ["{ scanPosition: { position: HFS, date: 2026-01-15 } }", "by"],
    ["{ leaveOut: [{ condition: colour, reason: none, by: lab, date: 2026-01-15 }] }", "colour"],
    ["{ leaveOut: [{ condition: calcium, by: lab, date: 2026-01-15 }] }", "reason"],
    ["{ overlap: 50 }", "overlap is not a key here; did you mean overlapMm?"],
  ])("%s is refused: %s", (text, what) => {
    const { site, messages } = planningOf(text);
    expect(site).toBeNull();
    expect(messages.map((message) => message.text).join("\n")).toContain(what);
  });
});
