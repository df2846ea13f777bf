import type { BatchSummary } from "../../src/report/batch-summary.ts";
import type { Packet } from "../../src/report/pages/packet-page.ts";
import type { Message } from "../../src/message.ts";
import { samplePlan } from "./sample-plan.ts";

const failure: Message = {
  code: "identity-conflict",
  severity: "error",
  place: { file: "reports/invented-beta.dcm", sha256: "b7".repeat(32), at: null },
  data: {},
  text: "Two files disagree on the birth date of TEST-0002.",
  remedy: "Correct one of them and drop it again.",
};

type PatientRow = BatchSummary["patients"][number];

/** A row of an invented patient. */
export function samplePatientRow(number: number, more: Partial<PatientRow> = {}): PatientRow {
  return {
    key: `k${String(number).padStart(4, "0")}`,
    id: `TEST-${String(number).padStart(4, "0")}`,
    issuer: "Invented Hospital",
    name: `Testperson ${number}`,
    outcome: "reported",
    failure: null,
    lastExam: "2026-01-12",
    changed: false,
    hasOptions: true,
    largest: "mid-descending aorta: 57.4 mm, outer edge, 2026-01-12",
    growthExceeds: 0,
    met: 1,
    notMet: 2,
    notAssessable: 3,
    missing: ["height"],
    ...more,
  };
}

/** One run over three invented patients, one of whom could not be reported. */
export const sampleBatch: BatchSummary = {
  schema: "aortic-packet/batch/1",
  asOf: "2026-01-14",
  software: samplePlan.software,
  files: [
    {
      file: "sheets/invented-2026-01-12.csv",
      sha256: "5f".repeat(32),
      kind: "measurement sheet",
      outcome: "used",
      reason: null,
      placed: 14,
      leftOut: 1,
    },
    {
      file: "reports/invented-beta.dcm",
      sha256: "b7".repeat(32),
      kind: "structured report",
      outcome: "set-aside",
      reason: failure,
      placed: 0,
      leftOut: 0,
    },
  ],
  patients: [
    samplePatientRow(1, { name: "Testperson Alpha", changed: true, growthExceeds: 1, met: 10 }),
    samplePatientRow(2, {
      name: null,
      outcome: "failed",
      failure,
      lastExam: null,
      largest: null,
      met: 0,
      missing: [],
    }),
    samplePatientRow(3, {
      name: "Testperson Gamma",
      issuer: null,
      lastExam: "2025-03-01",
      met: 9,
      missing: ["height", "weight", "onset date", "diameter of zone 3"],
    }),
  ],
  messages: [failure],
};

/** A meeting of three cases: a report, none, and a second report. */
export const samplePacket: Packet = {
  asOf: "2026-01-14",
  meetingDate: "2026-01-15",
  software: samplePlan.software,
  cases: [
    {
      order: 1,
      patientId: "TEST-0001",
      presenterRole: "vascular surgery",
      question: "Where could a repair land?",
      depth: "options",
      plan: samplePlan,
      failure: null,
    },
    {
      order: 2,
      patientId: "TEST-0002",
      presenterRole: null,
      question: null,
      depth: "plan report",
      plan: null,
      failure,
    },
    {
      order: 3,
      patientId: "TEST-0003",
      presenterRole: "aortic surgery",
      question: "Does it grow?",
      depth: "plan report",
      plan: {
        ...samplePlan,
        patient: { ...samplePlan.patient, name: "Testperson Gamma", id: "TEST-0003" },
      },
      failure: null,
    },
  ],
  files: sampleBatch.files,
  messages: sampleBatch.messages,
};
