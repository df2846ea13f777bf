import { describe, expect, test } from "vitest";
import { centrelineSheet, everyMm } from "./centreline-sheet.ts";
import { expectOptionsGolden } from "./options-golden.ts";
import {
  optionOf,
  outcomesOf,
  requirementsOf,
  segmentOf,
  sizingOf,
  workedCase,
} from "./worked-case.ts";

// Invented: type B dissection of zones 3 to 9, 3 days old on 2026-03-01; the left subclavian artery ends at 105 mm.
const worked = workedCase({
  id: "WORKED-10",
  caseSheet: `diagnosis,onset_date,dissection,arch_variant,aetiology,prior_repair
type B dissection,2026-02-26,B3-9,usual,degenerative,none`,
  centreline: centrelineSheet({
    atMm: everyMm(5, 0, 325),
    sectionAt: (mm) =>
      mm < 105 ? { largestMm: 31, leastMm: 31 } : { wall: "dissected", largestMm: 36, leastMm: 34 },
  }),
});

describe("acute type B dissection from the left subclavian artery on", () => {
  test.each(["3", "4"])("zone %s: no stretch", (zone) => {
    // Every section is dissected, whatever its error: at most the 5 mm between two of them.
    const segment = segmentOf(worked, "proximal", zone);
    expect(segment).toMatchObject({ startMm: null, lengthMm: { value: 0, low: 0, high: 5 } });
    expect(segment.begunBy.condition).toBe("sound-wall");
    for (const check of optionOf(worked, zone).checks.slice(0, 2)) {
      expect(check).toMatchObject({ outcome: "not-met", spansLimit: false });
    }
    expect(optionOf(worked, zone).dissected?.state).toBe("yes");
  });

  test("the diameter alone would hold: 36 mm is under 38 mm", () => {
    expect(segmentOf(worked, "proximal", "3").begunBy.what).not.toContain("mm, limit");
  });

  test("zone 2: 85 to 100 = 15 mm, at most 20 mm; zone 0 and the ascending aorta are free", () => {
    expect(segmentOf(worked, "proximal", "2").lengthMm).toEqual({ value: 15, low: 15, high: 20 });
    expect(segmentOf(worked, "proximal", "0").lengthMm).toEqual({
      value: 100,
      low: 100,
      high: 105,
    });
    expect(outcomesOf(requirementsOf(worked, "hybrid-type-1"))).toMatchObject({
      "ascending-not-dissected": "met",
      "ascending-under-37": "met",
      "landing-over-30": "met",
    });
  });

  test("sizing in zone 2: acute, 0 to 10 % and under 10 %", () => {
    const { proximal, inventory, missing } = sizingOf(worked, "2", "5");
    // Round, 31 mm: 31 to 34.1. Stock at the proximal end: 32 and 34 mm; 36 mm is 1.9 mm too large.
    expect(proximal.windows.map(({ window }) => window.id)).toEqual([
      "acute-dissection-0-to-10",
      "acute-dissection-under-10",
    ]);
    for (const { interval } of proximal.windows) {
      expect(interval?.graftLowMm).toBeCloseTo(31, 9);
      expect(interval?.graftHighMm).toBeCloseTo(34.1, 9);
    }
    for (const { ends } of inventory?.answers ?? []) {
      expect(ends[0]?.inside).toEqual(["G32", "G34"]);
    }
    const tooLarge = inventory?.rows.find(({ id }) => id === "G36")?.proximal.windows[0];
    expect(tooLarge?.missMm).toBeCloseTo(1.9, 9);
    // The distal end would lie in a true lumen that nobody measured: no row is said to fit.
    expect(missing).toContain("a section of the true lumen at the distal end");
    for (const { fits } of inventory?.answers ?? []) expect(fits).toEqual([]);
  });

  test("stored outcomes", () => expectOptionsGolden("WORKED-10", worked));
});
