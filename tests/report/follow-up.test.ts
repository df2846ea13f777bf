import { describe, expect, test } from "vitest";
import { type FollowUpRow, followUpRows, followUpTags } from "../../src/report/follow-up.ts";
import type { Plan, PlanAssessment, PlanGrowth } from "../../src/report/plan.ts";
import { noSiteConfig } from "../../src/site/site-config.ts";
import { assessment } from "./sample-criteria.ts";
import { quietPlan, sampleDue, surveillanceOf } from "./sample-follow-up.ts";
import { growthOf } from "./sample-growth.ts";
import { samplePlace } from "./sample-measurements.ts";

const asOf = "2026-01-14";
const rowOf = (more: Partial<Plan>, day = asOf): FollowUpRow => {
  const [row] = followUpRows([quietPlan("P1", more)], { asOf: day, ...noSiteConfig.followUp });
  if (!row) throw new Error("no row");
  return row;
};
const exam = (imagingDate: string, modality: string | null = "CT") => ({
  ...(quietPlan("P1").exams[0] as Plan["exams"][number]),
  key: imagingDate,
  imagingDate,
  modality,
});

describe("due dates", () => {
  test("imaging of another kind since then is told, and is not called overdue", () => {
    const due = sampleDue("2026-01-14", "2026-01-14", { otherExamSince: "2026-02-01" });
    const row = rowOf({ surveillance: surveillanceOf([due]) }, "2026-03-01");
    expect(row.overdueDays).toBe(0);
    expect(followUpTags(row)).not.toContain("overdue");
    expect(row.reasons).toEqual([
      "due since 2026-01-14, with other imaging there on 2026-02-01: CT of descending aorta (Northbody 2022)",
    ]);
  });

  test.each([
    ["2026-01-13", 0, "nothing before 2026-01-14, the next day on which imaging is due"],
    ["2026-01-14", 0, "due now, until 2026-01-14: CT of descending aorta (Northbody 2022)"],
    ["2026-01-15", 1, "overdue by 1 day: CT of descending aorta (Northbody 2022)"],
    ["2026-02-18", 35, "overdue by 35 days: CT of descending aorta (Northbody 2022)"],
  ])("on %s, due on 2026-01-14: %i days overdue", (day, days, reason) => {
    const row = rowOf({ surveillance: surveillanceOf([sampleDue("2026-01-14")]) }, day);
    expect(row.overdueDays).toBe(days);
    expect(row.reasons).toEqual([reason]);
    expect(followUpTags(row).includes("overdue")).toBe(days > 0);
  });

  test.each([
    ["2026-01-13", []],
    ["2026-01-14", ["due"]],
    ["2026-03-01", ["due"]],
    ["2026-03-02", ["overdue"]],
  ])("a window from 2026-01-14 to 2026-03-01 on %s: %j", (day, tags) => {
    const due = [sampleDue("2026-01-14", "2026-03-01")];
    expect(followUpTags(rowOf({ surveillance: surveillanceOf(due) }, day))).toEqual(tags);
  });

  test("sources with the same date stand together, recalled ones marked, conditions named", () => {
    const statements = ["size stable"];
    const due = [
      sampleDue("2026-01-01", "2026-01-01", { statements }),
      sampleDue("2026-01-01", "2026-01-01", { statements, body: "Southbody", confirmed: false }),
      sampleDue("2026-01-02", "2026-01-02", { imaging: "TTE" }),
    ];
    expect(rowOf({ surveillance: surveillanceOf(due) }).reasons).toEqual([
      "overdue by 13 days: CT of descending aorta (Northbody 2022, Southbody 2022 [not confirmed]), holds if size stable",
      "overdue by 12 days: TTE of descending aorta (Northbody 2022)",
    ]);
  });

  test.each([
    ["applies", [], "nothing due", "nothing due by the schedules on file"],
    ["not-assessable", [], "nothing due", "nothing due by the schedules on file"],
    [
      "not-assessable",
      ["a", "b", "c", "d", "e"],
      "cannot be told",
      "when imaging is due cannot be told: missing a; b; c; and 2 more",
    ],
  ] as const)("no date, schedule %s, missing %j: %s", (outcome, missing, kind, words) => {
    const row = rowOf({ surveillance: surveillanceOf([], { outcome, missing: [...missing] }) });
    expect([row.overdueDays, row.noDue?.kind, row.reasons]).toEqual([null, kind, [words]]);
  });

  test("schedules that could not be judged are counted beside a date", () => {
    const surveillance = surveillanceOf([sampleDue("2027-01-12")]);
    const [one] = surveillance.schedules;
    if (one)
      surveillance.schedules.push({ ...one, outcome: "not-assessable", missing: ["height"] });
    expect(rowOf({ surveillance }).schedulesNotJudged).toBe(1);
  });
});

