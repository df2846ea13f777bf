import { describe, expect, test } from "vitest";
import { landingStrip } from "../../../src/report/charts/landing-strip.ts";
import { overlaps } from "../../../src/report/charts/spread-labels.ts";
import type { Plan } from "../../../src/report/plan.ts";
import { samplePlan } from "../sample-plan.ts";
import { alternativeText, svgTexts } from "../svg-texts.ts";

type Segment = Plan["options"][number]["segments"][number];
type Station = Plan["centrelines"][number]["stations"][number];

const line = samplePlan.centrelines[0]!;
const segmentOf = (
  zone: string,
  [startMm, endMm]: [number | null, number | null],
  more: Partial<Segment> = {},
): Segment => {
  const sample = samplePlan.options.flatMap(({ segments }) => segments)[0]!;
  const value = (endMm ?? 0) - (startMm ?? 0);
  const lengthMm = { value, low: value, high: value + 4 };
  return {
    ...sample,
    zone,
    startMm,
    endMm,
    lengthMm,
    basis: "centreline",
    exam: line.exam,
    conditions: "strictest published",
    ...more,
  };
};

const station = samplePlan.centrelines[0]!.stations[0]!;
const sized = (distanceMm: number, maximumMm: number): Station => ({
  ...station,
  distanceMm,
  maximumMm,
  mark: null,
  lumen: "whole",
});
const marked = (distanceMm: number, label: string, edge: string | null): Station =>
  ({
    ...station,
    distanceMm,
    maximumMm: null,
    mark: { place: { id: label, kind: "branch", label }, edge },
  }) as Station;

/** An invented aorta of 300 mm with stretches at its begin and at its end. */
const invented = (
  { proximal, distal }: { proximal: Segment[]; distal: Segment[] },
  stations: Station[] = [
    marked(0, "sinotubular junction", null),
    marked(60, "innominate artery", "proximal edge"),
    marked(72, "innominate artery", "distal edge"),
    marked(80, "left common carotid artery", "distal edge"),
    marked(300, "coeliac artery", "proximal edge"),
    ...[0, 50, 100, 150, 200, 250, 300].map((mm) => sized(mm, mm === 150 ? 57.5 : 31.2)),
  ],
): Plan => ({
  ...samplePlan,
  centrelines: [
    { ...line, stations: stations.toSorted((one, other) => one.distanceMm - other.distanceMm) },
  ],
  options: proximal.map((segment) => ({
    ...samplePlan.options[0]!,
    zone: segment.zone as Plan["options"][number]["zone"],
    segments: [segment],
  })),
  distalLandings: distal.map((segment) => ({
    ...samplePlan.distalLandings[0]!,
    zone: segment.zone as Plan["distalLandings"][number]["zone"],
    segments: [segment],
  })),
});

const widthPt = 523;
function draw(plan: Plan) {
  const strip = landingStrip(plan, { id: "s", widthPt });
  if (!strip) throw new Error("no centreline");
  return strip;
}

const simple = invented({
  proximal: [segmentOf("0", [0, 96]), segmentOf("2", [80, 118])],
  distal: [segmentOf("5", [238, 300])],
});
const both = (() => {
  const plan = invented({ proximal: [segmentOf("0", [0, 96])], distal: [] });
  const [option] = plan.options;
  const widest = segmentOf("0", [0, 140], { conditions: "widest published" });
  return { ...plan, options: [{ ...option!, segments: [...option!.segments, widest] }] };
})();

/** Left and width of the rectangles of a class, in points. */
const rectangles = (svg: string, name: string): [number, number][] =>
  [
    ...svg.matchAll(
      new RegExp(`<rect x="([\\d.]+)"[^>]* width="([\\d.]+)"[^>]* class="${name}"`, "g"),
    ),
  ].map(([, x, width]) => [Number(x), Number(width)]);

