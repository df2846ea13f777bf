import { describe, expect, test } from "vitest";
import { landingConditions } from "../../src/planning/landing/landing-conditions.ts";
import { segmentChecks } from "../../src/planning/landing/segment-checks.ts";
import { inventedCase } from "../guidelines/invented-case.ts";
import { everyFive, lineCase, marks, segmentOf } from "../planning/landing/sample-segments.ts";

/**
 * Transcribed from the sources, apart from the data file. seen: the figure was read in the printed text or abstract.
 * A source prints when a wall is unfit ("reverse taper > 2 mm"); the table holds the contrary ("<= 2").
 */
const printed: [
  id: string,
  sound: string,
  unit: string,
  seen: "seen" | "digest or second-hand" | "recalled",
][] = [
  // Dohle and Desai, chapter on hybrid arch repair, abstract: native ascending aorta under 37 mm.
  ["diameter-37-ascending", "< 37", "mm", "seen"],
  // EACTS/ESVS 2019: no stent graft if the diameter is > 38 mm; EACTS/STS 2024 the same. Digests only.
  ["diameter-38", "<= 38", "mm", "digest or second-hand"],
  // < 40 mm: ascribed to a guideline that was not seen.
  ["diameter-40", "< 40", "mm", "digest or second-hand"],
  // Dillavou 2003, hostile neck, as quoted in Vasc Invest Ther 2022;5:91-3: reverse taper > 2 mm within 1 cm below the
  // renal arteries; focal bulge > 3 mm; thrombus >= 50 % of the circumference; angulation >= 60 degrees within 3 cm.
  ["widening-2", "<= 2", "mm", "seen"],
  ["bulge-3", "<= 3", "mm", "seen"],
  ["thrombus-half", "< 180", "deg", "seen"],
  ["turn-under-60", "< 60", "deg", "seen"],
  // Eur J Vasc Endovasc Surg 2012;44:556-61, 552 patients: angulation > 60 degrees.
  ["turn-up-to-60", "<= 60", "deg", "seen"],
  // Delphi consensus, Ann Vasc Surg 2020;62:173-82, abstract: circumferential calcification.
  ["calcium-circumferential", "< 360", "deg", "seen"],
  // Grading of the infrarenal neck, recalled: 25 % of the circumference, 2 mm of thrombus, 10 % of diameter.
  ["thrombus-quarter", "< 90", "deg", "recalled"],
  ["thrombus-2-mm", "< 2", "mm", "recalled"],
  ["calcium-quarter", "< 90", "deg", "recalled"],
  ["change-10-percent", "<= 10", "%", "recalled"],
];

const seals: [id: string, sound: string, ends: string[], seen: boolean][] = [
  // Series of 101 patients on the left subclavian artery: at least 20 mm required. No guideline text seen.
  ["seal-length-20", ">= 20", ["proximal", "distal"], false],
  // EACTS/STS 2024, digest: consider at least 25 mm proximal and at least 25 mm distal.
  ["seal-length-25", ">= 25", ["proximal", "distal"], false],
  // Dohle and Desai, abstract: more than 3 cm of proximal landing in hybrid repair.
  ["seal-length-hybrid-30", "> 30", ["proximal"], true],
  // Series of landing in polyester grafts: both failures had under 25 mm of graft.
  ["seal-length-graft-25", ">= 25", ["proximal", "distal"], true],
  // University of Zurich repository record 228557: at least 25 to 30 mm in arches of type II and III.
  ["seal-length-steep-arch-25", ">= 25", ["proximal"], true],
];

