import { describe, expect, test } from "vitest";
import type { PatientCase } from "../../../src/cases/patient-case.ts";
import { dissectionOf } from "../../../src/cases/dissection.ts";
import { priorRepairsOf } from "../../../src/cases/prior-repairs.ts";
import { coverages } from "../../../src/planning/landing/coverage.ts";
import { landingSegments } from "../../../src/planning/landing/landing-segments.ts";
import {
  type LandingSizing,
  type LandingSizingBasis,
  landingSizings,
} from "../../../src/planning/sizing/landing-sizing.ts";
import { sampleFinding, sampleReading } from "../../cases/sample-documents.ts";
import {
  asOf as lineDay,
  inventedCase,
  type InventedDiameter,
} from "../../guidelines/invented-case.ts";
import { diameters, ofWholeLumen, readBasis, readCase } from "../landing/read-cases.ts";
import { basisOf, everyFive, type Given, lineCase, marks } from "../landing/sample-segments.ts";
import { row } from "./sizing-samples.ts";

/** Sizings of a case, by the segments of the strictest conditions and what they cover, as the whole plan takes them. */
function sizingsOf(
  patientCase: PatientCase,
  basis: ReturnType<typeof basisOf>,
  inventory: LandingSizingBasis["inventory"] = null,
): LandingSizing[] {
  const all = landingSegments(patientCase, basis);
  const strictest = <T extends { conditions: string }>(list: readonly T[]): T[] =>
    list.filter(({ conditions }) => conditions === "strictest published");
  const segments = { proximal: strictest(all.proximal), distal: strictest(all.distal) };
  const { pairs } = coverages(segments.proximal, segments.distal);
  return landingSizings(patientCase, segments, pairs, { ...basis, inventory });
}

/** Sizings of an invented case with readings of 2026-01-12. */
const ofReadings = (...given: Parameters<typeof readCase>) => {
  const patientCase = readCase(...given);
  return sizingsOf(patientCase, readBasis(patientCase));
};
const ofZone = (sizings: readonly LandingSizing[], zone: string) =>
  sizings.filter(({ fromZone }) => fromZone === zone);
const proximalOf = (sizings: readonly LandingSizing[], zone: string) =>
  ofZone(sizings, zone)[0]?.sizing.proximal;
const vesselMm = (sizings: readonly LandingSizing[], zone: string) =>
  proximalOf(sizings, zone)?.reference?.reference.diameterMm;

describe("an end sized from the sizes of its zone", () => {
  test("worked by hand: 32 by 28 mm is 30 mm; 10 to 20 % is 33 to 36 mm; with 1.96 mm of error 35.156 to 33.648 mm, none for sure", () => {
    const [only, ...others] = ofReadings(diameters("zone 2", "32", "28"), undefined, {
      priorRepair: "none",
    });
    expect(others).toEqual([]);
    expect(only).toMatchObject({ fromZone: "2", toZone: null });
    const end = only?.sizing.proximal;
    expect(end?.reference).toMatchObject({ edge: "inner", reference: { diameterMm: 30 } });
    // 31.96 x 1.1 = 35.156; 28.04 x 1.2 = 33.648.
    const window = end?.windows.find(({ window: { id } }) => id === "aneurysm-10-to-20");
    expect(window?.interval?.graftLowMm).toBeCloseTo(33, 9);
    expect(window?.interval?.graftHighMm).toBeCloseTo(36, 9);
    expect(window?.interval?.surelyInsideLowMm).toBeCloseTo(35.156, 9);
    expect(window?.interval?.surelyInsideHighMm).toBeCloseTo(33.648, 9);
    expect(only?.sizing.missing).toContain("length to be covered, fabric edge to fabric edge");
  });

  test("a zone without sizes has no sizing", () => {
    expect(
      ofReadings([sampleReading("mid-descending aorta", "57")]).map(({ fromZone }) => fromZone),
    ).not.toContain("2");
    expect(ofReadings([])).toEqual([]);
  });

  test.each([
    ["one diameter alone", [sampleReading("zone 2", "32", { edge: "inner" })]],
    [
      "the largest and the smallest of different edges",
      [
        sampleReading("zone 2", "36", { edge: "inner" }, "first"),
        sampleReading("zone 2", "24", { edge: "outer", statistic: "minimum" }, "second"),
      ],
    ],
  ])("%s is not taken for a round vessel", (_, readings) => {
    const [only] = ofReadings(readings);
    expect(only?.sizing.proximal.reference).toBeNull();
    expect(only?.sizing.missing.join()).toContain("perpendicular to the largest");
  });

  test("of several exams the latest up to the day that has sizes of the zone", () => {
    const both = (exam: string, mm: number): InventedDiameter[] => [
      { place: "zone-2", mm, exam },
      { place: "zone-2", mm: mm - 4, exam, statistic: "minimum" },
    ];
    const readings = [
      ...both("2024-03-02", 30),
      ...both("2025-03-02", 34),
      ...both("2026-05-02", 38),
    ];
    const on = (asOf: string) =>
      vesselMm(sizingsOf(inventedCase(readings, { archVariants: [] }), basisOf({ asOf })), "2");
    expect([lineDay, "2026-01-01", "2025-01-01"].map(on)).toEqual([36, 32, 28]);
  });
});

