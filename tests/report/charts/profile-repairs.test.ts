import { expect, test } from "vitest";
import { profileOf } from "../../../src/report/charts/profile-data.ts";
import { repairedBands, repairedLabel } from "../../../src/report/charts/profile-repairs.ts";
import { widthProfile } from "../../../src/report/charts/width-profile.ts";
import { samplePlan } from "../sample-plan.ts";

const repaired = (zones: string[] | null) => ({
  ...samplePlan,
  patient: {
    ...samplePlan.patient,
    repairs: [{ words: "graft", date: null, zones, kinds: ["graft" as const] }],
  },
});

test.each([
  [["3", "4", "5"], ["zones 3 to 5"]],
  [
    ["0", "3"],
    ["zone 0", "zone 3"],
  ],
  [
    ["9", "10-left", "11-left", "10-right"],
    ["zone 9", "zone 10, right", "zones 10 to 11, left"],
  ],
  [null, []],
])("zones %j are hatched as %j", (zones, labels) => {
  expect(repairedBands(repaired(zones)).map(repairedLabel)).toEqual(labels);
});

test("the drawing hatches the repair and says so in caption and alternative text", () => {
  const draw = (plan: typeof samplePlan) => {
    const profile = profileOf(plan);
    if (!profile) throw new Error("no profile");
    return widthProfile(profile, {
      id: "p",
      widthPt: 500,
      heightPt: 400,
      branchesPt: 120,
      barsPt: 190,
    });
  };
  const drawn = draw(repaired(["3", "4"]));
  expect(drawn.svg).toContain('class="repair"');
  expect(drawn.svg).toContain("Repaired: zones 3 to 4.");
  expect(drawn.caption).toContain("Hatched: repaired.");
  expect(draw(samplePlan).svg).not.toContain('class="repair"');
});