describe("last exam", () => {
  test.each([
    ["2024-01-14", 24, null],
    ["2024-01-13", 24, "no exam for 24 months"],
    ["2023-10-14", 27, "no exam for 27 months"],
    ["2023-10-15", 26, "no exam for 26 months"],
    ["2025-12-15", 0, null],
  ])("of %s: %i months, %s", (date, months, lost) => {
    const row = rowOf({ exams: [exam(date)] });
    expect([row.monthsSince, row.lost]).toEqual([months, lost]);
    expect(row.lastExam).toEqual({ date, modality: "CT" });
    expect(followUpTags(row).includes("lost")).toBe(lost !== null);
  });

  test("the end of February counts as the end of the months", () => {
    expect(rowOf({ exams: [exam("2024-02-29")] }, "2026-02-28").lost).toBeNull();
    expect(rowOf({ exams: [exam("2024-02-29")] }, "2026-03-01").lost).toBe("no exam for 24 months");
  });

  test("an exam after the day of the list does not count, and none is said", () => {
    expect(rowOf({ exams: [exam("2025-01-14"), exam("2026-01-15")] }).lastExam?.date).toBe(
      "2025-01-14",
    );
    const none = rowOf({ exams: [exam("2026-01-15")] });
    expect([none.lastExam, none.monthsSince, none.lost]).toEqual([null, null, "no exam on file"]);
  });
});

describe("growth", () => {
  const answer = (more: Partial<PlanGrowth["answers"][number]>): PlanGrowth["answers"][number] => ({
    rule: "invented-growth",
    body: "Northbody",
    year: 2022,
    confirmed: true,
    limitMmPerYear: 5,
    answer: "exceeds",
    outcome: "met",
    tellableInMonths: null,
    reason: "invented",
    ...more,
  });
  const rate = { value: 6.42, low: 5.6, high: 7.2, unit: "mm/year" };
  const series = (...answers: PlanGrowth["answers"]) =>
    growthOf("mid-descending", { rate, answers });

  test("beyond limits: place, rate, limits and who prints them", () => {
    const row = rowOf({
      growth: [series(answer({}), answer({ body: "Southbody", limitMmPerYear: 3 }))],
    });
    expect(row.reasons).toEqual([
      "grows: mid-descending aorta 6.4 mm per year, exceeds 3 mm per year (Southbody 2022), 5 mm per year (Northbody 2022)",
    ]);
    expect(row.growing).toMatchObject([{ rateMmPerYear: 6.42 }]);
    expect(followUpTags(row)).toEqual(["growing"]);
  });

  test("a rate that rounding would put on its limit keeps its decimals", () => {
    const close = { ...rate, value: 5.04 };
    const row = rowOf({ growth: [{ ...series(answer({})), rate: close }] });
    expect(row.growing[0]?.words).toContain("5.04 mm per year, exceeds 5 mm per year");
  });

  test.each([
    [answer({ outcome: "not-applicable" }), 0, 0],
    [answer({ answer: "does-not-exceed" }), 0, 0],
    [answer({ answer: "cannot-tell" }), 0, 1],
    [answer({ answer: "cannot-tell", outcome: "not-applicable" }), 0, 0],
    [answer({ outcome: "not-assessable" }), 1, 0],
  ])("answer %#: growing %i, not told %i", (one, growing, notTold) => {
    const row = rowOf({ growth: [series(one)] });
    expect([row.growing.length, row.growthNotTold]).toEqual([growing, notTold]);
  });

  test.each([
    ["between", "2027-01-01", "2029-01-01", "60 mm between 2027-01-01 and 2029-01-01"],
    ["between", "2026-01-14", "2029-01-01", "60 mm reached by 2029-01-01, or already"],
    ["not before", "2027-01-01", null, "60 mm not before 2027-01-01"],
    ["not before", "2026-01-14", null, "60 mm may be reached already"],
    ["not within the horizon", null, null, null],
    ["no projection", null, null, null],
    ["already at or over", null, null, null],
  ] as const)("projection %s from %s to %s", (kind, earliest, latest, words) => {
    const projection = {
      limitMm: 60,
      rules: ["invented"],
      sources: ["Northbody 2022"],
      answer: kind,
      earliest,
      latest,
      horizon: "2030-01-01",
      sentence: "invented",
    };
    const row = rowOf({
      growth: [growthOf("mid-descending", { answers: [], projections: [projection] })],
    });
    expect(row.projected).toEqual(
      words === null ? [] : [`mid-descending aorta, ${words} (Northbody 2022)`],
    );
    expect(followUpTags(row)).toEqual(words === null ? [] : ["projected"]);
  });
});