describe("limits against the sources", () => {
  test.each(printed)("%s: sound where %s %s (%s)", (id, sound, unit, seen) => {
    const row = landingConditions.conditions.find((one) => one.id === id);
    expect(`${row?.operator} ${row?.limit}`).toBe(sound);
    expect(row?.unit).toBe(unit);
    expect(row?.confirmed).toBe(seen === "seen");
    if (seen === "recalled") expect(row?.source).toContain("recalled");
  });

  test.each(seals)("%s: %s mm, %o", (id, sound, ends, isSeen) => {
    const row = landingConditions.seals.find((one) => one.id === id);
    expect(`${row?.operator} ${row?.limit}`).toBe(sound);
    expect(row?.ends).toEqual(ends);
    expect(row?.confirmed).toBe(isSeen);
  });

  test("the tables hold no other row", () => {
    const ids = (rows: readonly { id: string }[]) => rows.map(({ id }) => id).toSorted();
    expect(ids(landingConditions.conditions)).toEqual(printed.map(([id]) => id).toSorted());
    expect(ids(landingConditions.seals)).toEqual(seals.map(([id]) => id).toSorted());
  });

  // That no seal is counted on a dissection, haematoma or ulcer: common practice without a source, and marked so.
  test("walls on which no seal is counted are marked as common practice", () => {
    expect(landingConditions.walls).toMatchObject({
      unsound: ["dissected", "intramural haematoma", "penetrating ulcer"],
      practice: true,
      source: "common practice without a source",
    });
  });

  test("of every measure the widest published row is no stricter than the others", () => {
    const rows = landingConditions.conditions.filter(({ zones }) => zones === undefined);
    for (const [, group] of Map.groupBy(rows, ({ measure }) => measure)) {
      const strength = ({ limit, operator }: (typeof group)[number]): number =>
        limit + (operator === "<=" ? 1e-6 : 0);
      const widest = group.filter((row) => row.widest).map(strength);
      for (const row of group)
        for (const wide of widest) expect(wide).toBeGreaterThanOrEqual(strength(row));
    }
  });
});

/** One section at the limit itself: does it hold or fail, as the source prints it? */
describe("at the limit itself", () => {
  // The first that fails is at 100 mm, the last sound one at 95 mm.
  test.each([
    ["diameter 38 mm (<= 38)", { maximumMm: 38 }, true],
    ["diameter 38.1 mm", { maximumMm: 38.1 }, false],
    ["thrombus over 90 degrees (>= 25 % is unfit)", { thrombusArcDeg: 90 }, false],
    ["thrombus over 89.9 degrees", { thrombusArcDeg: 89.9 }, true],
    ["calcium over 90 degrees (>= 25 % is unfit)", { calciumArcDeg: 90 }, false],
  ])("%s", (_, given, holds) => {
    const line = everyFive((mm) => ({
      maximumMm: mm >= 125 ? 50 : 37,
      ...(mm === 100 ? given : {}),
    }));
    const { endMm } = segmentOf(lineCase([...marks, ...line]), "proximal", "2");
    expect(endMm).toBe(holds ? 120 : 95);
  });

  test.each([
    [20, "met"],
    [19.9, "not-met"],
  ])("a sound length of %d mm against at least 20 mm: %s", (mm, outcome) => {
    const patientCase = inventedCase([
      { place: "zone-4", mm, quantity: "sound-length", path: "centreline" },
    ]);
    const checks = segmentChecks(segmentOf(patientCase, "proximal", "4"));
    expect(checks.find(({ id }) => id === "seal-length-20")?.outcome).toBe(outcome);
  });
});

describe("zones on the centreline", () => {
  // ACC/AHA 2022, zone figure: zone 3 is the first 2 cm beyond the left subclavian artery.
  test("zone 4 begins 2 cm beyond the distal edge of the left subclavian artery", () => {
    const segment = segmentOf(lineCase([...marks, ...everyFive()]), "proximal", "4");
    expect(segment.startMm).toBe(100);
  });

  // The words of the borders in places.yaml, from the same figure, each have their mark on a centreline.
  test.each(["0", "1", "2", "3", "4"])(
    "both borders of zone %s are found by their marks",
    (zone) => {
      const patientCase = lineCase([...marks, ...everyFive()]);
      expect(segmentOf(patientCase, "proximal", zone)).toMatchObject({
        basis: "centreline",
        missing: [expect.stringContaining("radius of curvature")],
      });
    },
  );

  test("zone 5 ends at the proximal edge of the coeliac artery", () => {
    expect(segmentOf(lineCase([...marks, ...everyFive()]), "distal", "5").endMm).toBe(300);
  });
});
