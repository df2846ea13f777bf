import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Projection, projectSizes, projections } from "../../src/growth/projection.ts";
import { assessGrowth, type Growth } from "../../src/growth/growth.ts";
import { daysAfter } from "../../src/growth/when-tellable.ts";
import { daysBetween } from "../../src/quantities/days-between.ts";
import { readingErrorOf, sampleCase, type SampleExam } from "./sample-growth-case.ts";
import { sampleAssessment } from "./sample-assessment.ts";

const asOf = "2026-02-01";
const growthOf = (
  exams: readonly SampleExam[],
  sd = 1,
  rest: {
    place?: Parameters<typeof sampleCase>[1];
    stated?: Parameters<typeof sampleCase>[2];
  } = {},
): Growth => {
  const [growth] = assessGrowth(sampleCase(exams, rest.place, rest.stated), [], {
    asOf,
    readingError: readingErrorOf(sd),
  });
  if (!growth) throw new Error("no growth");
  return growth;
};
const limitAt = (limitMm: number) => ({ limitMm, rules: ["rule"], sources: ["BODY 2020"] });
const project = (growth: Growth, limitMm: number, day = asOf): Projection => {
  const [projection] = projectSizes(growth, [limitAt(limitMm)], day);
  if (!projection) throw new Error("no projection");
  return projection;
};

const start = "2020-01-01";
/** Days and sizes, straight where the sizes are. */
const exams = (...sizes: [days: number, mm: number][]): SampleExam[] =>
  sizes.map(([days, mm]) => ({ date: daysAfter(start, days), mm }));
const fourYears = exams([0, 40], [731, 42], [1461, 44], [2192, 46]);

describe("when a size reaches a limit", () => {
  // Sizes 40, 41.2, 41.8, 44.1 mm at 0, 0.5, 1, 2 years, SD 1 mm, limit 50 mm: by Fieller 3.3005 to 13.0049 years from the
  // first exam, worked by hand. Eight years stand for one, and eight times the sizes for the sizes, so that years are whole days.
  test("the worked example: not before 3.3005 years, and no upper end within the horizon of 4", () => {
    const at = (years: number) => years * 8 * 365.25;
    const worked = exams([at(0), 40], [at(0.5), 49.6], [at(1), 54.4], [at(2), 72.8]);
    const found = project(growthOf(worked, 8), 120, "2020-01-02");
    expect(found).toMatchObject({ answer: "not before", latest: null });
    expect(found.horizon).toBe(daysAfter(start, at(4)));
    expect(daysBetween(start, found.earliest ?? "") / at(1)).toBeCloseTo(3.3005, 3);
    expect(found.sentence).toBe(
      `120 mm not before ${found.earliest} by the 95 % band of the straight line; ` +
        "not projected beyond 2052-01-01, as the exams span 16.0 years.",
    );
  });

  // The band reaches the limit where (mean - limit + slope x)² = 1.96² SD² (1/n + x² / Sxx), x from the mean time. Of the
  // two roots the upper end of the band takes the smaller positive one, the lower end the other, if that is positive too.
  test("both ends are the roots of Fieller's equation", () => {
    const days = [0, 900, 1500, 2192];
    const mean = days.reduce((sum, day) => sum + day, 0) / days.length;
    const spread = days.reduce((sum, day) => sum + (day - mean) ** 2, 0);
    const grown = fc.integer({ min: 40, max: 80 }).map((tenths) => tenths / 10);
    const limits = fc.integer({ min: 47, max: 52 });
    const expectNear = (date: string | null, day: number): void => {
      if (date === null) expect(day < 0 || day > 2 * 2192 - 1).toBe(true);
      else {
        const off = daysBetween(start, date) - Math.max(day, 2192);
        expect(Math.abs(off)).toBeLessThanOrEqual(1.01);
      }
    };
    fc.assert(
      fc.property(grown, fc.constantFrom(0.2, 0.5, 1), limits, (grownMm, sdMm, limitMm) => {
        fc.pre(40 + grownMm < limitMm);
        const slope = grownMm / 2192;
        const straight = days.map((day): [number, number] => [day, 40 + slope * day]);
        const found = project(growthOf(exams(...straight), sdMm), limitMm, start);
        const bound = 1.959964 * sdMm;
        const below = limitMm - 40 - slope * mean;
        const a = slope ** 2 - bound ** 2 / spread;
        const c = below ** 2 - bound ** 2 / days.length;
        const root = Math.sqrt(below ** 2 * slope ** 2 - a * c);
        expectNear(found.earliest, mean + (slope * below - root) / a);
        expectNear(found.latest, a > 0 ? mean + (slope * below + root) / a : -1);
      }),
    );
  });

  test.each([
    [46, "already at or over", "46.0 mm on 2026-01-01 is at or over 46 mm already."],
    [
      47,
      "between",
      /^47 mm between 2026-\d\d-\d\d and 2027-\d\d-\d\d by the 95 % band of the straight line, if/,
    ],
    [
      51.5,
      "not before",
      /^51.5 mm not before 2030-\d\d-\d\d by .*; not projected beyond 2032-01-02, as the exams span 6.0 years\.$/,
    ],
    [
      60,
      "not within the horizon",
      /^Until 2032-01-02 the 95 % band .* stays under 60 mm; not projected beyond 2032-01-02/,
    ],
  ])("%d mm: %s", (limitMm, answer, sentence) => {
    const found = project(growthOf(fourYears, 0.3), limitMm);
    expect(found.answer).toBe(answer);
    expect(found.sentence).toMatch(sentence);
    expect(found).toMatchObject({ limitMm, rules: ["rule"], sources: ["BODY 2020"] });
  });

  test("a size that is within the error of the limit may be there already", () => {
    expect(project(growthOf(fourYears, 1.5), 47).sentence).toContain(
      "2026-01-01, the last exam, where it may be reached within the error,",
    );
  });

  test("a possible shift widens the dates", () => {
    const sure = project(growthOf(fourYears, 0.3), 48);
    const [first, ...others] = fourYears as [SampleExam, ...SampleExam[]];
    const shifted = project(growthOf([{ ...first, modality: "MR" }, ...others], 0.3), 48);
    expect(String(shifted.earliest) < String(sure.earliest)).toBe(true);
    expect(shifted.latest === null || shifted.latest > String(sure.latest)).toBe(true);
  });
});