describe("the wall and the diagnosis of an end", () => {
  const sizes = diameters("zone 2", "32", "28");
  const windowsOf = (...given: Parameters<typeof readCase>) =>
    proximalOf(ofReadings(...given), "2")?.situations.map(({ id }) => id);
  const none = { priorRepair: "none" };

  test("native, graft, stent graft, or not known", () => {
    expect(windowsOf(sizes, undefined, none)).toEqual(["aneurysm"]);
    const repaired = (priorRepair: string) => windowsOf(sizes, undefined, { priorRepair });
    expect(repaired("graft, zone 2, 2020-05")).toEqual(["surgical-graft"]);
    expect(repaired("stent graft, zone 2, 2020-05")).toEqual(["stent-graft"]);
    expect(repaired("frozen elephant trunk, zones 2 to 3, 2020-05")).toEqual(["stent-graft"]);
    const open = proximalOf(ofReadings(sizes, undefined, { priorRepair: "graft, 2020-05" }), "2");
    expect(open?.windows).toEqual([]);
    expect(open?.missing.join()).toContain("the wall at the proximal end (which zones");
    expect(open?.reference).not.toBeNull();
  });

  test("an exam from before a repair of the zone sizes nothing", () => {
    expect(
      ofZone(ofReadings(sizes, undefined, { priorRepair: "graft, zone 2, 2026-01-13" }), "2"),
    ).toEqual([]);
  });

  test("a blunt traumatic injury that the case sheet states has its window", () => {
    const end = proximalOf(ofReadings(sizes, "blunt traumatic injury", none), "2");
    expect(end?.situations.map(({ id }) => id)).toEqual(["blunt-trauma"]);
    // 0 to 10 % of 30 mm (expert panel in a trade journal, November 2018).
    expect(end?.windows).toMatchObject([
      { window: { id: "blunt-trauma-0-to-10" }, interval: { graftLowMm: 30 } },
    ]);
    expect(end?.windows[0]?.interval?.graftHighMm).toBeCloseTo(33, 9);
    expect(end?.missing).toEqual([]);
  });

  test("without a diagnosis there is no window, and that is said", () => {
    const end = proximalOf(ofReadings(ofWholeLumen(sizes), null, none), "2");
    expect(end?.windows).toEqual([]);
    expect(end?.missing).toContain("diagnosis");
  });

  test("in a dissection a diameter that does not name its lumen is not used", () => {
    const typeB = "type B dissection";
    // B_3: from zone 3 on, so that zone 2 is free of it. The onset of 2020 makes it chronic.
    const stated = { ...none, dissection: "B_3,9" };
    expect(proximalOf(ofReadings(sizes, typeB, stated), "2")?.reference).toBeNull();
    const end = proximalOf(ofReadings(ofWholeLumen(sizes), typeB, stated), "2");
    expect(end?.reference?.reference.diameterMm).toBe(30);
    expect(end?.situations.map(({ id }) => id)).toEqual(["chronic-dissection"]);
    expect(end?.windows[0]?.window).toMatchObject({ lowPercent: 0, highPercent: 10 });
  });

  test("findings of a dissection beside a diagnosis without one give no window of an aneurysm", () => {
    const findings = [sampleFinding("zone 3", "dissection", "present")];
    const end = proximalOf(ofReadings(ofWholeLumen(sizes), undefined, { ...none, findings }), "2");
    expect(end?.reference).not.toBeNull();
    expect(end?.windows).toEqual([]);
    expect(end?.missing.join()).toContain("the dissection in the diagnosis");
  });
});

