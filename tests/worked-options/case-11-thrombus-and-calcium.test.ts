import { describe, expect, test } from "vitest";
import { centrelineSheet, everyMm, type StationCells } from "./centreline-sheet.ts";
import { expectOptionsGolden } from "./options-golden.ts";
import { optionOf, segmentOf, stretchOf, workedCase } from "./worked-case.ts";

// Invented: 32 x 30 mm down to 140 mm, but thrombus over 100 degrees, 1.5 mm thick, from 120 mm on, calcium over 200 degrees
// at 130 mm and all round at 135 mm.
function sectionAt(mm: number): StationCells {
  if (mm > 140 && mm < 260) return { largestMm: 50, leastMm: 48 };
  const size = { largestMm: 32, leastMm: 30 };
  if (mm < 120 || mm >= 260) return size;
  const calciumArcDeg = mm === 130 ? 200 : mm === 135 ? 360 : 0;
  return { ...size, thrombusArcDeg: 100, thrombusMm: 1.5, calciumArcDeg };
}

const worked = workedCase({
  id: "WORKED-11",
  caseSheet: `diagnosis,arch_variant,aetiology,prior_repair
descending thoracic aneurysm,usual,degenerative,none`,
  centreline: centrelineSheet({ atMm: everyMm(5, 0, 325), sectionAt }),
});

describe("thrombus and calcium that shorten the stretch", () => {
  test("strictest limits: thrombus under 90 degrees ends it at 115 mm", () => {
    // 100 degrees at 120 mm are not under 90. Arcs carry no error: at most up to 120 mm.
    // Zone 2: 115 - 85 = 30, at most 120 - 85 = 35. Zone 3: 115 - 105 = 10, at most 15.
    const [two, three] = ["2", "3"].map((zone) => segmentOf(worked, "proximal", zone));
    expect(two && stretchOf(two)).toEqual({
      startMm: 85,
      endMm: 115,
      lengthMm: { value: 30, low: 30, high: 35 },
    });
    expect(three?.lengthMm).toEqual({ value: 10, low: 10, high: 15 });
    expect(three?.endedBy).toMatchObject({ condition: "thrombus-quarter", atMm: 120 });
    // Zone 4 begins at 125 mm: 0, at most the 5 mm between two sections.
    expect(segmentOf(worked, "proximal", "4").lengthMm).toEqual({ value: 0, low: 0, high: 5 });
  });

  test("widest limits: thrombus under 180 degrees and calcium short of all round go on to 130 mm", () => {
    // 100 < 180; 200 < 360 at 130 mm; 360 at 135 mm ends it. Zone 2: 130 - 85 = 45, at most 50. Zone 3: 25, at most 30.
    const [two, three, four] = ["2", "3", "4"].map((zone) =>
      segmentOf(worked, "proximal", zone, "widest published"),
    );
    expect(two?.lengthMm).toEqual({ value: 45, low: 45, high: 50 });
    expect(three?.lengthMm).toEqual({ value: 25, low: 25, high: 30 });
    expect(three?.endedBy).toMatchObject({ condition: "calcium-circumferential", atMm: 135 });
    // Zone 4: 125 to 130 = 5. Between 130 and 135 it may go on: at most 10; behind the calcium 135 to 145: 10 too.
    expect(four?.lengthMm).toEqual({ value: 5, low: 5, high: 10 });
  });

  test("lengths asked stand on the strictest limits", () => {
    const checks = (zone: string) => optionOf(worked, zone).checks.slice(0, 2);
    for (const check of checks("2")) expect(check.outcome).toBe("met");
    for (const check of checks("3")) {
      expect(check).toMatchObject({ outcome: "not-met", spansLimit: false });
    }
  });

  test("stored outcomes", () => expectOptionsGolden("WORKED-11", worked));
});
