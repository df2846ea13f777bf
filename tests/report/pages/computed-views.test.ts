import { describe, expect, test } from "vitest";
import { derivedRows } from "../../../src/report/pages/derived-view.ts";
import { projectionWords } from "../../../src/report/pages/projection-words.ts";
import { nextImagingItems, surveillanceView } from "../../../src/report/pages/surveillance-view.ts";
import { titleBlock } from "../../../src/report/pages/title-block.ts";
import type { Plan, PlanGrowth } from "../../../src/report/plan.ts";
import { samplePlace } from "../sample-measurements.ts";
import { samplePlan } from "../sample-plan.ts";

type Projection = PlanGrowth["projections"][number];
const projection = (limitMm: number, more: Partial<Projection>): Projection => ({
  limitMm,
  rules: ["r"],
  sources: ["Northbody 2022"],
  answer: "not within the horizon",
  earliest: null,
  latest: null,
  horizon: "2029-01-01",
  sentence: `${limitMm} mm: a sentence.`,
  ...more,
});

describe("a projection in one sentence", () => {
  test("limits are named once each, with the day to which the exams carry", () => {
    const words = projectionWords([
      projection(45, { answer: "already at or over", horizon: null }),
      projection(50, { answer: "between", earliest: "2026-05-01", latest: "2027-02-01" }),
      projection(52, { answer: "not before", earliest: "2027-03-01" }),
      projection(55, {}),
      projection(60, {}),
    ]);
    expect(words).toBe(
      "Projection: at or over 45 mm already; 50 mm between 2026-05-01 and 2027-02-01; 52 mm not before 2027-03-01; 55 and 60 mm not reached, by the 95 % band of a straight line, which the exams carry to 2029-01-01.",
    );
  });

  test("what can't be projected says why, and nothing is said without a limit", () => {
    const none = projection(55, {
      answer: "no projection",
      horizon: null,
      sentence: "No: on a graft.",
    });
    expect(projectionWords([none])).toBe("No: on a graft.");
    expect(projectionWords([])).toBeNull();
  });
});

describe("the title of a page", () => {
  const [due] = samplePlan.surveillance.next.due;
  const lastExamOf = (more: object): string => {
    const { surveillance } = samplePlan;
    const late = { ...due, latest: "2025-12-01", overdueDays: 44, ...more } as NonNullable<
      typeof due
    >;
    const next = { ...surveillance.next, due: [late] };
    return titleBlock({ ...samplePlan, surveillance: { ...surveillance, next } }, "Summary")
      .lastExam;
  };

  test("says since when imaging is overdue, unless there was imaging of another kind", () => {
    expect(lastExamOf({})).toContain("next overdue since 2025-12-01");
    expect(lastExamOf({ otherExamSince: "2026-01-12" })).not.toContain("overdue");
    expect(lastExamOf({ overdueDays: null })).not.toContain("overdue");
  });
});

describe("next imaging", () => {
  const [due] = samplePlan.surveillance.next.due;
  if (!due) throw new Error("the sample has no due imaging");
  const planWith = (dues: Plan["surveillance"]["next"]["due"]): Plan => ({
    ...samplePlan,
    surveillance: {
      ...samplePlan.surveillance,
      next: { ...samplePlan.surveillance.next, due: dues },
    },
  });

  test("a row says when, what, by whom, counted from what and under which condition", () => {
    expect(surveillanceView(samplePlan).rows).toEqual([
      {
        when: "2027-01-12",
        overdue: "",
        imaging: "CT of descending aorta",
        source: "Northbody 2022",
        countedFrom: "last exam 2026-01-12",
        holdsIf: "no complication",
      },
    ]);
  });

  test("bodies with the same day stand together; overdue and not confirmed are said", () => {
    const late = { ...due, latest: "2025-12-01", earliest: "2025-12-01", overdueDays: 44 };
    const seen = { ...late, otherExamSince: "2026-01-12", overdueDays: 44 };
    expect(nextImagingItems(planWith([seen]))).toEqual([
      "2025-12-01: CT, passed; other imaging there on 2026-01-12 (Northbody 2022)",
    ]);
    const items = nextImagingItems(
      planWith([late, { ...late, body: "Southbody", confirmed: false }, due]),
    );
    expect(items).toEqual([
      "2025-12-01: CT, overdue by 44 days (Northbody 2022, Southbody 2022*)",
      "2027-01-12: CT (Northbody 2022)",
    ]);
  });
});

test("derived quantities stand by section, with the range of their rounding and what they come from", () => {
  const derived = (kind: string, value: number, unit: string): Plan["derived"][number] => ({
    key: `D-${kind}`,
    exam: "2026-01-12",
    place: samplePlace("zone-9"),
    lumen: "true",
    edge: "inner",
    plane: "unstated",
    phase: "unstated",
    kind,
    value,
    unit,
    low: value - 0.05,
    high: value + 0.05,
    derivedFrom: ["M1"],
    how: "written so",
  });
  const rows = derivedRows({
    ...samplePlan,
    derived: [derived("mean diameter", 29.2, "mm"), derived("smallest over largest", 0.9, "1")],
  });
  expect(rows).toEqual({
    date: "2026-01-12",
    rows: [
      {
        place: "Zone 9, infrarenal aorta",
        of: "inner edge, true lumen",
        values: [
          { what: "Mean diameter 29.2 mm (29.1 to 29.3)", how: "written so, D-mean diameter;" },
          {
            what: "Smallest over largest 0.90 (0.85 to 0.95)",
            how: "written so, D-smallest over largest",
          },
        ],
      },
    ],
  });
});
