import type { PlanGrowth } from "../../src/report/plan.ts";
import { diameters, examDates, measurements, samplePlace } from "./sample-measurements.ts";

const point = (place: string, index: number, more: Partial<PlanGrowth["points"][number]> = {}) => {
  const date = examDates[index] ?? "";
  const here = measurements.filter(
    (one) => one.place.id === place && one.exam === date && one.quantity === "diameter",
  );
  const values = here.map(({ value }) => value);
  return {
    exam: date,
    date,
    values,
    measurements: here.map(({ key }) => key),
    low: Math.min(...values) - 3.9,
    high: Math.max(...values) + 3.9,
    edge: "outer" as const,
    sdMm: 2,
    plane: "perpendicular" as const,
    phase: "unstated" as const,
    comparability: "comparable" as const,
    offset: null,
    reasons: [],
    ...more,
  };
};

/** An invented growth series of a place. */
export function growthOf(place: string, more: Partial<PlanGrowth>): PlanGrowth {
  const label = samplePlace(place).label;
  return {
    key: `g-${place}`,
    place: samplePlace(place),
    quantity: "diameter",
    statistic: "maximum",
    lumen: "whole",
    points: [0, 1, 2, 3]
      .filter((index) => typeof diameters[place]?.[index] === "number")
      .map((index) => point(place, index)),
    intervals: [
      {
        from: "2024-12-03",
        to: "2026-01-12",
        days: 405,
        change: { value: 2.4, low: -3.1, high: 7.9, unit: "mm" },
        rate: { value: 2.2, low: -2.8, high: 7.1, unit: "mm/year" },
      },
    ],
    rate: { value: 1.7, low: 0.2, high: 3.2, unit: "mm/year" },
    rateMethod: "weighted least squares over all comparable exams, t interval",
    readingError: {
      lowSdMm: 1.5,
      highSdMm: 2,
      source: "invented reading error, 2020",
      basis: "published",
    },
    otherReadingErrors: [],
    rateChange: { answer: "too few exams", sentence: "Too few exams to tell." },
    projections: [],
    comparability: [],
    wall: null,
    answers: [
      {
        rule: "invented-growth-north",
        body: "Northbody",
        year: 2022,
        confirmed: true,
        limitMmPerYear: 3,
        answer: "cannot-tell",
        outcome: "not-met",
        tellableInMonths: 18,
        reason: "The interval of the rate holds the limit.",
      },
    ],
    sentence: `${label}: 5.3 mm more in 3.2 years, 1.7 mm per year (0.2 to 3.2); against 3 mm per year: cannot tell.`,
    ...more,
  };
}

/** The invented growth series. */
export const growth: PlanGrowth[] = [
  growthOf("mid-ascending", {
    answers: [],
    rate: { value: 0.4, low: -1.1, high: 1.9, unit: "mm/year" },
    sentence: "Mid-ascending aorta: 1.2 mm more in 3.2 years, 0.4 mm per year (-1.1 to 1.9).",
  }),
  growthOf("proximal-descending", {
    rate: { value: 4.0, low: 3.4, high: 4.6, unit: "mm/year" },
    answers: [
      {
        rule: "invented-growth-north",
        body: "Northbody",
        year: 2022,
        confirmed: true,
        limitMmPerYear: 3,
        answer: "exceeds",
        outcome: "met",
        tellableInMonths: null,
        reason: "The whole interval of the rate lies above the limit.",
      },
    ],
    sentence:
      "Proximal descending aorta: 12.5 mm more in 3.2 years, 4.0 mm per year (3.4 to 4.6); against 3 mm per year: exceeds.",
  }),
  growthOf("mid-descending", {
    points: [0, 1, 2, 3].map((index) =>
      index === 0
        ? point("mid-descending", 0, {
            comparability: "not-comparable",
            edge: "inner",
            reasons: ["inner edge, the last is outer edge"],
          })
        : point("mid-descending", index),
    ),
    comparability: ["2022-11-08 was read at the inner edge"],
  }),
  growthOf("zone-9", {
    rate: null,
    rateMethod: "no rate: under six months",
    intervals: [],
    answers: [
      {
        rule: "invented-growth-south",
        body: "Southbody",
        year: 2024,
        confirmed: true,
        limitMmPerYear: 10,
        answer: "does-not-exceed",
        outcome: "not-met",
        tellableInMonths: null,
        reason: "The whole interval lies below the limit.",
      },
    ],
    sentence:
      "Zone 9, infrarenal aorta: 1.3 mm more in 3.2 years; against 10 mm per year: does not exceed.",
  }),
];
