import type { Plan } from "../../src/report/plan.ts";
import { samplePlan } from "./sample-plan.ts";

type Due = Plan["surveillance"]["next"]["due"][number];

/** Imaging that is due by an invented schedule. */
export const sampleDue = (earliest: string, latest = earliest, more: Partial<Due> = {}): Due => ({
  schedule: "invented-yearly",
  body: "Northbody",
  year: 2022,
  confirmed: true,
  imaging: "CT",
  parts: ["descending aorta"],
  earliest,
  latest,
  overdueDays: null,
  otherExamSince: null,
  statements: [],
  ...more,
});

/** What a plan says of the next imaging; without dates, what is missing to judge the one schedule. */
export function surveillanceOf(
  due: Due[],
  {
    missing = [],
    outcome = "applies",
  }: { missing?: string[]; outcome?: "applies" | "not-assessable" } = {},
): Plan["surveillance"] {
  const [schedule] = samplePlan.surveillance.schedules;
  if (!schedule) throw new Error("the sample has no schedule");
  return {
    schedules: [{ ...schedule, outcome, missing }],
    notApplicable: 0,
    next: { due, earliest: due[0] ?? null, missing, sentence: "invented" },
  };
}

/** An invented patient of whom there is nothing to tell: one CT of 2026-01-12, a date a year later. */
export function quietPlan(id: string, more: Partial<Plan> = {}): Plan {
  return {
    ...samplePlan,
    patient: { ...samplePlan.patient, id, key: `key-${id}` },
    exams: samplePlan.exams.slice(-1),
    growth: [],
    assessments: [],
    surveillance: surveillanceOf([sampleDue("2027-01-12")]),
    ...more,
  };
}
