import { expect, test } from "vitest";
import { profileOf } from "../../../src/report/charts/profile-data.ts";
import { profileGaps } from "../../../src/report/charts/profile-gaps.ts";
import { sampleMeasurement } from "../sample-measurements.ts";
import { samplePlan } from "../sample-plan.ts";

const gapsWith = (...places: string[]): string[] => {
  const measurements = places.map((place) => sampleMeasurement(place, "2026-01-12", 30));
  const profile = profileOf({ ...samplePlan, measurements });
  return profileGaps(profile?.bars ?? []).map(({ label }) => label);
};

test("neighbouring stretches without a bar are one gap", () => {
  expect(gapsWith("zone-0", "zone-5")).toEqual([
    "aortic root",
    "zones 1 to 4",
    "zones 6 to 9",
    "zones 10 to 11, right",
    "zones 10 to 11, left",
  ]);
});

test("a bar on a border measures neither zone, but divides the gap", () => {
  expect(gapsWith("proximal-descending").slice(0, 2)).toEqual([
    "aortic root to zone 3",
    "zones 4 to 9",
  ]);
});

test("the two iliac sides are apart", () => {
  expect(gapsWith("zone-10-left").slice(1)).toEqual(["zones 10 to 11, right", "zone 11, left"]);
});
