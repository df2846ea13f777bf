import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  largestSection,
  sectionReferences,
  spreadPoints,
} from "../../../src/planning/sizing/sizing-references.ts";
import { evenly } from "../../evenly.ts";
import { section } from "./sizing-samples.ts";

const by = (given: Parameters<typeof section>[0], convention: string) =>
  sectionReferences(section(given)).diameters.find((one) => one.convention === convention);

// The ellipse of 36 by 24 mm: 95.192638 mm around (complete elliptic integral), 678.584013 mm2.
const oval = { maximumMm: 36, minimumMm: 24, perimeterMm: 95.192638, areaMm2: 678.584013 };

describe("sectionReferences", () => {
  test("the reference is by perimeter, else area, else the mean of the axes, else the mean as reported", () => {
    const of = (given: Parameters<typeof section>[0]) =>
      sectionReferences(section(given)).reference;
    expect(of({ ...oval, meanMm: 31 })).toMatchObject({ convention: "perimeter" });
    expect(of({ ...oval, perimeterMm: null })).toMatchObject({
      convention: "area",
      diameterMm: expect.closeTo(29.3939, 4),
    });
    expect(of({ maximumMm: 36, minimumMm: 24, meanMm: 31 })).toEqual({
      convention: "mean",
      diameterMm: 30,
      isEstimated: false,
    });
    expect(of({ meanMm: 31 })).toMatchObject({ convention: "mean as reported", diameterMm: 31 });
  });

  test("all conventions stay beside the one that is used", () => {
    const { diameters } = sectionReferences(section({ ...oval, meanMm: 31 }));
    expect(diameters.map(({ convention }) => convention)).toEqual([
      "perimeter",
      "area",
      "mean",
      "mean as reported",
      "largest",
    ]);
  });

  test("perimeter and area from the axes are marked and are never the reference", () => {
    const axes = { maximumMm: 36, minimumMm: 24 };
    expect(by(axes, "perimeter")).toEqual({
      convention: "perimeter",
      diameterMm: expect.closeTo(30.3008, 4),
      isEstimated: true,
    });
    expect(by({ ...axes, areaMm2: 690 }, "area")).toMatchObject({ isEstimated: false });
    expect(sectionReferences(section(axes)).reference?.convention).toBe("mean");
  });

  test("a true lumen counts by its measured perimeter or area alone", () => {
    const lumen = "true";
    const axes = { lumen, maximumMm: 30, minimumMm: 12, meanMm: 21 } as const;
    expect(sectionReferences(section(axes))).toMatchObject({
      diameters: [],
      reference: null,
      why: "the perimeter or the area of the true lumen is not measured",
    });
    const measured = sectionReferences(section({ ...axes, areaMm2: 282.7433 }));
    expect(measured.diameters).toEqual([
      { convention: "area", diameterMm: expect.closeTo(18.9737, 4), isEstimated: false },
    ]);
  });

  test.each([
    ["the largest diameter alone", { maximumMm: 36 }, "perpendicular to the largest"],
    ["the smallest diameter alone", { minimumMm: 24 }, "perpendicular to the largest"],
    ["nothing", {}, "perpendicular to the largest"],
    ["axes in the wrong order", { maximumMm: 24, minimumMm: 36 }, "is over the largest"],
    ["an area too large", { perimeterMm: 94.2, areaMm2: 730 }, "does not fit inside"],
    ["a problem", { ...oval, problem: "readings of the same exam differ" }, "differ"],
  ])("%s gives no reference and says why", (_, given, why) => {
    const { reference, why: said } = sectionReferences(section(given));
    expect(reference).toBeNull();
    expect(said).toContain(why);
  });

  test("a circle of 30 mm fits its own numbers, rounded so that the area alone looks too large", () => {
    const rounded = sectionReferences(section({ areaMm2: 707, perimeterMm: 94.2 }));
    expect(rounded.reference?.diameterMm).toBeCloseTo(29.985, 3);
  });

  test("of any ellipse: area at most mean at most perimeter, the largest over all", () => {
    const axis = evenly(8, 60);
    fc.assert(
      fc.property(axis, axis, (one, other) => {
        const axes = { maximumMm: Math.max(one, other), minimumMm: Math.min(one, other) };
        const [perimeter, area, mean, largest] = ["perimeter", "area", "mean", "largest"].map(
          (convention) => by(axes, convention)?.diameterMm ?? Number.NaN,
        ) as [number, number, number, number];
        const slack = 1 + 1e-12;
        expect(area).toBeLessThanOrEqual(mean * slack);
        expect(mean).toBeLessThanOrEqual(perimeter * slack);
        expect(perimeter).toBeLessThanOrEqual(largest * slack);
      }),
    );
  });

  test("the spread leaves the largest diameter out", () => {
    const { spreadMm, diameters } = sectionReferences(section(oval));
    expect(spreadMm).toBeCloseTo(30.3008 - 29.3939, 4);
    expect(spreadPoints(34, diameters)).toBeCloseTo(3.46, 2);
    expect(sectionReferences(section({ perimeterMm: 94 })).spreadMm).toBeNull();
    expect(spreadPoints(34, [])).toBeNull();
  });
});

describe("largestSection", () => {
  const of = (...given: Parameters<typeof section>[0][]) =>
    largestSection(given.map((one) => sectionReferences(section(one))));

  test("the largest reference, whatever its convention", () => {
    const found = of(
      { place: "a", perimeterMm: 94 },
      { place: "b", maximumMm: 36, minimumMm: 28 },
      { place: "c", areaMm2: 700 },
    );
    expect(found).toMatchObject({ place: "b", reference: { diameterMm: 32, convention: "mean" } });
  });

  test("each place by its innermost edge", () => {
    const outer = { place: "a", edge: "outer", meanMm: 34 } as const;
    const inner = { place: "a", edge: "inner", meanMm: 31 } as const;
    const unstated = { place: "a", edge: "unstated", meanMm: 33 } as const;
    expect(of(outer, unstated, inner)?.edge).toBe("inner");
    expect(of(outer, unstated)?.edge).toBe("unstated");
    expect(of(inner, { ...outer, place: "b" })?.place).toBe("b");
    expect(of(inner, { ...outer, distanceMm: 20 })?.edge).toBe("outer");
  });

  test("none without a reference", () => {
    expect(of({ maximumMm: 36 })).toBeNull();
  });
});