describe("ends sized along a centreline", () => {
  // Invented: sound and round by perimeter but for an aneurysm from 160 to 200 mm, where nothing lands.
  const isWide = (mm: number) => mm > 155 && mm < 205;
  const of = (mm: number): Given => {
    if (isWide(mm)) return { maximumMm: 60, minimumMm: 58 };
    return mm < 180 ? { maximumMm: 34, minimumMm: 32 } : { maximumMm: 30, minimumMm: 28 };
  };
  const line = lineCase([...marks, ...everyFive(of)], {
    diagnoses: ["descending thoracic aneurysm"],
  });
  const sizings = sizingsOf(line, basisOf(), [row("G36", 36, 32), row("G44", 44, 44)]);

  test("one sizing for each distal stretch beyond the disease, each with its covered length", () => {
    // Zone 3 begins at 80 mm. Beyond the disease the distal stretch of zone 5 alone lies, from 205 to 300 mm.
    const own = ofZone(sizings, "3");
    expect(own.map(({ toZone }) => toZone)).toEqual(["5"]);
    // To 20 mm inside the distal stretch 205 + 20 - 80 = 145 mm, to its end 300 - 80 = 220 mm.
    expect(own[0]?.sizing.coverage).toEqual({ leastMm: 145, mostMm: 220 });
    expect(own[0]?.sizing.pieces.length).toBeGreaterThan(0);
  });

  test("by the sections of the stretch within 25 mm of its beginning, or in its zone", () => {
    const placesOf = (zone: string, end: "proximal" | "distal") =>
      ofZone(sizings, zone)[0]?.sizing[end].sections.map(({ distanceMm }) => distanceMm);
    // Zone 1 is the 8 mm from 60 mm on: up to 60 + 25 = 85 mm.
    expect(placesOf("1", "proximal")).toEqual([60, 65, 70, 75, 80, 85]);
    // Zone 0 ends at 60 mm: all of it, and no more, for 0 + 25 lies inside.
    expect(placesOf("0", "proximal")).toEqual([0, 5, 10, 15, 20, 25, 30, 35, 40, 45, 50, 55, 60]);
    // The distal end of zone 5, from its last section up to its border at 180 mm or the beginning of the stretch at 205.
    expect(placesOf("3", "distal")?.at(0)).toBe(205);
    expect(placesOf("3", "distal")?.at(-1)).toBe(300);
  });

  test("the vessel of an end is the largest section, by the mean of its axes", () => {
    expect(vesselMm(sizings, "2")).toBe(33);
    expect(ofZone(sizings, "2")[0]?.sizing.distal.reference?.reference.diameterMm).toBe(29);
    const larger = sizingsOf(
      lineCase([
        ...marks,
        ...everyFive((mm) => (mm === 90 ? { maximumMm: 35.5, minimumMm: 34.5 } : of(mm))),
      ]),
      basisOf(),
    );
    // Zone 2 begins at 68 mm and 90 - 68 = 22 mm; zone 1 at 60 mm and 90 - 60 = 30 mm, over 25 mm.
    expect([vesselMm(larger, "2"), vesselMm(larger, "1")]).toEqual([35, 33]);
  });

  test("the inventory is laid beside both ends", () => {
    const { inventory } = ofZone(sizings, "3")[0]?.sizing ?? {};
    // 33 mm with 10 to 20 %: 36.3 to 39.6 mm; 29 mm: 31.9 to 34.8 mm. 36 mm is 9.1 % over 33 mm, 0.3 mm too small.
    expect(inventory?.rows.map(({ id }) => id)).toEqual(["G36", "G44"]);
    const first = inventory?.answers.find(({ proximal, distal }) =>
      [proximal, distal].every((id) => id === "aneurysm-10-to-20"),
    );
    expect(first?.fits).toEqual([]);
  });

  test("a graft over the ascending aorta leaves the distal end native", () => {
    const repaired = lineCase(
      [...marks, ...everyFive((mm) => ({ ...of(mm), wall: mm < 60 ? "graft" : "native" }))],
      {
        diagnoses: ["descending thoracic aneurysm"],
        priorRepairs: priorRepairsOf("graft, zone 0, 2018"),
      },
    );
    const zero = ofZone(sizingsOf(repaired, basisOf()), "0").find(({ toZone }) => toZone === "5");
    const ids = (end: "proximal" | "distal") => zero?.sizing[end].situations.map(({ id }) => id);
    expect(ids("proximal")).toEqual(["surgical-graft"]);
    expect(ids("distal")).toEqual(["aneurysm"]);
  });

  test("without a distal stretch beyond the disease the proximal end stands alone", () => {
    const open = sizingsOf(
      lineCase([
        ...marks,
        ...everyFive((mm) => (mm > 155 ? { maximumMm: 60, minimumMm: 58 } : of(mm))),
      ]),
      basisOf(),
    );
    expect(ofZone(open, "3")).toMatchObject([{ toZone: null, sizing: { coverage: null } }]);
    expect(ofZone(open, "3")[0]?.sizing.missing).toContain(
      "a section of the whole lumen at the distal end",
    );
  });
});

