import { describe, expect, test } from "vitest";
import type { Vector } from "../../../src/geometry/vector.ts";
import { overlaps } from "../../../src/report/charts/spread-labels.ts";
import { canBeDrawn, viewPlot } from "../../../src/report/charts/view-plot.ts";
import type { PlanViews } from "../../../src/report/views-schema.ts";
import { sampleViews } from "../sample-views.ts";
import { alternativeText, svgTexts } from "../svg-texts.ts";

function draw(plan: PlanViews, more: object = {}): { svg: string; caption: string } {
  const ring = { ...plan.rings[0]!, ...more };
  if (!canBeDrawn(ring)) throw new Error("no angles");
  return viewPlot(ring, plan.reach, "v");
}

const axes: [string, Vector][] = [
  ["arch-like", [0.45, 0.85, 0.27]],
  ["steep", [0.1, 0.9, 0.4]],
  ["descending-like", [0.1, 0.25, -0.96]],
  ["level", [0.5, 0.8, 0]],
  ["vertical", [0, 0, 1]],
  ["front to back", [0, 1, 0]],
];

describe("plot of the views of a ring", () => {
  test.each(axes)(
    "no label covers another or leaves the drawing, no number is lost: %s",
    (_, axis) => {
      const { svg } = draw(sampleViews(axis));
      expect(svg).not.toMatch(/NaN|Infinity|undefined/);
      const texts = svgTexts(svg);
      for (const [index, one] of texts.entries()) {
        expect(one.left, one.text).toBeGreaterThanOrEqual(-0.1);
        expect(one.right, one.text).toBeLessThanOrEqual(227.1);
        for (const other of texts.slice(index + 1))
          expect(overlaps(one, other), `${one.text} | ${other.text}`).toBe(false);
      }
    },
  );

  test("is about 80 by 55 mm", () => {
    const [, width, height] =
      /width="([\d.]+)pt" height="([\d.]+)pt"/.exec(draw(sampleViews()).svg) ?? [];
    const mmOf = (pt: string | undefined): number => (Number(pt) / 72) * 25.4;
    expect(mmOf(width)).toBeCloseTo(80, 0);
    expect(Math.abs(mmOf(height) - 55)).toBeLessThan(1);
  });

  test("both axes carry their unit", () => {
    const texts = svgTexts(draw(sampleViews()).svg).map(({ text }) => text);
    expect(texts).toContain("Edge-on: tilt in °, cranial up, caudal down");
    expect(texts).toContain("Without tilt: front to back in mm");
    expect(texts).toEqual(expect.arrayContaining(["RAO 90°", "45°", "0°", "LAO 90°"]));
    const bare = draw(sampleViews(), { diameterMm: null });
    expect(svgTexts(bare.svg).map(({ text }) => text)).toContain(
      "Without tilt: vessel to screen in °",
    );
  });

  test("the alternative text has the numbers of the tables", () => {
    // Worked by hand in the tests of the views: 46.331, 7.446, -38.487; 8.49, 1.06 and 6.45 mm.
    const text = alternativeText(draw(sampleViews()).svg);
    expect(text).toContain("LAO 45°: cranial 46° ±\u00a00°, beyond reach.");
    expect(text).toContain("LAO 60°: cranial 7° ±\u00a00°, within reach.");
    expect(text).toContain("LAO 75°: caudal 38° ±\u00a00°, within reach.");
    expect(text).toContain("LAO 45° / 0°: 8.5 mm (7.9 to 9.0).");
    expect(text).toContain("LAO 60° / 0°: 1.1 mm (1.0 to 1.1).");
    expect(text).toContain("LAO 75° / 0°: 6.4 mm");
    expect(text).toContain("Within 2 mm up to a tilt of 3.8° at a diameter of 30.0 mm.");
    expect(text).toContain("Reach: 90.0° to either side, 45.0° to head and foot.");
  });

  test("a point within reach is filled, one beyond it hollow, and the caption names both", () => {
    const within = draw(sampleViews());
    expect(within.svg.match(/class="point"/g)).toHaveLength(1);
    expect(within.svg).not.toContain("point-hollow");
    expect(within.caption).toContain("within reach, LAO 54° / cranial 26°.");
    const beyond = draw(sampleViews([0.1, 0.9, 0.4]));
    expect(beyond.svg.match(/class="point-hollow"/g)).toHaveLength(1);
    expect(beyond.caption).toContain("beyond reach, LAO 28° / cranial 62°.");
  });

  test("the curve passes through the worked views", () => {
    const { svg } = draw(sampleViews());
    const curves = [...svg.matchAll(/d="([^"]+)" class="view-curve"/g)].map(([, d]) =>
      [...(d ?? "").matchAll(/[ML]([\d.]+) ([\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)]),
    );
    expect(curves).toHaveLength(2);
    const [family, apart] = curves;
    expect(family).toHaveLength(181);
    // LAO 60 is point 150. Upper plot: 12 to 84 pt for +90 to -90; lower plot: 104 to 142 pt for 30 to 0 mm.
    expect(family?.[150]?.[1]).toBeCloseTo(12 + ((90 - 7.446) / 180) * 72, 1);
    expect(apart?.[150]?.[1]).toBeCloseTo(142 - (1.06 / 30) * 38, 1);
  });

  test("without angles there is nothing to draw", () => {
    expect(canBeDrawn(sampleViews(undefined, null).rings[0]!)).toBe(false);
  });
});
