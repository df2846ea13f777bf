import { describe, expect, test } from "vitest";
import { expectOptionsGolden } from "./options-golden.ts";
import { cordOf, optionOf, segmentOf, sizingOf, workedCase } from "./worked-case.ts";

// Invented: no centreline. Largest diameters and lengths of whole zones, in zones 2 and 3 also along both curves.
const caseSheet = `diagnosis,arch_variant,aetiology,prior_repair
descending thoracic aneurysm,usual,degenerative,none`;
const worked = workedCase({
  id: "WORKED-03",
  caseSheet,
  measurements: `zone 2,diameter,maximum,whole,inner,32,mm
zone 2,diameter,minimum,whole,inner,30,mm
zone 2,length along the centreline,,,,18,mm
zone 2,length along the inner curve,,,,11,mm
zone 2,length along the outer curve,,,,25,mm
zone 3,diameter,maximum,whole,inner,33,mm
zone 3,length along the centreline,,,,20,mm
zone 3,length along the inner curve,,,,12,mm
zone 3,length along the outer curve,,,,28,mm
zone 4,diameter,maximum,whole,inner,45,mm
zone 4,length along the centreline,,,,90,mm
zone 5,diameter,maximum,whole,inner,30,mm
zone 5,length along the centreline,,,,120,mm`,
});

const checkOf = (zone: string, id: string) =>
  optionOf(worked, zone).checks.find((check) => check.id === id);

describe("values of whole zones with lengths", () => {
  test("zone 2: zones 2 and 3 count in full, zone 4 fails", () => {
    const segment = segmentOf(worked, "proximal", "2");
    expect(segment.basis).toBe("zone values");
    // 32 and 33 mm hold with their error (34.96 <= 38): 18 + 20 = 38. Zone 4, 45 mm, may hold in part: + 90 = 128.
    expect(segment.lengthMm).toEqual({ value: 38, low: 38, high: 128 });
    expect(segment.endedBy.condition).toBe("diameter-38");
    // Inner 11 + 12 = 23, outer 25 + 28 = 53; at the most in proportion: 23 x 128 / 38 = 77.474.
    expect(segment.innerMm).toEqual({ value: 23, low: 23, high: expect.closeTo(77.474, 3) });
    expect(segment.outerMm?.value).toBe(53);
  });

  test("zone 2: 23 mm fall short of 25 mm; 20 mm stay open, as no sections show taper, thrombus and calcium", () => {
    expect(checkOf("2", "seal-length-25")).toMatchObject({ outcome: "not-met", spansLimit: true });
    expect(checkOf("2", "seal-length-20")).toMatchObject({
      outcome: "not-assessable",
      spansLimit: false,
    });
    expect(checkOf("2", "seal-length-20")?.missing).toContain("sections along zone 2, 3");
    // 32 + 1.96 = 33.96: under 38 and 40.
    expect(checkOf("2", "diameter-38")).toMatchObject({ outcome: "met", spansLimit: false });
  });

  test("zone 3: 20 mm on the centreline are 12 mm on the inner curve", () => {
    // 20 (zone 3), at most 20 + 90 = 110; inner 12, at most 12 x 110 / 20 = 66: holds 20 and 25.
    const segment = segmentOf(worked, "proximal", "3");
    expect(segment.lengthMm).toEqual({ value: 20, low: 20, high: 110 });
    expect(segment.innerMm).toEqual({ value: 12, low: 12, high: expect.closeTo(66, 9) });
    expect(checkOf("3", "seal-length-20")).toMatchObject({ outcome: "not-met", spansLimit: true });
    expect(checkOf("3", "seal-length-25")).toMatchObject({ outcome: "not-met", spansLimit: true });
  });

  test("a radius of which the line is not stated gives no inner curve", () => {
    const other = workedCase({
      id: "WORKED-03-RADIUS",
      caseSheet,
      measurements: `zone 2,diameter,maximum,whole,inner,32,mm
zone 2,length along the centreline,,,,26,mm
zone 2,radius of curvature,,,,40,mm`,
    });
    // 26 mm reach 20 and 25 mm on the centreline; on the inner curve, which is shorter, nobody knows.
    for (const check of optionOf(other, "2").checks.slice(0, 2)) {
      expect(check.outcome).toBe("not-assessable");
      expect(check.missing).toContain("length along the inner curve from zone 2 on");
    }
    expect(segmentOf(other, "proximal", "2").missing).toContain(
      "whether the radius of curvature is of the centreline",
    );
  });

  test("zone 4 fails as a whole; 45 mm is surely over 40 mm", () => {
    // 0 as written; it may hold in part and zone 5 (30 mm) behind it: 90 + 120 = 210.
    expect(segmentOf(worked, "proximal", "4").lengthMm).toEqual({ value: 0, low: 0, high: 210 });
    // 45 - 1.96 = 43.04.
    expect(checkOf("4", "diameter-40")).toMatchObject({ outcome: "not-met", spansLimit: false });
  });

  test("zone 0 is not measured", () => {
    expect(segmentOf(worked, "proximal", "0").basis).toBe("none");
    expect(checkOf("0", "seal-length-20")?.missing).toContain("largest diameter of zone 0");
  });

  test("distal zone 5: 120 mm; no places on a line, so no coverage but what it is at most", () => {
    expect(segmentOf(worked, "distal", "5").lengthMm).toEqual({ value: 120, low: 120, high: 210 });
    expect(worked.planning.coverages).toEqual([]);
    // Zones 2 to 5 down to the coeliac artery: 18 + 20 + 90 + 120 = 248; zone 4 on: 90 + 120 = 210; both over 205.
    expect(cordOf(worked, "2").lengthMm).toMatchObject({ leastMm: null, mostMm: 248 });
    expect(cordOf(worked, "4").lengthMm).toMatchObject({ leastMm: null, mostMm: 210 });
    expect(cordOf(worked, "2").checks[0]).toMatchObject({
      outcome: "not-assessable",
      missing: ["covered length from zone 2"],
    });
  });

  test("sizing of the proximal end in zone 2 alone", () => {
    const { proximal, inventory } = sizingOf(worked, "2", null);
    // (32 + 30) / 2 = 31; 31 x 1.1 = 34.1 to 31 x 1.2 = 37.2: 36 mm at the proximal end.
    expect(proximal.reference?.reference).toMatchObject({ convention: "mean", diameterMm: 31 });
    expect(inventory?.answers[0]?.ends[0]?.inside).toEqual(["G36T", "G36"]);
    // No place for the distal end: no row is said to fit.
    expect(inventory?.answers[0]?.fits).toEqual([]);
  });

  test("stored outcomes", () => expectOptionsGolden("WORKED-03", worked));
});
