import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { placeById } from "../../src/anatomy/places.ts";
import type { CaseFacts } from "../../src/cases/patient-case.ts";
import { type Growth, assessGrowth } from "../../src/growth/growth.ts";
import { projections } from "../../src/growth/projection.ts";
import { loadRules } from "../../src/guidelines/load-rules.ts";
import type { Rule } from "../../src/guidelines/rule.ts";
import { planSchema } from "../../src/report/plan.ts";
import { readingErrorOf, sampleCase, type SampleExam, sampleRule } from "./sample-growth-case.ts";

const asOf = "2026-02-01";
const assess = (
  exams: readonly SampleExam[],
  rules: readonly Rule[] = [],
  {
    sd = 1.9,
    place = {},
    stated = {},
  }: { sd?: number; place?: Parameters<typeof sampleCase>[1]; stated?: Partial<CaseFacts> } = {},
): Growth[] =>
  assessGrowth(sampleCase(exams, place, stated), rules, { asOf, readingError: readingErrorOf(sd) });
const answersTo = (...parameters: Parameters<typeof assess>) =>
  assess(...parameters)[0]?.answers ?? [];
const sentenceOf = (...parameters: Parameters<typeof assess>) => assess(...parameters)[0]?.sentence;

const twoYears: SampleExam[] = [
  { date: "2024-01-10", mm: 44 },
  { date: "2026-01-12", mm: 48.5 },
];
const oneYear = (mm: number): SampleExam[] => [
  { date: "2025-01-10", mm: 44 },
  { date: "2026-01-10", mm },
];