describe("no projection", () => {
  const reasonOf = (growth: Growth, day = asOf) => {
    const found = project(growth, 60, day);
    expect(found).toMatchObject({
      answer: "no projection",
      earliest: null,
      latest: null,
      horizon: null,
    });
    return found.sentence;
  };

  test("without a rate", () => {
    expect(reasonOf(growthOf(exams([2000, 44], [2100, 46])))).toBe(
      "No projection to 60 mm: no rate: the comparable exams span 100 days, less than half a year.",
    );
  });

  test("of a size that does not grow", () => {
    expect(reasonOf(growthOf(exams([1000, 44], [2100, 44])))).toContain("does not rise");
    expect(reasonOf(growthOf(exams([1000, 44], [2100, 43])))).toContain("does not rise");
  });

  test("on a graft, or where the wall is unclear", () => {
    const repaired = (date: string | null) =>
      growthOf(exams([1000, 44], [2100, 46]), 1, {
        stated: { priorRepairs: [{ words: "invented", date, zones: ["0"], kinds: ["graft"] }] },
      });
    expect(reasonOf(repaired("2019"))).toContain(
      "published sizes are of a native wall; at this place: on a graft since 2019",
    );
    expect(reasonOf(repaired(null))).toContain("at this place: wall unclear: ");
  });

  test("where it was faster lately", () => {
    const faster = exams([0, 40], [731, 41], [1461, 42], [2192, 50]);
    expect(reasonOf(growthOf(faster, 0.5))).toContain("faster lately");
  });

  test("where the exams carry it no further than the day of the report", () => {
    expect(reasonOf(growthOf(exams([0, 44], [400, 46])))).toContain(
      "the exams carry it to 2022-03-11, which is not after the day of this report",
    );
    expect(project(growthOf(exams([0, 44], [400, 46])), 60, "2022-03-10").horizon).toBe(
      "2022-03-11",
    );
  });

  test("of a diameter that no criterion asks for", () => {
    const assessments = [sampleAssessment({ limitMm: 55 })];
    expect(projections(growthOf(fourYears), assessments, asOf)).toHaveLength(1);
    const trueLumen = growthOf(fourYears, 1, { place: { lumen: "true" } });
    expect(projections(trueLumen, assessments, asOf)).toEqual([]);
  });
});
