import { describe, expect, test } from "vitest";
import { centrelineSheet, everyMm } from "./centreline-sheet.ts";
import { expectOptionsGolden } from "./options-golden.ts";
import {
  cordOf,
  coverageOf,
  errorMm,
  optionOf,
  outcomesOf,
  segmentOf,
  sizingOf,
  stretchOf,
  workedCase,
} from "./worked-case.ts";

// Invented: 32 x 30 mm down to 140 mm and again from 260 mm on, an aneurysm of 44 to 56 mm between, on a straight line.
const worked = workedCase({
  id: "WORKED-01",
  caseSheet: `diagnosis,arch_variant,aetiology,prior_repair,birth_date
descending thoracic aneurysm,usual,degenerative,none,1950-05-05`,
  measurements: `zone 2,diameter,maximum,whole,inner,32,mm
zone 2,diameter,minimum,whole,inner,30,mm`,
  centreline: centrelineSheet({
    atMm: everyMm(5, 0, 325),
    sectionAt: (mm) => {
      if (mm <= 140 || mm >= 260) return { largestMm: 32, leastMm: 30 };
      return mm === 145 || mm === 255
        ? { largestMm: 44, leastMm: 42 }
        : { largestMm: 56, leastMm: 54 };
    },
  }),
});

describe("a descending aneurysm on a straight line, sections every 5 mm", () => {
  test("stretches: from the border of the zone to the last section of at most 38 mm", () => {
    // 140 mm: 32 + 1.96 = 33.96 <= 38, surely sound. 145 mm: 44 - 1.96 = 42.04 > 38, surely not.
    // So the stretch ends surely at 140, and before 145: value = low = 140 - border, high = 145 - border.
    const ends = [
      { zone: "0", borderMm: 0, value: 140 - 0, high: 145 - 0 },
      { zone: "1", borderMm: 65, value: 140 - 65, high: 145 - 65 },
      { zone: "2", borderMm: 85, value: 140 - 85, high: 145 - 85 },
      { zone: "3", borderMm: 105, value: 140 - 105, high: 145 - 105 },
      { zone: "4", borderMm: 105 + 20, value: 140 - 125, high: 145 - 125 },
    ];
    for (const { zone, borderMm, value, high } of ends) {
      const segment = segmentOf(worked, "proximal", zone);
      const lengthMm = { value, low: value, high };
      expect(stretchOf(segment)).toEqual({ startMm: borderMm, endMm: 140, lengthMm });
      // Straight: D / 2R = 0, so both sides are as long as the centreline.
      for (const sideMm of [segment.innerMm, segment.outerMm]) {
        expect(sideMm?.value).toBeCloseTo(value, 6);
        expect(sideMm?.low).toBeCloseTo(value, 6);
        expect(sideMm?.high).toBeCloseTo(high, 6);
      }
      expect(segment.endedBy).toMatchObject({ condition: "diameter-38", atMm: 145 });
      expect(segment.notAssessed).toEqual([]);
    }
  });

  test("lengths asked: 55 mm from zone 2 and 35 mm from zone 3 reach 25 mm, 15 mm from zone 4 fall short of 20 mm", () => {
    const met = { "seal-length-20": "met", "seal-length-25": "met" };
    expect(outcomesOf(optionOf(worked, "2").checks)).toMatchObject(met);
    expect(outcomesOf(optionOf(worked, "3").checks)).toMatchObject(met);
    // 0 to 140 mm = 140 mm > 30 mm.
    expect(outcomesOf(optionOf(worked, "0").checks)).toMatchObject({
      ...met,
      "seal-length-hybrid-30": "met",
      "seal-length-graft-25": "not-applicable",
      "seal-length-steep-arch-25": "not-assessable",
    });
    // 15 to 20 mm holds 20 mm: between 140 and 145 mm it could just be reached; 25 mm surely not.
    const [twenty, twentyFive] = optionOf(worked, "4").checks;
    expect(twenty).toMatchObject({ outcome: "not-met", spansLimit: true });
    expect(twentyFive).toMatchObject({ outcome: "not-met", spansLimit: false });
    // The largest of zone 2 is 32 mm.
    const diameters = { "diameter-38": "met", "diameter-40": "met" };
    expect(outcomesOf(optionOf(worked, "2").checks)).toMatchObject(diameters);
  });

  test("distal stretch of zone 5: from the coeliac artery up to the last sound section", () => {
    // 325 - 260 = 65 mm; the next section up, 255 mm, surely fails: at most 325 - 255 = 70 mm.
    expect(stretchOf(segmentOf(worked, "distal", "5"))).toEqual({
      startMm: 260,
      endMm: 325,
      lengthMm: { value: 65, low: 65, high: 70 },
    });
  });

  test("branches and how they are usually re-fed", () => {
    const covered = Object.fromEntries(
      worked.planning.options.map(({ zone, branchesCovered }) => [zone, branchesCovered.length]),
    );
    // Innominate, left carotid and left subclavian arteries leave in zones 0, 1 and 2; none further on.
    expect(covered).toEqual({ "0": 3, "1": 2, "2": 1, "3": 0, "4": 0 });
    expect(optionOf(worked, "2").branchesCovered).toEqual(["left subclavian artery"]);
    expect(optionOf(worked, "2").movedFirst).toEqual([
      "left subclavian artery, by bypass from the carotid artery or by transposition",
    ]);
    expect(optionOf(worked, "3").movedFirst).toEqual([]);
  });

  test("covered length from zone 2 to zone 5", () => {
    // Least: 20 mm into the distal stretch, 260 + 20 = 280, less 85 = 195. Most: 325 - 85 = 240.
    expect(coverageOf(worked, "2", "5")).toMatchObject({ leastMm: 195, mostMm: 240 });
    const cord = cordOf(worked, "2");
    // From the left subclavian to the coeliac artery 325 - 105 = 220 mm: 195 / 220 = 88.64 %.
    expect(cord.sharePercent?.low).toBeCloseTo(88.64, 2);
    // Above the coeliac artery at least coverage: 325 - 280 = 45 mm.
    expect(cord.aboveCoeliacMm?.highMm).toBe(45);
    // Judged on the most, 240 mm: over 205 and over 200; 195 would be under both.
    for (const check of cord.checks.slice(0, 3)) {
      expect(check).toMatchObject({ outcome: "not-met", spansLimit: true });
    }
  });

  test("sizing from zone 2 to zone 5", () => {
    const sizing = sizingOf(worked, "2", "5");
    // Mean (32 + 30) / 2 = 31. Area of the ellipse: 2 sqrt(16 x 15) = 2 x 15.4919 = 30.9839. Perimeter (Ramanujan's second
    // formula): h = (1 / 31)^2 = 0.00104058, 31 (1 + 3 h / (10 + sqrt(4 - 3 h))) = 31 x 1.00026019 = 31.0081.
    const by = Object.fromEntries(
      sizing.proximal.reference?.diameters.map(({ convention, diameterMm }) => [
        convention,
        diameterMm,
      ]) ?? [],
    );
    expect(by["mean"]).toBe(31);
    expect(by["area"]).toBeCloseTo(30.9839, 4);
    expect(by["perimeter"]).toBeCloseTo(31.0081, 4);
    expect(by["largest"]).toBe(32);
    // The axes alone are measured: the mean sizes. 10 to 20 %: 31 x 1.1 = 34.1 to 31 x 1.2 = 37.2.
    // Inside whatever the error: over (31 + 1.96) x 1.1 = 36.256 and under (31 - 1.96) x 1.2 = 34.848: none.
    const [first] = sizing.proximal.windows;
    expect(first?.window.id).toBe("aneurysm-10-to-20");
    expect(first?.interval?.graftLowMm).toBeCloseTo(34.1, 9);
    expect(first?.interval?.graftHighMm).toBeCloseTo(37.2, 9);
    expect(first?.interval?.surelyInsideLowMm).toBeCloseTo((31 + errorMm) * 1.1, 9);
    expect(first?.interval?.surelyInsideHighMm).toBeCloseTo((31 - errorMm) * 1.2, 9);
    // The distal stretch is 32 x 30 mm too. Stock: 28, 30, 32, 34, 36/32, 36, 38, 40/36 mm.
    const fits = Object.fromEntries(
      sizing.inventory?.answers.map((answer) => [answer.proximal, answer.fits]) ?? [],
    );
    expect(fits).toEqual({
      "aneurysm-10-to-20": ["G36"], // 34.1 to 37.2
      "aneurysm-10-to-15": [], // 34.1 to 35.65
      "aneurysm-10-to-25": ["G36", "G38"], // 34.1 to 38.75
      "aneurysm-under-20": ["G32", "G34", "G36T", "G36"], // 31 to under 37.2
      "aneurysm-under-15": ["G32", "G34"], // 31 to under 35.65
    });
    // 10 to 15 %: 34 mm is 34 - 34.1 = -0.1 mm off at both ends, 36 mm is +0.35 mm off.
    for (const { nearest } of sizing.inventory?.answers[1]?.ends ?? []) {
      expect(nearest).toEqual([{ id: "G34", missMm: expect.closeTo(-0.1, 9) }]);
    }
    // 36 mm in 31 mm: 36 / 31 - 1 = 16.13 %.
    const row = sizing.inventory?.rows.find(({ id }) => id === "G36");
    expect(row?.proximal.oversizing?.value).toBeCloseTo(16.129, 3);
    // 200 mm of fabric for 195 to 240 mm: open. 150 mm: too short for 195.
    expect(row?.onePiece).toBe("not-assessable");
    expect(sizing.inventory?.rows.find(({ id }) => id === "G34")?.onePiece).toBe("not-met");
    // Two of 200 mm at 50 mm overlap: (240 - 50) / (200 - 50) = 1.27, so 2; one for 195 mm.
    const pieces = sizing.pieces.find(
      ({ coveredLengthMm, overlapMm }) => coveredLengthMm === 200 && overlapMm === 50,
    );
    expect([pieces?.least?.pieces, pieces?.most?.pieces]).toEqual([1, 2]);
    // Equal ends: from 1.1 / 1.2 to 1.2 / 1.1 holds 31 / 31 = 1, a straight graft lies in both windows.
    expect(sizing.tapers[0]?.straight.outcome).toBe("met");
    expect(sizing.missing).toEqual([]);
  });

  test("stored outcomes", () => expectOptionsGolden("WORKED-01", worked));
});
