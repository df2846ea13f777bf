import type { PlanAssessment } from "../../src/report/plan.ts";
import { keyOf, samplePlace } from "./sample-measurements.ts";

const assessmentDefaults: PlanAssessment = {
  rule: "invented-rule",
  title: "Size of the descending thoracic aorta",
  source: {
    body: "Northbody",
    year: 2022,
    where: "section 6.2, table 4",
    doi: "10.0000/invented.1",
  },
  recommendation: { class: "1", level: "B-NR", confirmed: true },
  confirmed: true,
  checkedAgainst: "invented print, page 12",
  outcome: "met",
  about: samplePlace("mid-descending"),
  used: [keyOf("mid-descending", "2026-01-12")],
  value: { value: 57.4, low: 53.5, high: 61.3, unit: "mm" },
  spansLimit: true,
  limit: { operator: ">=", value: 55, below: null, unit: "mm", printed: "5.5 cm or more" },
  missing: [],
  reason: "57.4 mm is at or above 55 mm; the reading error spans the limit.",
  says: "Repair is listed as an option to discuss at this size.",
};

/** An invented criterion: bodies, limits and words are invented. */
export const assessment = (rule: string, more: Partial<PlanAssessment>): PlanAssessment => ({
  ...assessmentDefaults,
  rule,
  ...more,
});

/** One or more criteria of every outcome. */
export const assessments: PlanAssessment[] = [
  assessment("invented-north-descending", {}),
  assessment("invented-south-descending", {
    source: { body: "Southbody", year: 2024, where: "section 9", doi: null },
    recommendation: { class: "IIa", level: "B", confirmed: false },
    confirmed: false,
    checkedAgainst: null,
    outcome: "not-met",
    limit: { operator: ">=", value: 60, below: null, unit: "mm", printed: "60 mm" },
    reason: "57.4 mm is below 60 mm; the reading error spans the limit.",
  }),
  assessment("invented-north-ascending", {
    title: "Size of the ascending aorta",
    about: samplePlace("mid-ascending"),
    used: [keyOf("mid-ascending", "2026-01-12")],
    outcome: "not-met",
    value: { value: 40.6, low: 36.7, high: 44.5, unit: "mm" },
    spansLimit: false,
    reason: "40.6 mm is below 55 mm.",
  }),
  assessment("invented-north-index", {
    title: "Aortic size over height",
    about: samplePlace("mid-descending"),
    outcome: "not-assessable",
    value: null,
    spansLimit: false,
    limit: { operator: ">=", value: 3.21, below: null, unit: "cm/m", printed: "3.21 cm/m" },
    missing: ["height"],
    reason: "The height is not stated.",
  }),
  assessment("invented-gene", {
    title: "Size with a named gene",
    outcome: "not-applicable",
    about: null,
    used: [],
    value: null,
    spansLimit: false,
    reason: "The rule speaks of another aetiology.",
  }),
  assessment("invented-broken", {
    title: "Size of the abdominal aorta",
    outcome: "rule-failed",
    about: samplePlace("zone-9"),
    used: [],
    value: null,
    spansLimit: false,
    limit: { operator: ">=", value: 55, below: null, unit: "mm", printed: "5.5 cm" },
    reason: "The rule failed with code invented-fault.",
  }),
  assessment("invented-south-abdominal", {
    title: "Size of the infrarenal aorta",
    source: { body: "Southbody", year: 2024, where: "section 12", doi: null },
    about: samplePlace("zone-9"),
    used: [keyOf("zone-9", "2026-01-12")],
    outcome: "not-met",
    value: { value: 23.3, low: 19.4, high: 27.2, unit: "mm" },
    spansLimit: false,
    limit: { operator: ">=", value: 55, below: null, unit: "mm", printed: "55 mm" },
    reason: "23.3 mm is below 55 mm.",
  }),
  assessment("invented-north-root", {
    title: "Size of the aortic root",
    about: samplePlace("sinuses-of-valsalva"),
    used: [keyOf("sinuses-of-valsalva", "2026-01-12")],
    outcome: "not-met",
    value: { value: 38.4, low: 34.5, high: 42.3, unit: "mm" },
    spansLimit: false,
    reason: "38.4 mm is below 55 mm.",
  }),
];