describe("sizes", () => {
  const at = (value: number, more: Partial<PlanAssessment> = {}): PlanAssessment =>
    assessment("invented", {
      outcome: "not-met",
      spansLimit: false,
      value: { value, low: value - 1, high: value + 1, unit: "mm" },
      ...more,
    });
  const reasonOf = (...assessments: PlanAssessment[]): string =>
    rowOf({ assessments }).reasons.join("\n");
  const quiet = "nothing before 2027-01-12, the next day on which imaging is due";

  test.each([
    [50, "nearing: 50.0 mm at mid-descending aorta, limit 55 mm (Northbody 2022)"],
    [49.99, quiet],
    [54.96, "nearing: 54.96 mm at mid-descending aorta, limit 55 mm (Northbody 2022)"],
  ])("%d mm under a limit of 55 mm", (value, reason) => {
    expect(reasonOf(at(value))).toBe(reason);
  });

  test("a limit inside the interval is near at any distance, also of an index", () => {
    const index = at(2.9, {
      spansLimit: true,
      value: { value: 2.9, low: 2.6, high: 3.2, unit: "cm/m" },
      limit: { operator: ">=", value: 3.08, below: null, unit: "cm/m", printed: "3.08 cm/m" },
    });
    expect(reasonOf(index)).toContain("2.90 cm/m at mid-descending aorta, limit 3.08 cm/m");
    expect(reasonOf({ ...index, spansLimit: false })).toBe(quiet);
    expect(reasonOf(at(48, { spansLimit: true }))).toContain("nearing: 48.0 mm");
  });

  test.each([
    [
      "above its band",
      at(56, {
        limit: { operator: ">=", value: 50, below: 55, unit: "mm", printed: "50 to 54 mm" },
      }),
    ],
    ["of a criterion that does not speak of the patient", at(54, { outcome: "not-applicable" })],
    ["of a rule that failed", at(54, { outcome: "rule-failed" })],
    ["of a criterion without a size", at(54, { outcome: "not-assessable", value: null })],
  ])("a size %s is not near", (_, one) => {
    expect(reasonOf(one)).toBe(quiet);
  });

  test("a criterion below a limit or at any size is met, and its size is near nothing", () => {
    const below = { operator: "<", value: 55, below: null, unit: "mm", printed: "55 mm" } as const;
    const title = "Small and symptomatic";
    const quietOnes = [
      at(56, { limit: below, spansLimit: true }),
      at(54, { limit: below, outcome: "not-assessable" }),
      at(54, { limit: null, value: null, outcome: "not-assessable" }),
    ];
    expect(reasonOf(...quietOnes)).toBe(quiet);
    const row = rowOf({
      assessments: [
        at(54, { limit: below, title, outcome: "met" }),
        at(54, { limit: null, value: null, title, outcome: "met", confirmed: false }),
      ],
    });
    expect(row.sizes).toEqual([]);
    expect(row.reasons).toEqual([
      `meets a size criterion: mid-descending aorta: ${title} (Northbody 2022)`,
      `meets a size criterion: mid-descending aorta: ${title} (Northbody 2022 [not confirmed])`,
    ]);
    expect(followUpTags(row)).toEqual(["met"]);
  });

  test("on the limit where more than it is asked for", () => {
    const above = { operator: ">", value: 55, below: null, unit: "mm", printed: "55 mm" } as const;
    expect(reasonOf(at(55, { limit: above }))).toContain("nearing: 55.0 mm");
  });

  test("met names the criteria, reached says what is open, all bodies of a limit together", () => {
    const north = at(57.4, { outcome: "met" });
    const south = { body: "Southbody", year: 2024, where: "section 9", doi: null };
    const open = at(57.4, { outcome: "not-assessable", missing: ["low risk"], confirmed: false });
    const far = { operator: ">=", value: 60, below: null, unit: "mm", printed: "60 mm" } as const;
    const row = rowOf({
      assessments: [
        at(57.4, { limit: far }),
        at(57.4, { limit: far, source: south }),
        open,
        north,
        at(50, { about: samplePlace("mid-ascending") }),
      ],
    });
    expect(row.reasons).toEqual([
      "meets a size criterion: 57.4 mm at mid-descending aorta: Size of the descending thoracic aorta (Northbody 2022)",
      "reached, other conditions not stated: 57.4 mm at mid-descending aorta, limit 55 mm (Northbody 2022 [not confirmed])",
      "nearing: 50.0 mm at mid-ascending aorta, limit 55 mm (Northbody 2022)",
      "nearing: 57.4 mm at mid-descending aorta, limit 60 mm (Northbody 2022, Southbody 2024)",
    ]);
    expect(followUpTags(row)).toEqual(["met", "near"]);
  });
});

test("the order is that of the due dates, then of the IDs; there is no other", () => {
  const due = (date: string) => ({ surveillance: surveillanceOf([sampleDue(date)]) });
  const plans = [
    quietPlan("P5", { surveillance: surveillanceOf([]) }),
    quietPlan("P4", { surveillance: surveillanceOf([]), exams: [exam("2001-01-01")] }),
    quietPlan("P3", due("2026-02-01")),
    quietPlan("P2", due("2026-02-01")),
    quietPlan("P1", due("2026-06-01")),
    quietPlan("P9", due("2020-01-01")),
  ];
  const rows = followUpRows(plans, { asOf, ...noSiteConfig.followUp });
  expect(rows.map(({ id }) => id)).toEqual(["P9", "P2", "P3", "P1", "P4", "P5"]);
});
