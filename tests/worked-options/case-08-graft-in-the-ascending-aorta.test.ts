import { describe, expect, test } from "vitest";
import { centrelineSheet, everyMm } from "./centreline-sheet.ts";
import { expectOptionsGolden } from "./options-golden.ts";
import {
  coverageOf,
  optionOf,
  outcomesOf,
  requirementsOf,
  segmentOf,
  sizingOf,
  stretchOf,
  workedCase,
} from "./worked-case.ts";

// Invented: the ascending aorta was replaced in 2020 for an aneurysm; the graft measures 30 mm from 0 to 60 mm. Arch
// aneurysm from 145 mm on.
const worked = workedCase({
  id: "WORKED-08",
  caseSheet: `diagnosis,arch_variant,aetiology,prior_repair
arch aneurysm,usual,degenerative,"graft, zone 0, 2020-05-04"`,
  findings: "right subclavian artery,patency,patent",
  centreline: centrelineSheet({
    atMm: everyMm(5, 0, 325),
    sectionAt: (mm) => {
      if (mm <= 60) return { wall: "graft", largestMm: 30, leastMm: 30 };
      return mm <= 140 || mm >= 260
        ? { largestMm: 32, leastMm: 30 }
        : { largestMm: 50, leastMm: 48 };
    },
  }),
});

describe("a surgical graft as landing", () => {
  test("the stretch of zone 0 ends where the native wall begins", () => {
    // Last section of the graft 60, first native one 65: 60 mm as written and surely. Somewhere between the two the
    // native wall begins, still in zone 0: a stretch that begins there is at most 145 - 60 = 85 mm long.
    const segment = segmentOf(worked, "proximal", "0");
    expect(stretchOf(segment)).toEqual({
      startMm: 0,
      endMm: 60,
      lengthMm: { value: 60, low: 60, high: 85 },
    });
    expect(segment.surface).toBe("graft");
    expect(segment.endedBy).toMatchObject({ condition: "one-wall", atMm: 65 });
    expect(outcomesOf(optionOf(worked, "0").checks)).toMatchObject({
      "seal-length-20": "met",
      "seal-length-25": "met",
      "seal-length-hybrid-30": "met",
      "seal-length-graft-25": "met",
      "diameter-37-ascending": "not-applicable",
    });
    // Zone 1 begins in native wall: 140 - 65 = 75.
    expect(segmentOf(worked, "proximal", "1")).toMatchObject({
      surface: "native",
      lengthMm: { value: 75 },
    });
  });

  test("hybrid repair type II", () => {
    const requirements = requirementsOf(worked, "hybrid-type-2");
    expect(outcomesOf(requirements)).toMatchObject({
      "ascending-graft": "met",
      "ascending-graft-measured": "met",
      "graft-length-25": "met",
      "graft-length-30": "met",
      "no-earlier-arch-operation": "not-met",
      "right-axillary-inflow": "met",
    });
    // 30 +/- 1.96 mm as measured. The section of 32 mm at the end of zone 0 is native wall and says nothing of the graft.
    const measured = requirements.find(({ id }) => id === "ascending-graft-measured");
    expect(measured?.value).toMatchObject({ value: 30 });
    expect(measured?.value?.low).toBeCloseTo(28.04, 9);
    expect(requirements.find(({ id }) => id === "graft-length-30")).toMatchObject({
      spansLimit: false,
      value: { value: 60 },
    });
    expect(outcomesOf(requirementsOf(worked, "hybrid-type-1"))).toMatchObject({
      "native-ascending": "not-met",
      "ascending-under-37": "not-applicable",
    });
  });

  test("sizing: 10 to 20 % of the measured lumen of the graft, native wall at the distal end", () => {
    // Coverage 260 + 20 - 0 = 280 to 325 - 0 = 325.
    expect(coverageOf(worked, "0", "5")).toMatchObject({ leastMm: 280, mostMm: 325 });
    const { proximal, inventory } = sizingOf(worked, "0", "5");
    expect(proximal.situations.map(({ id }) => id)).toEqual(["surgical-graft"]);
    // 30 x 1.1 = 33 to 30 x 1.2 = 36, both in: 34, 36/32, 36. Distal 31 x 1.1 = 34.1 to 37.2: 36 (G36, G40T).
    expect(proximal.windows[0]?.interval?.graftLowMm).toBeCloseTo(33, 9);
    expect(proximal.windows[0]?.interval?.graftHighMm).toBeCloseTo(36, 9);
    const answer = inventory?.answers.find(({ distal }) => distal === "aneurysm-10-to-20");
    expect(answer?.ends.map(({ inside }) => inside)).toEqual([
      ["G34", "G36T", "G36"],
      ["G36", "G40T"],
    ]);
    expect(answer?.fits).toEqual(["G36"]);
  });

  test("stored outcomes", () => expectOptionsGolden("WORKED-08", worked));
});
