import { describe, expect, test } from "vitest";
import { coverages } from "../../../src/planning/landing/coverage.ts";
import type { LandingSegment } from "../../../src/planning/landing/landing-segment.ts";

const end = { what: "", condition: null, atMm: null, used: [], source: null };
const segment = (
  side: "proximal" | "distal",
  zone: string,
  startMm: number | null,
  endMm: number | null,
  exam = "2024-05-06",
): LandingSegment => ({
  end: side,
  zone,
  basis: "centreline",
  exam,
  date: exam,
  conditions: "strictest published",
  surface: "native",
  leftOut: [],
  startMm,
  endMm,
  zoneStartMm: startMm === null ? null : startMm - 4,
  zoneEndMm: null,
  lengthMm: null,
  innerMm: null,
  outerMm: null,
  curveMethod: null,
  begunBy: end,
  endedBy: end,
  notAssessed: [],
  spacing: { largestMm: null, neededMm: null, words: "" },
  stations: startMm === null ? [] : [`S${startMm}`, `S${endMm}`],
  used: [],
  missing: [],
});

describe("coverages", () => {
  test("from the beginning of the proximal stretch to 20 mm inside the distal one, and to its end", () => {
    // Zone 2 begins at 100 mm; the distal stretch runs from 250 to 310: 250 + 20 - 100 = 170, 310 - 100 = 210.
    const { pairs, missing } = coverages(
      [segment("proximal", "2", 100, 130)],
      [segment("distal", "5", 250, 310)],
    );
    expect(pairs).toEqual([
      {
        fromZone: "2",
        toZone: "5",
        leastMm: 170,
        mostMm: 210,
        beyondBorderMm: 4,
        used: ["S100", "S250", "S310"],
      },
    ]);
    expect(missing).toEqual([]);
  });

  test("a distal stretch shorter than 20 mm is taken to its end", () => {
    const { pairs } = coverages(
      [segment("proximal", "3", 100, 130)],
      [segment("distal", "4", 200, 212)],
    );
    expect(pairs).toMatchObject([{ leastMm: 112, mostMm: 112 }]);
  });

  test("a distal stretch that begins where the proximal one ends lies beyond it", () => {
    // 130 + 20 - 100 = 50 mm; 310 - 100 = 210 mm. 0.1 x 3 x 100 + 100 is a little over 130 in binary.
    const upper = segment("proximal", "2", 100, 100 + 0.1 * 3 * 100);
    const { pairs } = coverages([upper], [segment("distal", "5", 130, 310)]);
    expect(pairs).toMatchObject([{ leastMm: 50, mostMm: 210 }]);
  });

  test("every pair of stretches that lie one beyond the other; a zone with none is named", () => {
    // The stretch of zone 3 goes on to 280 mm, beyond the beginning of both distal ones.
    const { pairs, missing } = coverages(
      [segment("proximal", "2", 100, 130), segment("proximal", "3", 130, 280)],
      [segment("distal", "4", 200, 230), segment("distal", "5", 250, 310)],
    );
    expect(pairs.map(({ fromZone, toZone }) => `${fromZone} to ${toZone}`)).toEqual([
      "2 to 4",
      "2 to 5",
    ]);
    expect(missing.map(({ zone }) => zone)).toEqual(["3"]);
  });

  test.each([
    ["without distances", segment("distal", "5", null, null)],
    ["of another exam", segment("distal", "5", 250, 310, "2023-01-01")],
    ["that begins before the proximal one", segment("distal", "4", 90, 130)],
    ["that begins within the proximal one", segment("distal", "5", 129.9, 310)],
    ["that is the same stretch", segment("distal", "5", 100, 130)],
  ])("a distal stretch %s gives no pair, and what is missing is named", (_, lower) => {
    const { pairs, missing } = coverages([segment("proximal", "2", 100, 130)], [lower]);
    expect(pairs).toEqual([]);
    expect(missing).toEqual([
      {
        zone: "2",
        what: "the aortic centreline of one exam from zone 2 to a distal landing",
      },
    ]);
  });
});
