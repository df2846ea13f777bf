import { describe, expect, test } from "vitest";
import { placeById, placeDistalToLeftSubclavian } from "../../src/anatomy/places.ts";
import type { Measurement } from "../../src/cases/patient-case.ts";
import { plausibilityDoubts } from "../../src/cases/plausibility.ts";
import { sampleMeasurement } from "./sample-measurement.ts";

const at = (place: string, asWritten: string, rest: Partial<Measurement> = {}) =>
  sampleMeasurement(asWritten, { statistic: "maximum", place: placeById(place), ...rest });
const doubts = (...measurements: Measurement[]) =>
  plausibilityDoubts(measurements, "2026-01-12", { neighbourStepMm: 25 });
const codes = (...measurements: Measurement[]) => doubts(...measurements).map(({ code }) => code);

describe("a diameter beside its neighbours", () => {
  const [before, after] = [at("zone-3", "32 mm"), at("zone-5", "30 mm")];

  test("names the values and the step", () => {
    const [message] = doubts(before, at("zone-4", "58 mm"), after);
    expect(message?.code).toBe("diameter-stands-out");
    expect(message?.text).toBe(
      "zone 4, outer edge, exam of 2026-01-12: largest diameter 58 mm is over 25 mm larger than both nearest neighbours (32 mm at zone 3, 30 mm at zone 5) and doubtful; it is used as written",
    );
    expect(message?.remedy).toContain(
      "25 mm step: site setting, common practice, not from a source.",
    );
  });

  test.each<[string, Measurement[]]>([
    ["the step itself", [before, at("zone-4", "57 mm"), after]],
    ["one neighbour is near", [before, at("zone-4", "70 mm"), at("zone-5", "50 mm")]],
    ["the last place", [before, at("zone-4", "70 mm")]],
    ["another statistic", [before, at("zone-4", "70 mm", { statistic: "unstated" }), after]],
    ["another edge", [before, at("zone-4", "70 mm", { edge: "inner" }), after]],
    ["another lumen", [before, at("zone-4", "70 mm", { lumen: "false" }), after]],
    [
      "branches are no neighbours",
      [at("left-subclavian-artery", "9 mm"), at("zone-4", "70 mm"), at("coeliac-artery", "8 mm")],
    ],
    [
      "iliacs are no neighbours",
      [at("zone-8", "25 mm"), at("zone-9", "70 mm"), at("zone-10-left", "14 mm")],
    ],
    [
      "ranges are no neighbours",
      [at("aortic-arch", "32 mm"), at("zone-4", "70 mm"), at("abdominal-aorta", "25 mm")],
    ],
  ])("no doubt: %s", (_, measurements) => {
    expect(doubts(...measurements)).toEqual([]);
  });

  test("the nearest measured place counts, not the next one on the map, and both numbers of one place", () => {
    expect(codes(at("zone-0", "34 mm"), at("zone-4", "70 mm"), at("zone-8", "28 mm"))).toEqual([
      "diameter-stands-out",
    ]);
    const [low, high] = [at("zone-0", "34 mm"), at("mid-ascending", "50 mm")];
    expect(codes(low, high, at("zone-4", "70 mm"), at("zone-8", "28 mm"))).toEqual([]);
  });
});

describe("lengths against landmarks", () => {
  const length = { quantity: "length", statistic: "unstated", path: "centreline" } as const;
  const sound = { ...length, quantity: "sound-length" } as const;

  test.each([
    ["25 mm", sound, 1],
    ["21 mm", length, 1],
    ["21 mm", { ...sound, path: "unstated" as const }, 1],
    ["20.4 mm", sound, 1],
    ["20 mm", sound, 0],
    ["2 cm", sound, 0],
    ["26 mm", { ...sound, path: "outer-curve" as const }, 0],
    ["25 mm", { quantity: "diameter" as const }, 0],
  ])("%s in zone 3 (%o): %d", (asWritten, rest, count) => {
    expect(codes(at("zone-3", asWritten, rest))).toEqual(
      Array.from({ length: count }, () => "length-beyond-zone"),
    );
  });

  const descending = at("descending-thoracic-aorta", "220 mm", length);

  test("a part longer than the range that holds it", () => {
    const [message, ...others] = doubts(descending, at("zone-5", "240 mm", sound));
    expect(others).toEqual([]);
    expect(message?.code).toBe("part-longer-than-whole");
    expect(message?.text).toContain(
      "sound length along the centreline 240 mm is doubtful, since it is more than length along the centreline 220 mm of the descending thoracic aorta",
    );
    expect(codes(at("thoracic-aorta", "200 mm", length), descending)).toEqual([
      "part-longer-than-whole",
    ]);
  });

  test.each([
    ["a shorter part", at("zone-5", "220 mm", length)],
    ["a part that is not inside", at("zone-6", "240 mm", length)],
    ["a range that is not inside", at("thoraco-abdominal-aorta", "440 mm", length)],
    ["another line", at("zone-5", "240 mm", { ...length, path: "outer-curve" })],
    ["a level, which has no ends", at("mid-descending", "240 mm", length)],
    ["a sound length of the same range", at("descending-thoracic-aorta", "240 mm", sound)],
  ])("no doubt: %s", (_, part) => {
    expect(doubts(descending, part)).toEqual([]);
  });

  test("a place further than 300 mm from the left subclavian artery is doubted once", () => {
    const far = { place: placeDistalToLeftSubclavian(310.5) };
    expect(codes(at("zone-4", "30 mm", far), at("zone-4", "31 mm", far))).toEqual([
      "place-beyond-aorta",
    ]);
    expect(codes(at("zone-4", "30 mm", { place: placeDistalToLeftSubclavian(300) }))).toEqual([]);
  });
});

test("numbers that are hard to believe are named with what is believed", () => {
  const [message] = doubts(at("zone-5", "71 cm", { quantity: "length" }));
  expect(message).toMatchObject({ code: "number-hard-to-believe", severity: "warning" });
  expect(message?.text).toContain("length 71 cm is doubtful, since up to 700 mm long is believed");
});
