import type { Plan } from "../../src/report/plan.ts";
import { assessments } from "./sample-criteria.ts";
import { growth } from "./sample-growth.ts";
import { examDates, measurements, samplePlace } from "./sample-measurements.ts";
import { samplePlanning } from "./sample-planning.ts";

/** An invented patient: every outcome, four exams, a disagreement, five options. Bodies, limits and values are invented too. */
export const samplePlan: Plan = {
  schema: "aortic-packet/plan/1",
  asOf: "2026-01-14",
  software: {
    name: "aortic-packet",
    version: "0.1.0",
    rulesDigest: "3fa2b1c9d8".repeat(6) + "e7f0",
  },
  preferredGuideline: null,
  patient: {
    key: "k3y0000invented0",
    id: "TEST-0001",
    issuer: "Invented Hospital",
    name: "Testperson Alpha",
    birthDate: "1957-05-02",
    ageYears: 68,
    sex: "F",
    heightCm: null,
    weightKg: 71,
    diagnosis: "descending thoracic aneurysm",
    onsetDate: null,
    symptoms: null,
    aetiology: "degenerative",
    familyHistory: "none known",
    priorRepair: "none",
    repairs: [],
    considered: "descending repair",
    question: "Does the descending aorta grow, and where could a repair land?",
  },
  exams: examDates.map((date, index) => ({
    key: date,
    studyUid: `2.25.1000${index}`,
    imagingDate: date,
    imagingDateOrigin: "study date",
    modality: "CT",
    gated: index > 1,
    reportState: index === 3 ? ["preliminary"] : [],
  })),
  measurements,
  derived: [],
  findings: [],
  arch: {
    variants: [],
    stated: [{ by: "case sheet", variant: "usual", used: [] }],
    conflict: null,
    zones: {
      "0": { from: "root", to: "first branch", branches: ["innominate artery"] },
      "1": { from: "first branch", to: "second", branches: ["left common carotid artery"] },
      "2": { from: "second", to: "third", branches: ["left subclavian artery"] },
      "3": { from: "third", to: "2 cm on", branches: [] },
      "4": { from: "2 cm on", to: "middle", branches: [] },
    },
    undefinedBecause: null,
    source: "invented zone map",
  },
  walls: [{ zone: "0", label: "zone 0", kind: "native", since: null, words: null, unclear: null }],
  dissection: null,
  growth,
  assessments,
  disagreements: [
    {
      about: samplePlace("mid-descending"),
      statements: [
        {
          rule: "invented-north-descending",
          body: "Northbody",
          year: 2022,
          outcome: "met",
          limit: "5.5 cm or more",
        },
        {
          rule: "invented-south-descending",
          body: "Southbody",
          year: 2024,
          outcome: "not-met",
          limit: "60 mm",
        },
      ],
      sentence:
        "Mid-descending aorta: met after Northbody 2022 (5.5 cm or more), not met after Southbody 2024 (60 mm).",
    },
  ],
  hiddenRules: [
    {
      rule: "invented-east-arch",
      title: "Invented arch limit",
      body: "Eastbody",
      year: 2019,
      by: "chief of imaging",
      date: "2025-11-01",
      reason: "superseded here",
    },
  ],
  surveillance: {
    schedules: [
      {
        schedule: "invented-yearly",
        title: "Invented: descending, yearly",
        source: { body: "Northbody", year: 2022, where: "section 9", doi: null },
        recommendation: null,
        confirmed: true,
        checkedAgainst: "invented page",
        says: "Yearly.",
        imaging: { words: "CT", parts: ["descending aorta"] },
        outcome: "applies",
        missing: [],
        statements: ["no complication"],
        start: { event: "last exam", date: "2026-01-12" },
        lastExam: { date: "2026-01-12", exams: ["2026-01-12"], modalities: ["CT"] },
        due: { earliest: "2027-01-12", latest: "2027-01-12" },
        overdueDays: null,
        otherExamSince: null,
        sentence: "Due on 2027-01-12.",
      },
    ],
    notApplicable: 3,
    next: {
      due: [
        {
          schedule: "invented-yearly",
          body: "Northbody",
          year: 2022,
          confirmed: true,
          imaging: "CT",
          parts: ["descending aorta"],
          earliest: "2027-01-12",
          latest: "2027-01-12",
          overdueDays: null,
          otherExamSince: null,
          statements: ["no complication"],
        },
      ],
      earliest: null,
      missing: [],
      sentence: "Next imaging by published schedules: 2027-01-12: CT (Northbody 2022).",
    },
  },
  ...samplePlanning,
  missing: [
    { what: "height", decides: ["Aortic size over height"] },
    { what: "sound length of zone 2", decides: ["landing in zone 2"] },
    { what: "diameter of zone 3", decides: ["landing in zone 3"] },
  ],
  prompts: [
    {
      text: "Is there a final report of the exam of 2026-01-12?",
      raisedBy: "the report is preliminary",
      answeredBy: "imaging lab",
    },
  ],
  messages: [
    {
      code: "csv-value-not-a-number",
      severity: "warning",
      place: {
        file: "sheets/invented-2026-01-12.csv",
        sha256: "5f".repeat(32),
        at: "record 9, line 10, column value",
      },
      data: { written: "4O.1" },
      text: 'The value "4O.1" is not a number and was left out.',
      remedy: "Correct the cell and drop the sheet again.",
    },
  ],
  cautions: [
    "This report supports, and does not replace, the judgement of licensed clinicians and local protocols.",
    "It compares measurements with published criteria. It does not recommend an operation.",
    "Check every number that matters against the images before it is used.",
  ],
};