describe("the growth of a place", () => {
  test("points carry their error, the interval its change and rate", () => {
    const [growth] = assess(twoYears);
    expect(growth).toMatchObject({
      key: "G-mid-ascending-maximum-whole",
      quantity: "diameter",
      rateMethod: "two exams; 95 % interval from a reading error of SD 1.9 mm",
      comparability: [],
      answers: [],
    });
    const [first] = growth?.points ?? [];
    expect(first?.values).toEqual([44]);
    expect(first?.low).toBeCloseTo(44 - 3.7239, 4);
    expect(first?.high).toBeCloseTo(44 + 3.7239, 4);
    expect(growth?.intervals).toHaveLength(1);
    expect(growth?.intervals[0]?.rate?.value).toBeCloseTo(growth?.rate?.value ?? Number.NaN, 9);
  });

  test("only comparable points make intervals and rate", () => {
    const [growth] = assess([
      { date: "2022-01-10", mm: 30, modality: "US" },
      { date: "2023-01-10", mm: [43, 47] },
      ...twoYears,
    ]);
    expect(growth?.points).toHaveLength(4);
    expect(growth?.intervals.map(({ from, to }) => [from, to])).toEqual([
      ["2024-01-10", "2026-01-12"],
    ]);
    expect(growth?.points[1]?.low).toBeCloseTo(43 - 3.7239, 4);
    expect(growth?.points[1]?.high).toBeCloseTo(47 + 3.7239, 4);
    expect(growth?.comparability).toEqual([
      expect.stringMatching(
        /^2022-01-10 left out: US on 2022-01-10, CT on 2026-01-12: a shift of /,
      ),
      "2023-01-10 left out: two readings of this exam differ: 43 and 47 mm",
    ]);
    expect(growth?.sentence).toContain("(2.0 years, 2 of 4 exams)");
  });

  test("what is unstated is said once, with its exams", () => {
    const edge = "unstated" as const;
    const unstated = twoYears.map((exam) => ({ ...exam, edge, modality: null }));
    const [growth] = assess(unstated, [], { stated: { priorRepairs: null } });
    expect(growth?.comparability).toEqual([
      "edge not stated: 2024-01-10, 2026-01-12",
      "modality not stated: 2024-01-10, 2026-01-12",
      "not stated whether there was a repair",
    ]);
  });

  test("an exam of another tomographic modality stays, with its possible shift", () => {
    const [first, last] = twoYears as [SampleExam, SampleExam];
    const [growth] = assess([{ ...first, modality: "MR" }, last], [sampleRule(3)]);
    const offset = { lowMm: 0.2, highMm: 1.9, source: expect.stringMatching(/^CT against MR \(/) };
    expect(growth?.points).toMatchObject([
      { comparability: "comparable-with-offset", offset },
      { comparability: "comparable", reasons: [], offset: null },
    ]);
    const [plain] = assess(twoYears);
    const years = 733 / 365.25;
    expect(growth?.rate?.value).toBe(plain?.rate?.value);
    expect((growth?.rate?.high ?? 0) - (plain?.rate?.high ?? 0)).toBeCloseTo(1.9 / years, 9);
    expect(growth?.intervals[0]?.rate?.low).toBeCloseTo(growth?.rate?.low ?? Number.NaN, 9);
    expect(growth?.comparability).toEqual([
      expect.stringMatching(
        /^MR on 2024-01-10, CT on 2026-01-12: possible shift of 0.2 to 1.9 mm, CT against MR \(/,
      ),
    ]);
    expect(growth?.rateMethod).toMatch(
      /SD 1.9 mm; widened by a possible shift of 0.2 to 1.9 mm, CT against MR \(/,
    );
    expect(growth?.sentence).toContain(
      "(95 % \u22121.3 to 5.8, widened by a possible shift of 0.2 to 1.9 mm)",
    );
    expect(growth?.answers[0]?.reason).toContain(
      "The 95 % interval of the rate, widened by the possible shift, \u22121.3 to 5.8 mm per year, holds 3.",
    );
  });

  test("growth that only a shift could make is not said to exceed", () => {
    const grown = oneYear(50.5);
    const answersOf = (modality: string) =>
      answersTo([{ ...(grown[0] as SampleExam), modality }, ...grown.slice(1)], [sampleRule(3)], {
        sd: 1,
      })[0]?.answer;
    expect(answersOf("CT")).toBe("exceeds");
    expect(answersOf("MR")).toBe("cannot-tell");
  });

  test("exams of the same kind before a change are not shifted against each other", () => {
    const [growth] = assess([
      { date: "2022-01-10", mm: 42, modality: "MR" },
      { date: "2024-01-10", mm: 44, modality: "MR" },
      { date: "2026-01-10", mm: 46 },
    ]);
    const halfWidths = growth?.intervals.map(({ change }) => change.high - change.value) ?? [];
    expect(halfWidths[0]).toBeCloseTo(2.7718 * 1.9, 3);
    expect(halfWidths[1]).toBeCloseTo(2.7718 * 1.9 + 1.9, 3);
  });

  test("each exam counts by the reading error of its own method", () => {
    const [first, last] = twoYears as [SampleExam, SampleExam];
    const stated = [
      { sdMm: 0.8, source: "gated", appliesTo: { gated: true } },
      { sdMm: 1.4, source: "not gated", appliesTo: { gated: false } },
    ];
    const readingError = { stated, estimated: [] };
    const [growth] = assessGrowth(sampleCase([{ ...first, gated: false }, last]), [], {
      asOf,
      readingError,
    });
    expect(growth?.points.map(({ sdMm }) => sdMm)).toEqual([1.4, 0.8]);
    expect(growth?.readingError).toMatchObject({ highSdMm: 1.4, source: "not gated" });
    const { change } = growth?.intervals[0] ?? {};
    const shift = growth?.points[0]?.offset?.highMm ?? Number.NaN;
    expect((change?.high ?? 0) - 4.5 - shift).toBeCloseTo(1.959964 * Math.hypot(1.4, 0.8), 5);
    expect(growth?.rateMethod).toContain("SD 0.8 to 1.4 mm, each exam its own");
  });
});

describe("answers", () => {
  test.each([
    { mm: 44 + 2.5, sd: 1, of3: "cannot-tell", of5: "cannot-tell" },
    { mm: 44 + 2.5, sd: 0.5, of3: "cannot-tell", of5: "does-not-exceed" },
    { mm: 44 + 8, sd: 1, of3: "exceeds", of5: "exceeds" },
    { mm: 44 + 6, sd: 1, of3: "exceeds", of5: "cannot-tell" },
  ])("44 to $mm mm in a year, SD $sd", ({ mm, sd, of3, of5 }) => {
    const answers = answersTo(oneYear(mm), [sampleRule(3), sampleRule(5)], { sd });
    expect(answers.map(({ answer }) => answer)).toEqual([of3, of5]);
  });

  test("the criterion as written stands beside it: met, and cannot tell", () => {
    const [answer] = answersTo(oneYear(49.2), [sampleRule(5)]);
    expect(answer).toMatchObject({ outcome: "met", answer: "cannot-tell", limitMmPerYear: 5 });
    expect(answer?.reason).toBe(
      "5.2 mm in 365 days (2025-01-10 to 2026-01-10); the limit is >= 5 mm in 1 year. " +
        "The 95 % interval of the rate, \u22120.1 to 10.5 mm per year, holds 5. " +
        "At this rate no further exam within ten years would tell. " +
        "A second reading of the same exams by the same reader would narrow it.",
    );
  });

  test("what can't be told yet comes with the time when it could", () => {
    // 2.502 mm per year: 1.96 / sqrt((2/3)(1 + t + t²)) is 0.498 at t = 4.24 years.
    const [answer] = answersTo(oneYear(46.5), [sampleRule(3)], { sd: 1 });
    expect(answer).toMatchObject({ answer: "cannot-tell", tellableInMonths: 51 });
    expect(answer?.reason).toContain(
      "At this rate a further exam, read alike, would tell from 51 months after the last one on (2030-04-12).",
    );
    expect(answersTo(oneYear(52), [sampleRule(3)], { sd: 1 })[0]?.tellableInMonths).toBeNull();
  });

  test("a limit in six months counts twice per year", () => {
    const rule = sampleRule(5, { periodMonths: 6, printed: "5 mm in 6 months" });
    const exams: SampleExam[] = [
      { date: "2025-07-10", mm: 44 },
      { date: "2026-01-10", mm: 49 },
    ];
    expect(answersTo(exams, [rule])[0]).toMatchObject({ limitMmPerYear: 10, outcome: "met" });
  });

  test("without a rate there is no telling, and the reason is given", () => {
    const exams: SampleExam[] = [
      { date: "2025-10-10", mm: 44 },
      { date: "2026-01-10", mm: 46 },
    ];
    expect(answersTo(exams, [sampleRule(5)])).toEqual([
      {
        rule: "rule-5",
        body: "BODY",
        year: 2020,
        confirmed: false,
        limitMmPerYear: 5,
        answer: "cannot-tell",
        tellableInMonths: null,
        outcome: "not-assessable",
        reason:
          "No pair of comparable exams about one year apart; the limit is >= 5 mm in 1 year. " +
          "No rate: the comparable exams span 92 days, less than half a year.",
      },
    ]);
  });

  test("only growth rules that speak of the place are asked, in the order of their ids", () => {
    const rules = [
      sampleRule(5, { id: "b" }),
      sampleRule(3, { id: "a" }),
      sampleRule(3, { id: "arch", places: { regions: ["arch"] } }),
      sampleRule(3, { id: "one", places: { ids: ["mid-ascending"] } }),
      sampleRule(55, { id: "size", kind: "diameter" }),
    ];
    expect(answersTo(twoYears, rules).map(({ rule }) => rule)).toEqual(["a", "b", "one"]);
    const iliac = answersTo(twoYears, rules, { place: { placeId: "zone-10-left" } });
    expect(iliac).toEqual([]);
  });

  test.each([
    { lumen: "true" },
    { lumen: "false" },
    { statistic: "minimum" },
    { statistic: "mean" },
  ] as const)("no criterion asks for %j", (place) => {
    const [growth] = assess(twoYears, [sampleRule(3)], { place });
    expect(growth?.rate).not.toBeNull();
    expect(growth?.answers).toEqual([]);
  });

  test("a rule without a period is a defect", () => {
    const { periodMonths: _, ...check } = sampleRule(3).check;
    expect(() => assess(twoYears, [{ ...sampleRule(3), check }])).toThrow("rule-3");
  });
});

describe("population and open facts", () => {
  const outcomeOf = (
    mm: number,
    population: Rule["population"],
    stated: Partial<CaseFacts> = {},
    place: Parameters<typeof sampleCase>[1] = {},
  ) => answersTo(oneYear(mm), [sampleRule(5, { population })], { stated, place })[0];

  test("a criterion that is not for the patient", () => {
    const answer = outcomeOf(52, { aetiology: ["Marfan"] });
    expect(answer).toMatchObject({ outcome: "not-applicable" });
    expect(answer?.reason).toContain("it asks for aetiology Marfan");
  });

  test("a population that is not known is not assessable, whatever the number", () => {
    for (const mm of [44, 52]) {
      const answer = outcomeOf(mm, { aetiology: ["Marfan"] }, { aetiology: null });
      expect(answer).toMatchObject({ outcome: "not-assessable" });
      expect(answer?.reason).toContain("not stated: aetiology");
    }
  });

  test("open statements matter only where the number is met", () => {
    const population = { statements: ["seen by two readers"] };
    expect(outcomeOf(45, population)).toMatchObject({ outcome: "not-met" });
    const answer = outcomeOf(52, population);
    expect(answer).toMatchObject({ outcome: "not-assessable" });
    expect(answer?.reason).toContain("8.0 mm in 365 days");
    expect(answer?.reason).toContain("not stated: seen by two readers");
  });

  test("a lumen that is not stated, in a dissection or with no diagnosis", () => {
    const place = { lumen: "unstated" as const };
    expect(outcomeOf(52, {}, {}, place)).toMatchObject({ outcome: "met" });
    for (const diagnoses of [null, ["type B dissection"]]) {
      expect(outcomeOf(52, {}, { diagnoses }, place)).toMatchObject({ outcome: "not-assessable" });
    }
  });

  test("repairs: none stated, not known, here before, and beside", () => {
    const repaired = (...zones: string[]): Partial<CaseFacts> => ({
      priorRepairs: [{ words: "invented", date: "2020", zones, kinds: ["graft"] }],
    });
    expect(outcomeOf(52, {}, { priorRepairs: null })).toMatchObject({ outcome: "not-assessable" });
    expect(outcomeOf(52, {}, repaired("0"))).toMatchObject({ outcome: "not-applicable" });
    expect(outcomeOf(52, {}, repaired("4"))).toMatchObject({ outcome: "met" });
  });
});

describe("the sentence", () => {
  const fiveAndThree = [
    sampleRule(5, { id: "a", body: "ONE" }),
    sampleRule(3, { id: "b", body: "ONE" }),
    sampleRule(3, { id: "c", body: "TWO" }),
    sampleRule(3, { id: "d", body: "THREE", population: { aetiology: ["Marfan"] } }),
  ];

  test("change, time, rate with interval, answers", () => {
    expect(sentenceOf(twoYears, fiveAndThree)).toBe(
      "Mid-ascending aorta, maximum diameter, whole lumen, outer edge: 44.0 to 48.5 mm from 2024-01-10 to " +
        "2026-01-12 (2.0 years); 2.2 mm per year (95 % \u22120.4 to 4.9); against 3 mm per year (ONE 2020, TWO 2020): " +
        "cannot tell; against 5 mm per year (ONE 2020): does not exceed.",
    );
  });

  test("short series say the change, and why there is no rate", () => {
    const exams: SampleExam[] = [
      { date: "2025-10-10", mm: 44, edge: "unstated" },
      { date: "2026-01-10", mm: 44, edge: "unstated" },
    ];
    const place = { lumen: "unstated", statistic: "unstated" } as const;
    expect(sentenceOf(exams, [], { place, sd: 1 })).toBe(
      "Mid-ascending aorta, diameter, edge not stated: 44.0 to 44.0 mm from 2025-10-10 to 2026-01-10 (92 days); " +
        "change 0.0 mm (95 % \u22122.8 to 2.8); no rate: the comparable exams span 92 days, less than half a year.",
    );
  });

  test("a change of less than half a year is widened as well", () => {
    const exams: SampleExam[] = [
      { date: "2025-10-10", mm: 44, modality: "MR" },
      { date: "2026-01-10", mm: 44 },
    ];
    expect(sentenceOf(exams, [], { sd: 1 })).toContain(
      "change 0.0 mm (95 % \u22124.7 to 4.7, widened by a possible shift of 0.2 to 1.9 mm); no rate:",
    );
  });

  test("plane, cardiac phase and the wall where they are stated", () => {
    const exams = twoYears.map((exam) => ({
      ...exam,
      plane: "perpendicular" as const,
      phase: "diastole" as const,
    }));
    const graft = { words: "invented", date: "2019", zones: ["0"], kinds: ["graft" as const] };
    const stated = { priorRepairs: [graft] };
    expect(sentenceOf(exams, [sampleRule(3)], { stated })).toBe(
      "Mid-ascending aorta, maximum diameter, whole lumen, outer edge, perpendicular plane, diastole, " +
        "on a graft since 2019: 44.0 to 48.5 mm from 2024-01-10 to 2026-01-12 (2.0 years); " +
        "2.2 mm per year (95 % \u22120.4 to 4.9).",
    );
    const [growth] = assess(exams, [sampleRule(3)], { stated });
    expect(growth?.wall).toBe("on a graft since 2019");
    expect(growth?.answers[0]?.outcome).toBe("not-applicable");
  });

  test("growth that was faster lately is said", () => {
    const exams = [40, 41, 42, 50].map((mm, index) => ({ date: `${2022 + index}-01-10`, mm }));
    const [growth] = assess(exams, [], { sd: 1 });
    expect(growth?.rateChange.answer).toBe("faster lately");
    expect(growth?.sentence).toMatch(/; faster lately\.$/);
  });

  test("nothing comparable", () => {
    const exams: SampleExam[] = [
      { date: "2024-01-10", mm: 44, edge: "inner" },
      { date: "2026-01-10", mm: 48 },
    ];
    expect(sentenceOf(exams)).toBe(
      "Mid-ascending aorta, maximum diameter, whole lumen, outer edge: no rate: fewer than two comparable exams.",
    );
  });

  test("more exams", () => {
    const exams = [{ date: "2023-01-10", mm: 43 }, ...twoYears];
    expect(sentenceOf(exams)).toContain(
      "43.0 to 48.5 mm from 2023-01-10 to 2026-01-12 (3.0 years, 3 exams)",
    );
  });
});

describe("properties of the whole", () => {
  const history = fc
    .uniqueArray(fc.integer({ min: 0, max: 2000 }), { minLength: 2, maxLength: 6 })
    .chain((days) =>
      fc.tuple(
        fc.constant(days.toSorted((a, b) => a - b)),
        fc.array(fc.integer({ min: 300, max: 600 }), {
          minLength: days.length,
          maxLength: days.length,
        }),
      ),
    )
    .map(([days, tenths]) =>
      days.map((day, index): SampleExam => {
        const date = new Date(Date.UTC(2019, 0, 1) + day * 86_400_000).toISOString().slice(0, 10);
        return { date, mm: (tenths[index] ?? 0) / 10 };
      }),
    );
  const growthRules = loadRules().filter(({ check }) => check.kind.startsWith("growth"));

  test("every entry fits the schema of the plan report, with the rules that ship", () => {
    expect(growthRules.length).toBeGreaterThan(5);
    const entry = planSchema.shape.growth.element;
    fc.assert(
      fc.property(
        history,
        fc.constantFrom("mid-ascending", "sinuses-of-valsalva", "zone-9"),
        (exams, placeId) => {
          const [growth] = assess(exams, growthRules, { place: { placeId } });
          const { kind, id, label, zones, position, span } = placeById(placeId);
          const place = { kind, id, label, zones, position, span };
          if (!growth) throw new Error("no growth");
          const planned = { ...growth, place, projections: projections(growth, [], asOf) };
          expect(entry.parse(planned)).toEqual(planned);
          expect(growth.answers.length).toBeGreaterThan(0);
        },
      ),
    );
  });

  test("what the whole interval exceeds, a smaller reading error takes back only for larger scatter", () => {
    fc.assert(
      fc.property(history, fc.integer({ min: 2, max: 30 }), (exams, tenths) => {
        const rules = [sampleRule(3), sampleRule(5)];
        const wide = answersTo(exams, rules, { sd: tenths / 10 });
        const [narrow] = assess(exams, rules, { sd: tenths / 20 });
        wide.forEach(({ answer, outcome }, index) => {
          const now = narrow?.answers[index];
          expect(now?.outcome).toBe(outcome);
          if (answer === "cannot-tell" || now?.answer === answer) return;
          expect(now?.answer).toBe("cannot-tell");
          expect(narrow?.rateMethod).toContain("from the scatter about it");
        });
      }),
    );
  });
});
