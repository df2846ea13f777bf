/**
 * Sheath sizes and limits of the way in against figures that were not written here.
 *
 * Sources:
 * - Scale: a step of the French (Charrière) scale is a third of a millimetre of outer diameter (UCUM, unit [Ch]).
 * - Least artery at 1.05 and the ratios: division, worked apart from the code in decimal.
 * - Limits: second transcription from notes of the sources named in each row. "seen" was read in the source (mostly an
 *   abstract or excerpt), "recalled" was not; "practice" is common practice without a source.
 */
import { describe, expect, test } from "vitest";
import { access } from "../../src/planning/access/access.ts";
import { accessLimits } from "../../src/planning/access/access-limits.ts";
import { noSiteConfig } from "../../src/site/site-config.ts";
import { asOf, graft, iliacs, inventedCase } from "../planning/access/access-case.ts";
import { frenchToMm } from "../../src/quantities/french.ts";

const checksOf = (sheathMm: number, lumenMm: number) => {
  const { sides } = access(
    inventedCase({ measurements: iliacs("right", [lumenMm, lumenMm, lumenMm]) }),
    {
      asOf,
      inventory: [graft("G1", sheathMm, "invented")],
      planning: noSiteConfig.planning,
      readingSdMmOf: () => 0,
      stationSdMmOf: () => 0,
    },
  );
  return sides[0]?.sheaths?.[0]?.checks ?? [];
};
const outcomeOf = (sheathMm: number, lumenMm: number, id: string) =>
  checksOf(sheathMm, lumenMm).find((check) => check.id === id)?.outcome;

describe("French, millimetres and the least artery at 1.05", () => {
  test.each([
    [16, 5.333, 5.079],
    [18, 6.0, 5.714],
    [20, 6.667, 6.349],
    [22, 7.333, 6.984],
    [24, 8.0, 7.619],
    [26, 8.667, 8.254],
  ])("%s Fr is %s mm and stands against %s mm of lumen", (french, mm, leastMm) => {
    expect(frenchToMm(french)).toBeCloseTo(mm, 3);
    const exactMm = frenchToMm(french) / 1.05;
    expect(exactMm).toBeCloseTo(leastMm, 3);
    expect(outcomeOf(frenchToMm(french), exactMm, "sheath-ratio-1-05")).toBe("met");
    expect(outcomeOf(frenchToMm(french), exactMm - 0.001, "sheath-ratio-1-05")).toBe("not-met");
  });

  test.each([
    [24, 7.5, 1.067],
    [22, 7.5, 0.978],
    [20, 6.0, 1.111],
  ])("%s Fr in %s mm is %s", (french, lumenMm, ratio) => {
    const [first] = checksOf(frenchToMm(french), lumenMm);
    expect(first?.value?.value).toBeCloseTo(ratio, 3);
  });

  test("the perimeter over pi is another scale: 24 would be 7.64 mm", () => {
    expect(24 / Math.PI).toBeCloseTo(7.64, 2);
    expect(frenchToMm(24)).not.toBeCloseTo(24 / Math.PI, 1);
  });
});

describe("limits", () => {
  test.each([
    // Heart valve procedures of 2011: recalled. Its test in 2021 was seen: Front Cardiovasc Med, 738854.
    ["sheath-ratio-1-05", "diameter", 1.05, "recalled", "738854"],
    // CT cohort of heart valve procedures, PMID 24659145.
    ["sheath-ratio-1-45", "diameter", 1.45, "seen", "24659145"],
    ["sheath-area-ratio-1-35", "area", 1.35, "seen", "24659145"],
  ])("%s", (id, of, limit, how, source) => {
    const row = accessLimits.ratios.find((one) => one.id === id);
    expect(row).toMatchObject({ of, limit, confirmed: how === "seen" });
    expect(row?.source).toContain(source);
  });

  test("no further ratio is in force", () => {
    expect(accessLimits.ratios).toHaveLength(3);
  });

  test("teaching table: 14 to 16 Fr 6 mm, 17 to 21 Fr 7 mm, 22 to 25 Fr 8 mm; its unit is printed as cm", () => {
    expect(accessLimits.teachingTable.rows).toEqual([
      { fromFr: 14, toFr: 16, leastMm: 6 },
      { fromFr: 17, toFr: 21, leastMm: 7 },
      { fromFr: 22, toFr: 25, leastMm: 8 },
    ]);
    expect(accessLimits.teachingTable.source).toContain("cm");
    expect(accessLimits.teachingTable.confirmed).toBe(true);
  });

  test("conduit: external iliac or femoral artery under 7 mm, surgical handbook, seen", () => {
    expect(accessLimits.conduit).toMatchObject({ limitMm: 7, confirmed: true });
  });

  test("tortuosity grades 1.25, 1.5 and 1.6: recalled", () => {
    expect(accessLimits.tortuosity).toMatchObject({ cutOffs: [1.25, 1.5, 1.6], confirmed: false });
  });

  test("an angle over 90 degrees, calcium all round and a stent or occlusion: common practice", () => {
    const { angle, calcium, obstacles } = accessLimits;
    for (const row of [angle, calcium, obstacles]) {
      expect(row.source).toBe("common practice without a source");
      expect(row.confirmed).toBe(false);
    }
    expect(angle.limitDeg).toBe(90);
  });

  test.each([
    // ACC/AHA 2022 aortic disease guideline, section 6.5.3.2: class 1, level B-NR.
    ["access-alternatives", ["class 1", "B-NR"], "ACC/AHA 2022"],
    // The same, table 18.
    ["access-worse-outcome", ["zone 1 or 2", "iliac access"], "table 18"],
    // Front Cardiovasc Med 2021, 738854: odds ratio and its interval.
    ["access-ratio-tested", ["1.05", "1.18", "0.66 to 2.08", "did not predict"], "738854"],
  ])("statement %s", (id, figures, source) => {
    const row = accessLimits.statements.find((one) => one.id === id);
    for (const figure of figures) expect(row?.says).toContain(figure);
    expect(row?.source).toContain(source);
    expect(row?.confirmed).toBe(true);
  });

  test("the marks reach the result", () => {
    const sources = Object.fromEntries(checksOf(8, 7.5).map(({ id, source }) => [id, source]));
    expect(sources["sheath-ratio-1-05"]).toContain("not confirmed against the source");
    expect(sources["sheath-ratio-1-45"]).not.toContain("not confirmed");
  });
});