describe("landing stretches along the centreline", () => {
  test.each([
    ["of the sample", samplePlan],
    ["at the begin and at the end", simple],
    ["under two sets of limits", both],
    [
      "over the whole line",
      invented({ proximal: [segmentOf("0", [0, 300])], distal: [segmentOf("5", [1, 300])] }),
    ],
    [
      "with many marks close together",
      invented({ proximal: [segmentOf("0", [0, 10])], distal: [] }, [
        ...[0, 20, 24, 30, 34, 40, 290, 300].map((mm) =>
          marked(mm, `branch at ${mm}`, "distal edge"),
        ),
        ...[0, 300].map((mm) => sized(mm, 30)),
      ]),
    ],
  ])("no label covers another, is cut or leaves the drawing: %s", (_, plan) => {
    const { svg } = draw(plan);
    expect(svg).not.toMatch(/NaN|Infinity|undefined|…/);
    const heightPt = Number(/height="([\d.]+)pt"/.exec(svg)?.[1]);
    const texts = svgTexts(svg);
    for (const [index, one] of texts.entries()) {
      expect(one.left, one.text).toBeGreaterThanOrEqual(-0.1);
      expect(one.right, one.text).toBeLessThanOrEqual(widthPt + 0.1);
      expect(one.top, one.text).toBeGreaterThanOrEqual(-0.1);
      expect(one.bottom, one.text).toBeLessThanOrEqual(heightPt + 0.1);
      for (const other of texts.slice(index + 1))
        expect(overlaps(one, other), `${one.text} | ${other.text}`).toBe(false);
    }
  });

  test("a name that is too long for its place is cut, and stands in full in the alternative text", () => {
    const name = "an invented place with a name that is far longer than the room beside it";
    const { svg } = draw(
      invented({ proximal: [segmentOf("0", [0, 10])], distal: [] }, [
        marked(300, name, null),
        ...[0, 300].map((mm) => sized(mm, 30)),
      ]),
    );
    const cut = svgTexts(svg).find(({ text }) => text.endsWith("…"));
    expect(cut?.text.startsWith("an invented place")).toBe(true);
    expect(cut?.right).toBeLessThanOrEqual(widthPt);
    expect(alternativeText(svg)).toContain(`${name} at 300.0 mm`);
  });

  test("all letters are of 9 pt, and both axes carry their unit", () => {
    const { svg } = draw(simple);
    const sizes = [...svg.matchAll(/font-size="([^"]+)"/g)].map(([, size]) => size);
    expect(new Set(sizes)).toEqual(new Set(["9"]));
    const texts = svgTexts(svg).map(({ text }) => text);
    expect(texts).toEqual(expect.arrayContaining(["mm along", "mm across", "0", "300", "60"]));
    expect(texts).toContain("38 and 40 mm");
  });

  test("bars are to scale from the begin to the end of the stretch", () => {
    const bars = rectangles(draw(simple).svg, "bar");
    expect(bars).toHaveLength(3);
    const [zone0, zone2, zone5] = bars;
    const ptOfMm = (zone0?.[1] ?? 0) / 96;
    expect(zone2?.[1]).toBeCloseTo(38 * ptOfMm, 1);
    expect(zone5?.[1]).toBeCloseTo(62 * ptOfMm, 1);
    expect((zone2?.[0] ?? 0) - (zone0?.[0] ?? 0)).toBeCloseTo(80 * ptOfMm, 1);
    expect((zone5?.[0] ?? 0) - (zone0?.[0] ?? 0)).toBeCloseTo(238 * ptOfMm, 1);
  });

  test("the widest stretch is an outline in the row of the strictest, with both lengths and their errors", () => {
    const { svg, caption } = draw(both);
    const [bar] = rectangles(svg, "bar");
    const [outline] = rectangles(svg, "outline");
    expect(outline?.[0]).toBe(bar?.[0]);
    expect((outline?.[1] ?? 0) / (bar?.[1] ?? 1)).toBeCloseTo(140 / 96, 2);
    const texts = svgTexts(svg).map(({ text }) => text);
    expect(texts).toContain("96.0 mm (96.0 to 100.0); widest 140.0 mm (140.0 to 144.0)");
    expect(texts.filter((text) => text === "Zone 0, proximal")).toHaveLength(1);
    expect(caption).toContain("outlines: under the widest");
    expect(draw(simple).caption).not.toContain("outlines");
  });

  test("the alternative text has the numbers of the drawing", () => {
    const text = alternativeText(draw(both).svg);
    expect(text).toContain("in mm: 31.2 at 0.0, 31.2 at 50.0, 31.2 at 100.0, 57.5 at 150.0,");
    expect(text).toContain("Landing diameters that sources name: 38 and 40 mm.");
    expect(text).toContain("innominate at 60.0 and 72.0 mm");
    expect(text).toContain("coeliac, proximal edge at 300.0 mm");
    expect(text).toContain(
      "Zone 0, proximal, strictest published: from 0.0 to 96.0 mm, 96.0 mm (96.0 to 100.0).",
    );
    expect(text).toContain(
      "Zone 0, proximal, widest published: from 0.0 to 140.0 mm, 140.0 mm (140.0 to 144.0).",
    );
  });

  test("a zone without a stretch is named, and has no bar", () => {
    const { svg, caption } = draw(
      invented({ proximal: [segmentOf("0", [0, 96]), segmentOf("4", [null, null])], distal: [] }),
    );
    expect(rectangles(svg, "bar")).toHaveLength(1);
    expect(caption).toContain("No stretch: zone 4, proximal.");
    expect(alternativeText(svg)).toContain("No stretch: zone 4, proximal.");
  });

  test("the same plan gives the same drawing, in numbers of two decimals", () => {
    const { svg } = draw(simple);
    expect(draw(structuredClone(simple)).svg).toBe(svg);
    expect(svg).not.toMatch(/="[^"]*\d\.\d{3,}/);
  });

  test("without a centreline there is nothing to draw", () => {
    const size = { id: "s", widthPt };
    expect(landingStrip({ ...simple, centrelines: [] }, size)).toBeNull();
    const stated = segmentOf("0", [null, null], { basis: "sound length as stated" });
    expect(landingStrip(invented({ proximal: [stated], distal: [] }), size)).toBeNull();
  });
});
