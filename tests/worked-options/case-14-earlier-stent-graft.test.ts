import { describe, expect, test } from "vitest";
import { centrelineSheet, everyMm } from "./centreline-sheet.ts";
import { expectOptionsGolden } from "./options-golden.ts";
import {
  coverageOf,
  optionOf,
  outcomesOf,
  segmentOf,
  sizingOf,
  stretchOf,
  workedCase,
} from "./worked-case.ts";

// Invented: a stent graft of 2022 in zones 3 and 4 (105 to 200 mm, 32 mm wide); aneurysm below it from 210 to 280 mm.
const worked = workedCase({
  id: "WORKED-14",
  caseSheet: `diagnosis,arch_variant,aetiology,prior_repair
descending thoracic aneurysm,usual,degenerative,"stent graft, zones 3 to 4, 2022-10-10"`,
  centreline: centrelineSheet({
    atMm: everyMm(5, 0, 325),
    sectionAt: (mm) => {
      if (mm >= 105 && mm < 205) return { wall: "stent graft", largestMm: 32, leastMm: 32 };
      return mm <= 205 || mm >= 285
        ? { largestMm: 32, leastMm: 30 }
        : { largestMm: 52, leastMm: 50 };
    },
  }),
});

describe("an earlier stent graft with disease below it", () => {
  test("stretches in the stent graft end with it", () => {
    // Last section in it 200, first native one 205. Zone 4: 200 - 125 = 75, at most 80. Zone 3: 200 - 105 = 95, at most 100.
    const [three, four] = ["3", "4"].map((zone) => segmentOf(worked, "proximal", zone));
    expect(four && stretchOf(four)).toEqual({
      startMm: 125,
      endMm: 200,
      lengthMm: { value: 75, low: 75, high: 80 },
    });
    expect(three?.lengthMm).toEqual({ value: 95, low: 95, high: 100 });
    expect(four?.surface).toBe("stent graft");
    expect(four?.endedBy).toMatchObject({ condition: "one-wall", atMm: 205 });
    expect(outcomesOf(optionOf(worked, "4").checks)).toMatchObject({
      "seal-length-20": "met",
      "seal-length-25": "met",
      "seal-length-graft-25": "not-applicable",
    });
    expect(optionOf(worked, "4").wall).toContain("stent graft since 2022-10-10");
  });

  test("zone 2: native up to the stent graft", () => {
    // 85 to 100 = 15 mm, at most 105 - 85 = 20; or the stent graft itself, which begins between 100 and 105 and so at
    // the earliest in zone 2: 205 - 100 = 105 mm.
    expect(stretchOf(segmentOf(worked, "proximal", "2"))).toEqual({
      startMm: 85,
      endMm: 100,
      lengthMm: { value: 15, low: 15, high: 105 },
    });
    expect(optionOf(worked, "2").checks[0]).toMatchObject({ outcome: "not-met", spansLimit: true });
  });

  test("distal stretch of zone 5 and coverage from zone 4", () => {
    // 325 - 285 = 40, at most 325 - 280 = 45.
    expect(stretchOf(segmentOf(worked, "distal", "5"))).toEqual({
      startMm: 285,
      endMm: 325,
      lengthMm: { value: 40, low: 40, high: 45 },
    });
    // 285 + 20 - 125 = 180 to 325 - 125 = 200.
    expect(coverageOf(worked, "4", "5")).toMatchObject({ leastMm: 180, mostMm: 200 });
    expect(optionOf(worked, "4").branchesCovered).toEqual([]);
  });

  test("sizing: in the stent graft above, in native wall below", () => {
    const { proximal, inventory } = sizingOf(worked, "4", "5");
    expect(proximal.situations.map(({ id }) => id)).toEqual(["stent-graft"]);
    // 32 x 1.1 = 35.2 to 32 x 1.2 = 38.4: 36/32, 36, 38. Distal (32 + 30) / 2 = 31: 34.1 to 37.2: 36 (G36, G40T).
    const answer = inventory?.answers.find(({ distal }) => distal === "aneurysm-10-to-20");
    expect(answer?.ends.map(({ inside }) => inside)).toEqual([
      ["G36T", "G36", "G38"],
      ["G36", "G40T"],
    ]);
    expect(answer?.fits).toEqual(["G36"]);
    // 200 mm of fabric cover 200 mm at the most: one piece does.
    expect(inventory?.rows.find(({ id }) => id === "G36")?.onePiece).toBe("met");
  });

  test("stored outcomes", () => expectOptionsGolden("WORKED-14", worked));
});
