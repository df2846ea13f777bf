import { describe, expect, test } from "vitest";
import { centrelineSheet, everyMm } from "./centreline-sheet.ts";
import { expectOptionsGolden } from "./options-golden.ts";
import { coverageOf, optionOf, segmentOf, stretchOf, workedCase } from "./worked-case.ts";

// Invented: the aneurysm of the first case seen at sections 30 mm apart only.
const worked = workedCase({
  id: "WORKED-02",
  caseSheet: `diagnosis,arch_variant,aetiology,prior_repair
descending thoracic aneurysm,usual,degenerative,none`,
  centreline: centrelineSheet({
    atMm: [...everyMm(30, 0, 300), 325],
    sectionAt: (mm) =>
      mm < 150 || mm > 250 ? { largestMm: 32, leastMm: 30 } : { largestMm: 56, leastMm: 54 },
  }),
});

const spacingOf = (zone: string) => segmentOf(worked, "proximal", zone).spacing;
const checkOf = (zone: string, id: string) =>
  optionOf(worked, zone).checks.find((check) => check.id === id);

describe("sparse sections", () => {
  test("zone 2: the gap to the first failing section is the error of the length", () => {
    // 85 mm lies between sound sections at 60 and 90 mm: the border itself begins the stretch. Last sound section 120,
    // first failing 150: 120 - 85 = 35, and at most 150 - 85 = 65.
    expect(stretchOf(segmentOf(worked, "proximal", "2"))).toEqual({
      startMm: 85,
      endMm: 120,
      lengthMm: { value: 35, low: 35, high: 65 },
    });
    // From 35 mm the nearest length asked is 30 mm: sections at most 5 mm apart would keep it on its side.
    expect(spacingOf("2")).toMatchObject({ largestMm: 30, neededMm: 35 - 30 });
  });

  test("zone 2: long enough, and still open: the turn within 30 mm needs points at most 15 mm apart", () => {
    const missing = [expect.stringMatching(/^points of the centreline at most 15 mm apart/)];
    for (const id of ["seal-length-20", "seal-length-25"]) {
      expect(checkOf("2", id)).toMatchObject({ outcome: "not-assessable", spansLimit: false });
      expect(checkOf("2", id)?.missing).toEqual(expect.arrayContaining(missing));
    }
  });

  test("zone 3: 15 mm as written, 45 mm at most: too short, and the gap alone could make it long enough", () => {
    // 120 - 105 = 15; 150 - 105 = 45. All of 20, 25 and 30 mm lie between. |15 - 20| = 5 mm would settle the nearest.
    expect(segmentOf(worked, "proximal", "3").lengthMm).toEqual({ value: 15, low: 15, high: 45 });
    expect(checkOf("3", "seal-length-20")).toMatchObject({ outcome: "not-met", spansLimit: true });
    expect(checkOf("3", "seal-length-25")).toMatchObject({ outcome: "not-met", spansLimit: true });
    expect(spacingOf("3")).toMatchObject({ largestMm: 30, neededMm: 5 });
    expect(spacingOf("3").words).toContain("20, 25, 30 mm");
  });

  test("zone 4: no sound section, but 30 mm between two failing ones that nobody saw", () => {
    // Sections of the zone: 150 and 180 mm, both 56 mm. Between 120 and 150 beyond the border: 150 - 125 = 25 mm;
    // between 150 and 180, and 180 and 210: 30 mm each.
    expect(segmentOf(worked, "proximal", "4").lengthMm).toEqual({ value: 0, low: 0, high: 30 });
    expect(checkOf("4", "seal-length-20")).toMatchObject({ outcome: "not-met", spansLimit: true });
    expect(spacingOf("4").neededMm).toBe(20);
  });

  test("distal stretch and coverage from zone 2", () => {
    // Sections 270, 300, 325 sound, 240 not: 325 - 270 = 55, at most 325 - 240 = 85.
    expect(stretchOf(segmentOf(worked, "distal", "5"))).toEqual({
      startMm: 270,
      endMm: 325,
      lengthMm: { value: 55, low: 55, high: 85 },
    });
    // 270 + 20 - 85 = 205 at the least: 10 mm more than with sections every 5 mm.
    expect(coverageOf(worked, "2", "5")).toMatchObject({ leastMm: 205, mostMm: 240 });
  });

  test("stored outcomes", () => expectOptionsGolden("WORKED-02", worked));
});
