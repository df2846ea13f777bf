import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { anatomyLines } from "../../../src/report/pages/anatomy-view.ts";
import { type Plan, planSchema } from "../../../src/report/plan.ts";
import { samplePlan } from "../sample-plan.ts";

const goldenPlan = (id: string): Plan =>
  planSchema.parse(JSON.parse(readFileSync(`tests/golden/${id}.plan.json`, "utf8")));
const textsOf = (plan: Plan) =>
  Object.fromEntries(anatomyLines(plan).map(({ label, text }) => [label, text]));

const wall = (zone: string, kind: string | null, more = {}) => ({
  zone,
  label: `label of ${zone}`,
  kind,
  since: null,
  words: null,
  unclear: null,
  ...more,
});

describe("the wall, stretch by stretch", () => {
  test.each([
    [[wall("root", "native"), wall("0", "native")], "Native throughout."],
    [
      [wall("0", "graft", { since: "2019" }), wall("1", "native"), wall("2", "native")],
      "Zone 0 graft since 2019; zone 1 to zone 2 native.",
    ],
    [
      [
        wall("9", "native"),
        wall("10-right", "stent graft"),
        wall("10-left", "native"),
        wall("11-right", "native"),
        wall("11-left", "native"),
      ],
      "Zone 9 native; zone 10 right stent graft; zone 10 left to zone 11 native.",
    ],
    [
      [wall("root", null, { unclear: "prior repair (or none)" })],
      "Not stated: prior repair (or none).",
    ],
    [
      [wall("root", null, { unclear: "the root" }), wall("0", "graft")],
      "Root unclear (the root); zone 0 graft.",
    ],
  ])("%#: %o", (walls, text) => {
    expect(textsOf({ ...samplePlan, walls })["Wall"]).toBe(text);
  });
});

describe("the arch", () => {
  test("stated, not stated, contradictory, and not defined by the zone map", () => {
    const arch = (more: Partial<Plan["arch"]>) =>
      textsOf({ ...samplePlan, arch: { ...samplePlan.arch, ...more } })["Arch"];
    expect(arch({})).toBe("Usual arch with three branches, by case sheet.");
    expect(arch({ variants: null, stated: [] })).toContain("Not stated");
    expect(arch({ variants: null, conflict: "Two arches are stated." })).toBe(
      "Two arches are stated.",
    );
    expect(arch({ variants: ["right arch"], undefinedBecause: "Zones 0 to 4 not defined." })).toBe(
      "Right arch, by case sheet. Zones 0 to 4 not defined.",
    );
  });
});

describe("the dissection of the golden cases", () => {
  test("a type B as stated, seen and classified", () => {
    const lines = textsOf(goldenPlan("DEMO-005"));
    expect(lines["Dissection, stated"]).toBe("Type B dissection; B_3,9; onset 2023-04-18.");
    expect(lines["Dissection, seen"]).toBe(
      "2026-01-08: type B, from zone 3, to zone 9. This agrees with what is stated.",
    );
    expect(lines["Classified"]).toBe("SVS/STS 2020 B_3,9; Stanford B; TEM B E3 M3-; DeBakey IIIb.");
    expect(lines["Age"]).toContain("chronic (SVS/STS 2020)");
    expect(lines["Branches fed by"]).toContain("false lumen: left renal artery (2026-01-08)");
    expect(lines["Called"]).toContain("the case sheet, which gives no date for it");
  });

  test("after a repair the exam does not contradict what was stated before it", () => {
    const lines = textsOf(goldenPlan("ANATOMY-3"));
    expect(lines["Dissection, seen"]).toContain("does not contradict");
    expect(lines["Dissection, seen"]).toContain("zone 0: graft since 2021-03-15");
  });

  test("without a dissection there are only wall and arch", () => {
    expect(Object.keys(textsOf(samplePlan))).toEqual(["Wall", "Arch"]);
  });
});