describe("a graft that ends in dissected wall", () => {
  // Invented: type B from 100 mm on, where zone 4 begins; true lumen by its perimeter, narrower further down.
  const typeB = {
    diagnoses: ["type B dissection"],
    onsetDate: "2026-05-20",
    dissectionWords: "B_4,9",
    priorRepairs: [],
  };
  const dissected = (mm: number): Given =>
    mm < 100
      ? { maximumMm: 32, minimumMm: 30 }
      : { wall: "dissected", lumen: "true", maximumMm: null, perimeterMm: mm < 250 ? 66 : 60 };
  const sizingsIn = (patientCase: PatientCase) =>
    sizingsOf(patientCase, basisOf({ dissection: dissectionOf(patientCase, lineDay) }));
  const sizings = sizingsIn(lineCase([...marks, ...everyFive(dissected)], typeB));

  test("is sized by the undissected wall above and the true lumen below, zone by zone", () => {
    const own = ofZone(sizings, "2");
    expect(own.map(({ toZone }) => toZone)).toEqual(["4", "5"]);
    for (const { sizing } of own) {
      // Onset 12 days before: acute.
      expect(sizing.proximal).toMatchObject({
        lumen: "whole",
        situations: [{ id: "acute-dissection" }],
        reference: { reference: { diameterMm: 31 } },
      });
      expect(sizing.distal).toMatchObject({
        lumen: "true",
        situations: [{ id: "true-lumen-end" }],
      });
      // 66 mm / pi = 21.008 mm.
      expect(sizing.distal.reference?.reference.diameterMm).toBeCloseTo(21.008, 3);
      expect(sizing.trueLumen).not.toBeNull();
    }
  });

  test("by the sections of the zone, and the covered length is named as missing", () => {
    // Zone 4 from 100 to 180 mm, zone 5 from 180 to 300 mm.
    const ends = ofZone(sizings, "2").map(({ sizing: { distal, coverage, missing } }) => {
      const at = distal.sections.map(({ distanceMm }) => distanceMm);
      return [
        at.at(0),
        at.at(-1),
        coverage,
        missing.includes("length to be covered, fabric edge to fabric edge"),
      ];
    });
    expect(ends).toEqual([
      [100, 180, null, true],
      [180, 300, null, true],
    ]);
  });

  test("lies beyond the zone that the graft begins in", () => {
    for (const { fromZone, toZone } of sizings) {
      if (toZone !== null) expect(Number(toZone)).toBeGreaterThan(Number(fromZone));
    }
  });

  test("is sized by the sizes of the zone without a centreline", () => {
    const readings: InventedDiameter[] = [
      { place: "zone-2", mm: 32, edge: "inner" },
      { place: "zone-2", mm: 30, edge: "inner", statistic: "minimum" },
      { place: "zone-4", mm: 66, quantity: "perimeter", statistic: "unstated", lumen: "true" },
    ];
    const own = ofZone(sizingsIn(inventedCase(readings, { ...typeB, archVariants: [] })), "2");
    expect(own.map(({ toZone }) => toZone)).toEqual(["4"]);
    expect(own[0]?.sizing.distal.reference).toMatchObject({ lumen: "true", used: ["M2"] });
  });

  test("takes a true lumen measured in the zone where the stations show the whole vessel alone", () => {
    const whole = (mm: number): Given =>
      mm < 100 ? dissected(mm) : { wall: "dissected", maximumMm: 42, minimumMm: 40 };
    const perimeter: InventedDiameter = {
      place: "zone-5",
      mm: 63,
      quantity: "perimeter",
      statistic: "unstated",
      lumen: "true",
    };
    const own = ofZone(
      sizingsIn(lineCase([...marks, ...everyFive(whole)], typeB, [perimeter])),
      "2",
    );
    const [four, five] = own.map(({ sizing: { distal } }) => distal);
    expect(four?.reference).toBeNull();
    expect(four?.missing).toContain("a section of the true lumen at the distal end");
    // 63 mm / pi = 20.054 mm.
    expect(five?.reference?.reference.diameterMm).toBeCloseTo(20.054, 3);
  });

  test("is left out where the wall below is not known to be dissected", () => {
    const open = lineCase(
      [...marks, ...everyFive((mm) => (mm < 100 ? dissected(mm) : { maximumMm: 60 }))],
      {
        ...typeB,
        dissectionWords: null,
      },
    );
    expect(ofZone(sizingsIn(open), "2").map(({ toZone }) => toZone)).toEqual([null]);
  });
});
