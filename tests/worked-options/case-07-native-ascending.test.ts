import { describe, expect, test } from "vitest";
import { centrelineSheet, everyMm } from "./centreline-sheet.ts";
import { expectOptionsGolden } from "./options-golden.ts";
import {
  optionOf,
  outcomesOf,
  requirementsOf,
  segmentOf,
  sizingOf,
  stretchOf,
  workedCase,
  type WorkedCase,
} from "./worked-case.ts";

// Invented: an arch aneurysm from 145 mm on; the ascending aorta tapers from `ascendingMm` over 34 mm (70 to 80 mm) to
// 32 mm (from 85 mm on). All sections round.
const withAscending = (id: string, ascendingMm: number): WorkedCase =>
  workedCase({
    id,
    caseSheet: `diagnosis,arch_variant,aetiology,prior_repair
arch aneurysm,usual,degenerative,none`,
    centreline: centrelineSheet({
      atMm: everyMm(5, 0, 325),
      sectionAt: (mm) => {
        const diameterMm =
          mm <= 65 ? ascendingMm : mm <= 80 ? 34 : mm <= 140 || mm >= 260 ? 32 : 50;
        return { largestMm: diameterMm, leastMm: diameterMm };
      },
    }),
  });

const narrow = withAscending("WORKED-07", 36);
const wide = withAscending("WORKED-07-WIDE", 38);
const checkOf = (worked: WorkedCase, id: string) =>
  optionOf(worked, "0").checks.find((check) => check.id === id);

describe("a native ascending aorta of 36 mm", () => {
  test("stretch of zone 0: it ends where the diameter has changed by over 10 %", () => {
    // As written 36 < 37. 36 / 34 = 1.0588 holds 10 %; 36 / 32 = 1.125 at 85 mm does not: 0 to 80 mm.
    // With its error 36 + 1.96 = 37.96 is over 37: no section is surely sound. Where it is, at most up to 85 mm.
    expect(stretchOf(segmentOf(narrow, "proximal", "0"))).toEqual({
      startMm: 0,
      endMm: 80,
      lengthMm: { value: 80, low: 0, high: 85 },
    });
    expect(segmentOf(narrow, "proximal", "0").endedBy).toMatchObject({
      condition: "change-10-percent",
      atMm: 85,
    });
    // The widest limits know no change of 10 % and no 37 mm, but 40 mm: 37.96 holds. On to 140 mm, at most 145.
    expect(stretchOf(segmentOf(narrow, "proximal", "0", "widest published"))).toEqual({
      startMm: 0,
      endMm: 140,
      lengthMm: { value: 140, low: 140, high: 145 },
    });
  });

  test("hybrid repair type I: every number is met, two of them within their error", () => {
    const requirements = requirementsOf(narrow, "hybrid-type-1");
    expect(outcomesOf(requirements)).toMatchObject({
      "native-ascending": "met",
      "ascending-under-37": "met",
      "landing-over-30": "met",
      "ascending-not-dissected": "met",
      "no-earlier-arch-operation": "met",
    });
    const under37 = requirements.find(({ id }) => id === "ascending-under-37");
    // 36 +/- 1.96 = 34.04 to 37.96 holds 37.
    expect(under37).toMatchObject({ spansLimit: true, value: { value: 36 } });
    expect(under37?.value?.low).toBeCloseTo(34.04, 9);
    expect(under37?.value?.high).toBeCloseTo(37.96, 9);
    // 80 mm, 0 to 85, holds 30.
    expect(checkOf(narrow, "seal-length-hybrid-30")).toMatchObject({
      outcome: "met",
      spansLimit: true,
    });
  });

  test("sizing at 36 mm", () => {
    // 36 x 1.1 = 39.6 to 36 x 1.2 = 43.2: only 40 mm. The distal stretch, 32 mm: 35.2 to 38.4: G36, G38, G40T's 36 mm.
    const answer = sizingOf(narrow, "0", "5").inventory?.answers[0];
    expect(answer?.ends.map(({ inside }) => inside)).toEqual([["G40T"], ["G36", "G38", "G40T"]]);
    expect(answer?.fits).toEqual(["G40T"]);
  });

  test("stored outcomes", () => expectOptionsGolden("WORKED-07", narrow));
});

describe("a native ascending aorta of 38 mm", () => {
  test("zone 0: no section holds as written; each could within its error", () => {
    // 38 is not under 37. 38 - 1.96 = 36.04 is: not surely unsound. 38 / 34 = 1.1176 breaks at 70 mm: at most 70 mm.
    expect(stretchOf(segmentOf(wide, "proximal", "0"))).toEqual({
      startMm: null,
      endMm: null,
      lengthMm: { value: 0, low: 0, high: 70 },
    });
    expect(segmentOf(wide, "proximal", "0").begunBy.condition).toBe("diameter-37-ascending");
    expect(checkOf(wide, "seal-length-hybrid-30")).toMatchObject({
      outcome: "not-met",
      spansLimit: true,
    });
  });

  test("hybrid repair type I", () => {
    const requirements = requirementsOf(wide, "hybrid-type-1");
    expect(outcomesOf(requirements)).toMatchObject({
      "native-ascending": "met",
      "ascending-under-37": "not-met",
      "landing-over-30": "not-met",
    });
    // 38 +/- 1.96 = 36.04 to 39.96 holds 37.
    expect(requirements.find(({ id }) => id === "ascending-under-37")?.spansLimit).toBe(true);
  });

  test("type II puts the graft in first: its length is not known yet", () => {
    expect(outcomesOf(requirementsOf(wide, "hybrid-type-2"))).toMatchObject({
      "ascending-graft": "not-applicable",
      "ascending-graft-measured": "not-applicable",
      "graft-length-25": "not-assessable",
    });
  });

  test("stored outcomes", () => expectOptionsGolden("WORKED-07-WIDE", wide));
});
