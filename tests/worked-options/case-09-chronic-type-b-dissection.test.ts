import { describe, expect, test } from "vitest";
import { centrelineSheet, everyMm, station, straightDown } from "./centreline-sheet.ts";
import { expectOptionsGolden } from "./options-golden.ts";
import { optionOf, outcomesOf, segmentOf, sizingOf, stretchOf, workedCase } from "./worked-case.ts";

// Invented: type B dissection of zones 3 to 9, 26 months old. Zone 2 is whole, 32 x 30 mm with a perimeter of 97 mm; from
// 105 mm on the wall is dissected, 44 x 40 mm across. True lumen near the coeliac artery: perimeters of 62, 66 and 64 mm.
const trueLumen = [
  [305, 62],
  [315, 66],
  [325, 64],
] as const;
const worked = workedCase({
  id: "WORKED-09",
  caseSheet: `diagnosis,onset_date,dissection,arch_variant,aetiology,prior_repair
type B dissection,2024-01-01,B3-9,usual,degenerative,none`,
  centreline: [
    centrelineSheet({
      atMm: everyMm(5, 0, 325),
      sectionAt: (mm) =>
        mm < 105
          ? { largestMm: 32, leastMm: 30, perimeterMm: 97 }
          : { wall: "dissected", largestMm: 44, leastMm: 40 },
    }),
    ...trueLumen.map(([mm, perimeterMm]) =>
      station(mm, { lumen: "true", wall: "dissected", perimeterMm }, straightDown),
    ),
  ].join("\n"),
});

describe("chronic type B dissection", () => {
  test("zone 2: sound up to the first dissected section", () => {
    // 85 to 100 = 15 mm, at most to 105 = 20 mm: under 20 mm as written, within the gap; under 25 mm surely.
    expect(stretchOf(segmentOf(worked, "proximal", "2"))).toEqual({
      startMm: 85,
      endMm: 100,
      lengthMm: { value: 15, low: 15, high: 20 },
    });
    expect(segmentOf(worked, "proximal", "2").endedBy).toMatchObject({
      condition: "sound-wall",
      atMm: 105,
    });
    const [twenty, twentyFive] = optionOf(worked, "2").checks;
    expect(twenty).toMatchObject({ outcome: "not-met", spansLimit: true });
    expect(twentyFive).toMatchObject({ outcome: "not-met", spansLimit: false });
    expect(optionOf(worked, "2").dissected?.state).toBe("no");
  });

  test("zone 1: 65 to 100 = 35 mm, at most 40 mm", () => {
    expect(segmentOf(worked, "proximal", "1").lengthMm).toEqual({ value: 35, low: 35, high: 40 });
    expect(outcomesOf(optionOf(worked, "1").checks)).toMatchObject({
      "seal-length-20": "met",
      "seal-length-25": "met",
    });
  });

  test("no distal stretch in dissected wall: no coverage", () => {
    // Between two dissected sections at most the 5 mm that lie between them.
    for (const zone of ["3", "4", "5"]) {
      expect(stretchOf(segmentOf(worked, "distal", zone))).toEqual({
        startMm: null,
        endMm: null,
        lengthMm: { value: 0, low: 0, high: 5 },
      });
    }
    expect(worked.planning.coverages).toEqual([]);
  });

  test("proximal sizing in zone 2: 0 to 10 % of the perimeter's diameter", () => {
    const { proximal, inventory } = sizingOf(worked, "2", "5");
    expect(proximal.situations.map(({ id }) => id)).toEqual(["chronic-dissection"]);
    // 97 / pi = 30.8761; x 1.1 = 33.9637: 32 mm lies in it; 34 mm is 34 - 33.9637 = 0.0363 mm too large.
    expect(proximal.reference?.reference).toMatchObject({ convention: "perimeter" });
    expect(proximal.windows[0]?.interval?.graftLowMm).toBeCloseTo(30.8761, 4);
    expect(proximal.windows[0]?.interval?.graftHighMm).toBeCloseTo(33.9637, 4);
    expect(inventory?.answers[0]?.ends[0]?.inside).toEqual(["G32"]);
    const row = inventory?.rows.find(({ id }) => id === "G34");
    expect(row?.proximal.windows[0]?.missMm).toBeCloseTo(0.0363, 4);
  });

  test("distal end in the true lumen of zone 5", () => {
    const { distal, inventory, trueLumen: end, coverage, missing } = sizingOf(worked, "2", "5");
    // The largest true lumen sizes: 66 / pi = 21.0085. 0 %: the graft as wide as the true lumen. The smallest distal end, 28 mm, is 6.9915 mm too large.
    expect(distal.lumen).toBe("true");
    expect(distal.windows[0]?.interval?.graftHighMm).toBeCloseTo(21.0085, 4);
    expect(inventory?.answers[0]?.ends[1]?.nearest).toEqual([
      { id: "G28", missMm: expect.closeTo(6.9915, 4) },
    ]);
    // 28 mm: 28 pi / 66 - 1 = 87.9646 / 66 - 1 = 33.28 % over the true lumen. Whole aorta (44 + 40) / 2 = 42:
    // 28 / 42 - 1 = -33.33 %.
    const row = end?.rows.find(({ id }) => id === "G28");
    expect(row?.byPerimeter).toBeCloseTo(33.28, 2);
    expect(row?.wholeAorta).toBeCloseTo(-33.33, 2);
    // Taper, both by perimeter: (97 - 66) / 97 = 31.96 %.
    expect(end?.taper?.percent).toBeCloseTo(31.96, 2);
    // No sound distal stretch says how far it reaches.
    expect(coverage).toBeNull();
    expect(missing).toContain("length to be covered, fabric edge to fabric edge");
  });

  test("stored outcomes", () => expectOptionsGolden("WORKED-09", worked));
});
