import { describe, expect, test } from "vitest";
import { growthChart } from "../../../src/report/charts/growth-chart.ts";
import { overlaps } from "../../../src/report/charts/spread-labels.ts";
import { limitsInForce } from "../../../src/report/limits-in-force.ts";
import type { PlanGrowth } from "../../../src/report/plan.ts";
import { samplePlan } from "../sample-plan.ts";
import { stuffedPlan } from "../stuffed-plan.ts";
import { alternativeText, svgTexts } from "../svg-texts.ts";

const sizes = [
  { id: "small", widthPt: 190, heightPt: 60 },
  { id: "large", widthPt: 290, heightPt: 118 },
];

function series(place: string): PlanGrowth {
  const found = samplePlan.growth.find((growth) => growth.place.id === place);
  if (!found) throw new Error(`no growth at ${place}`);
  return found;
}

const draw = (place: string, size = sizes[1]!) =>
  growthChart(series(place), limitsInForce(samplePlan, place), [], size);

describe("growth chart", () => {
  test.each(sizes)("no label covers another, or leaves the drawing ($id)", (size) => {
    for (const plan of [samplePlan, stuffedPlan]) {
      for (const growth of plan.growth) {
        const { svg } = growthChart(growth, limitsInForce(plan, growth.place.id), [], size);
        const texts = svgTexts(svg);
        for (const [index, one] of texts.entries()) {
          expect(one.left, one.text).toBeGreaterThanOrEqual(-0.1);
          expect(one.right, one.text).toBeLessThanOrEqual(size.widthPt + 0.1);
          expect(one.bottom, one.text).toBeLessThanOrEqual(size.heightPt + 0.1);
          for (const other of texts.slice(index + 1))
            expect(overlaps(one, other), `${one.text} | ${other.text}`).toBe(false);
        }
      }
    }
  });

  test("every reading, date, error and limit is in the alternative text", () => {
    const text = alternativeText(draw("mid-descending").svg);
    for (const { date, values, low, high } of series("mid-descending").points) {
      expect(text).toContain(date);
      for (const value of values) expect(text).toContain(value.toFixed(1));
      expect(text).toContain(`(${low.toFixed(1)} to ${high.toFixed(1)})`);
    }
    expect(text).toContain("55 Northbody 2022 and 60 Southbody 2024*");
    expect(text).toContain("not comparable: inner edge, the last is outer edge");
    expect(text).toContain(series("mid-descending").sentence);
  });

  test("every reading of a series with room is printed", () => {
    const printed = svgTexts(draw("proximal-descending").svg).map(({ text }) => text);
    expect(printed).toEqual(expect.arrayContaining(["36.4", "40.1", "44.5", "48.9"]));
    expect(printed).toEqual(expect.arrayContaining(["2022-11-08", "2026-01-12"]));
  });

  test("a point that is not comparable is hollow, and the caption says why", () => {
    const { svg, caption } = draw("mid-descending");
    expect(svg.match(/class="point-hollow"/g)).toHaveLength(1);
    expect(svg.match(/class="point"/g)).toHaveLength(4);
    expect(caption).toContain("Hollow 2022-11-08: inner edge, the last is outer edge.");
  });

  test("the caption says that the axis does not start at zero, and which value is not confirmed", () => {
    expect(draw("mid-descending").caption).toContain("Axis from 45 mm, not from zero.");
    expect(draw("mid-descending").caption).toContain("* not confirmed against the source.");
  });

  test("a limit far from the readings is named and does not stretch the axis", () => {
    const { svg, caption } = draw("zone-9");
    expect(caption).toContain("Beyond the axis: 55 Southbody 2024.");
    expect(svg).not.toContain('class="limit-line"');
  });

  test("a series without a rate has no fitted band", () => {
    expect(draw("zone-9").svg).not.toContain("fit-band");
    expect(draw("mid-descending").svg).toContain("fit-band");
  });

  test("a limit line has its name or is listed as unnamed", () => {
    const { svg, unnamed } = draw("mid-descending", sizes[0]);
    expect(svg.match(/class="limit-line"/g)).toHaveLength(2);
    const named = svgTexts(svg).filter(({ text }) => text.includes("body"));
    expect(named.length + unnamed.length).toBe(2);
  });

  test("one exam alone still draws", () => {
    const growth = series("mid-ascending");
    const { svg } = growthChart(
      { ...growth, points: growth.points.slice(0, 1) },
      [],
      [],
      sizes[0]!,
    );
    expect(svg).not.toContain("NaN");
    expect(svgTexts(svg).map(({ text }) => text)).toContain("39.4");
  });
});

test("a repair inside the series is drawn and said, one before it is not", () => {
  const growth = series("mid-descending");
  const [first, last] = [growth.points.at(0)!.date, growth.points.at(-1)!.date];
  const inside = `${Number(first.slice(0, 4)) + 1}-01-02`;
  expect(inside > first && inside < last).toBe(true);
  const { svg, caption } = growthChart(growth, [], [inside, "1999-01-01"], sizes[0]!);
  expect(caption).toContain(`repair on ${inside}.`);
  expect(svg).toContain(`Repaired on ${inside}.`);
  expect(svg).not.toContain("1999");
});
