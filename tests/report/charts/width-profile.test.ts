import { describe, expect, test } from "vitest";
import { profileOf, type Profile } from "../../../src/report/charts/profile-data.ts";
import { overlaps } from "../../../src/report/charts/spread-labels.ts";
import { widthProfile } from "../../../src/report/charts/width-profile.ts";
import type { Plan } from "../../../src/report/plan.ts";
import { sampleMeasurement } from "../sample-measurements.ts";
import { samplePlan } from "../sample-plan.ts";
import { stuffedPlan } from "../stuffed-plan.ts";
import { alternativeText, svgTexts } from "../svg-texts.ts";

const sizes = {
  summary: { id: "s", widthPt: 319, heightPt: 350, branchesPt: 60, barsPt: 112 },
  plan: { id: "p", widthPt: 523, heightPt: 400, branchesPt: 140, barsPt: 190 },
};

function profile(plan: Plan): Profile {
  const found = profileOf(plan);
  if (!found) throw new Error("no profile");
  return found;
}

const draw = (plan: Plan, size = sizes.plan) => widthProfile(profile(plan), size);

/** A plan with these measurements in the last exam only. */
const planWith = (...measurements: Plan["measurements"]): Plan => ({
  ...samplePlan,
  measurements,
  growth: [],
  assessments: [],
});

describe("width profile", () => {
  test.each(Object.entries(sizes))(
    "no label covers another, or leaves the drawing (%s)",
    (_, size) => {
      for (const plan of [samplePlan, stuffedPlan]) {
        const texts = svgTexts(draw(plan, size).svg);
        for (const [index, one] of texts.entries()) {
          expect(one.left, one.text).toBeGreaterThanOrEqual(-0.1);
          expect(one.right, one.text).toBeLessThanOrEqual(size.widthPt + 0.1);
          expect(one.top, one.text).toBeGreaterThanOrEqual(-0.5);
          expect(one.bottom, one.text).toBeLessThanOrEqual(size.heightPt + 0.5);
          for (const other of texts.slice(index + 1))
            expect(overlaps(one, other), `${one.text} | ${other.text}`).toBe(false);
        }
      }
    },
  );

  test("every diameter of the last exam stands in the drawing and in its alternative text", () => {
    const { svg } = draw(samplePlan);
    const printed = svgTexts(svg)
      .map(({ text }) => text)
      .join(" ");
    const last = samplePlan.measurements.filter(
      ({ exam, quantity }) => exam === "2026-01-12" && quantity === "diameter",
    );
    expect(last).toHaveLength(14);
    for (const { value, place } of last) {
      expect(printed, place.label).toContain(value.toFixed(1));
      expect(alternativeText(svg), place.label).toContain(`${value.toFixed(1)}`);
    }
  });

  test("alternative text tells edge, exam before, limits and what was not measured", () => {
    const text = alternativeText(draw(samplePlan).svg);
    expect(text).toContain("Width profile of the aorta on 2026-01-12.");
    expect(text).toContain("maximum, outer edge");
    expect(text).toContain("55.0 mm on 2024-12-03");
    expect(text).toContain("55 Northbody 2022 and 60 Southbody 2024*");
    expect(text).toContain("Not measured: zone 1, zone 3, zone 4, zones 6 to 8");
  });

  test("bars are to the scale that the caption names", () => {
    const { svg, caption } = draw(planWith(sampleMeasurement("zone-9", "2026-01-12", 25.4)));
    expect(caption).toContain("Bars at true size on paper.");
    expect(svg).toMatch(/<rect [^>]*width="72"[^>]* class="bar"\/>/);
    const wide = draw(planWith(sampleMeasurement("zone-9", "2026-01-12", 101.6)));
    expect(wide.caption).toContain("Bars at 1 : 2 on paper.");
    expect(wide.svg).toMatch(/<rect [^>]*width="144"[^>]* class="bar"\/>/);
  });

  test("a range is a bracket and never a bar; its bands stay unmeasured", () => {
    const { svg, notMeasured } = draw(
      planWith(sampleMeasurement("descending-thoracic-aorta", "2026-01-12", 50)),
    );
    expect(svg).toContain('class="bracket"');
    expect(svg).not.toContain('class="bar"');
    expect(notMeasured).toBe(
      "aortic root to zone 9, zones 10 to 11, right and zones 10 to 11, left",
    );
  });

  test("a true lumen is a dark bar inside the bar of the whole", () => {
    const { svg, caption } = draw(
      planWith(
        sampleMeasurement("zone-4", "2026-01-12", 50.8),
        sampleMeasurement("zone-4", "2026-01-12", 25.4, { key: "t", lumen: "true" }),
      ),
    );
    expect(svg).toMatch(/width="144"[^>]* class="bar"/);
    expect(svg).toMatch(/width="72"[^>]* class="lumen"/);
    expect(caption).toContain("Dark: true lumen.");
    expect(alternativeText(svg)).toContain("true lumen 25.4 mm");
  });

  test("a method that differs from the common one is said at its place in every degree of detail", () => {
    const measurements = ["zone-0", "zone-2", "zone-4"].map((id) =>
      sampleMeasurement(id, "2026-01-12", 30),
    );
    const odd = sampleMeasurement("zone-9", "2026-01-12", 31, { edge: "inner" });
    for (const heightPt of [400, 60]) {
      const { svg } = draw(planWith(...measurements, odd), { ...sizes.plan, heightPt });
      const words = svgTexts(svg).map(({ text }) => text);
      expect(words.filter((text) => text.includes("inner edge"))).toHaveLength(1);
      expect(words.some((text) => text.includes("outer edge"))).toBe(false);
    }
  });

  test("an earlier reading at another edge is not drawn behind the last", () => {
    const { svg } = draw(
      planWith(
        sampleMeasurement("zone-4", "2024-12-03", 40, { edge: "inner" }),
        sampleMeasurement("zone-4", "2026-01-12", 44),
      ),
    );
    expect(svg).not.toContain('class="outline"');
  });

  test("labels without room are counted in the caption", () => {
    expect(draw(samplePlan).caption).not.toContain("without a name");
    expect(draw(stuffedPlan, { ...sizes.summary, heightPt: 290 }).caption).toMatch(
      /\d+ places are drawn without a name\./,
    );
  });

  test("the same plan gives the same drawing, in numbers of two decimals", () => {
    const { svg } = draw(samplePlan);
    expect(draw(structuredClone(samplePlan)).svg).toBe(svg);
    expect(svg).not.toMatch(/="[^"]*\d\.\d{3,}/);
  });

  test("without an aortic diameter there is no profile", () => {
    expect(profileOf(planWith())).toBeNull();
    expect(profileOf(planWith(sampleMeasurement("coeliac-artery", "2026-01-12", 7)))).toBeNull();
  });
});
