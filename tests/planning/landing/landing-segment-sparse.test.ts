import { describe, expect, test } from "vitest";
import type { PathId } from "../../../src/quantities/measured-quantity.ts";
import { segmentChecks } from "../../../src/planning/landing/segment-checks.ts";
import { inventedCase, type InventedDiameter } from "../../guidelines/invented-case.ts";
import { basisOf, segmentOf } from "./sample-segments.ts";
import { landingSegments } from "../../../src/planning/landing/landing-segments.ts";

const largest = (zone: string, mm: number): InventedDiameter => ({ place: `zone-${zone}`, mm });
const length = (zone: string, mm: number, path: PathId = "centreline"): InventedDiameter => ({
  place: `zone-${zone}`,
  mm,
  quantity: "length",
  path,
});
const sound = (zone: string, mm: number, path: PathId): InventedDiameter => ({
  place: `zone-${zone}`,
  mm,
  quantity: "sound-length",
  path,
});
const caseOf = (readings: InventedDiameter[]) => inventedCase(readings, { archVariants: [] });

describe("from values of whole zones", () => {
  // Zone 2 is 12 mm and zone 3 2 cm by its definition; both hold. Zone 4 does not hold: it may in part, over up to its 80 mm.
  test("zones that hold count in full, the one that fails widens the range", () => {
    const readings = [
      largest("2", 33),
      length("2", 12),
      largest("3", 34),
      largest("4", 55),
      length("4", 80),
    ];
    const segment = segmentOf(caseOf(readings), "proximal", "2");
    expect(segment).toMatchObject({
      basis: "zone values",
      startMm: null,
      lengthMm: { value: 32, low: 32, high: 112 },
      endedBy: { condition: "diameter-38" },
    });
    expect(segment.endedBy.what).toContain("At the latest in zone 4: largest diameter 55.0 mm");
    expect(segment.notAssessed.map(({ condition }) => condition)).toContain("widening-2");
    expect(segment.spacing.words).toContain("One set of values for each zone, up to 20.0 mm long.");
  });

  // 37 + 1.96 is over 38 mm: zone 3 is not sure, so that at least 12 mm are.
  test("a zone that may not hold within the reading error is not in the low end", () => {
    const readings = [largest("2", 33), length("2", 12), largest("3", 37)];
    expect(segmentOf(caseOf(readings), "proximal", "2").lengthMm).toMatchObject({
      value: 32,
      low: 12,
    });
  });

  test("a zone that fails at once gives nothing for sure, and up to itself and what follows", () => {
    const readings = [largest("3", 45), largest("4", 34), length("4", 80)];
    const segment = segmentOf(caseOf(readings), "proximal", "3");
    expect(segment.lengthMm).toEqual({ value: 0, low: 0, high: 100 });
    expect(segment.missing).toContain("largest diameter of zone 5");
  });

  test("distal segments go up: zone 5, then zone 4", () => {
    const readings = [
      largest("5", 28),
      length("5", 110),
      largest("4", 33),
      length("4", 80),
      largest("3", 44),
    ];
    expect(segmentOf(caseOf(readings), "distal", "5").lengthMm).toEqual({
      value: 190,
      low: 190,
      high: 210,
    });
  });

  test("an end where nothing is measured leaves the length open", () => {
    const readings = [largest("2", 33), length("2", 12)];
    const segment = segmentOf(caseOf(readings), "proximal", "2");
    expect(segment.endedBy.condition).toBe("sections-end");
    expect(segmentChecks(segment)[0]).toMatchObject({ outcome: "not-assessable" });
    expect(segmentChecks(segment)[0]?.missing).toContain("largest diameter of zone 3");
  });

  test("both sides as measured for each zone", () => {
    const readings = [
      largest("2", 33),
      length("2", 12),
      length("2", 8, "inner-curve"),
      length("2", 17, "outer-curve"),
      largest("3", 45),
    ];
    const { innerMm, outerMm } = segmentOf(caseOf(readings), "proximal", "2");
    expect([innerMm?.value, outerMm?.value]).toEqual([8, 17]);
  });
});

describe("a sound length as stated", () => {
  test("stands before values of whole zones, with its paths and without an error", () => {
    const segment = segmentOf(
      caseOf([
        largest("2", 33),
        length("2", 12),
        sound("2", 26, "centreline"),
        sound("2", 21, "inner-curve"),
      ]),
      "proximal",
      "2",
    );
    expect(segment).toMatchObject({
      basis: "sound length as stated",
      lengthMm: { value: 26 },
      innerMm: { value: 21 },
    });
    // 21 mm along the inner curve is over 20 and under 25.
    expect(segmentChecks(segment).slice(0, 2)).toMatchObject([
      { outcome: "met", value: { value: 21, low: null, high: null } },
      { outcome: "not-met", spansLimit: false },
    ]);
  });

  test("along the centreline alone it can't meet a length in a bend", () => {
    const of = (zone: string) =>
      segmentChecks(segmentOf(caseOf([sound(zone, 26, "centreline")]), "proximal", zone))[0]
        ?.outcome;
    expect(of("2")).toBe("not-assessable");
    expect(of("4")).toBe("met");
  });

  test("from before a repair of the zone it is not used", () => {
    const patientCase = inventedCase([sound("3", 30, "centreline")], {
      archVariants: [],
      priorRepairs: [
        { words: "stent graft 2026-04", date: "2026-04", zones: ["3"], kinds: ["stent graft"] },
      ],
    });
    const segment = segmentOf(patientCase, "proximal", "3");
    expect(segment.basis).toBe("none");
    expect(segment.missing).toContain(
      "measurements of zone 3 after its repair (stent graft 2026-04)",
    );
  });
});

test("with nothing measured every zone is there and names what it would take", () => {
  const { proximal, distal } = landingSegments(caseOf([]), basisOf());
  expect(proximal.map(({ zone }) => zone)).toEqual(["0", "1", "2", "3", "4"]);
  expect(distal.map(({ zone }) => zone)).toEqual(["2", "3", "4", "5"]);
  for (const segment of [...proximal, ...distal]) {
    expect(segment).toMatchObject({ basis: "none", lengthMm: null });
    expect(segment.missing).toEqual([
      "centreline of the aorta with sections",
      `sound length in zone ${segment.zone}`,
      `largest diameter of zone ${segment.zone}`,
    ]);
    expect(
      segmentChecks(segment).every(
        ({ outcome, missing }) => outcome === "not-assessable" && missing.length > 0,
      ),
    ).toBe(true);
  }
});
