import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { findPlan } from "../../src/batch/reports.ts";
import { failedRow } from "../../src/batch/summarise.ts";
import { jsonText } from "../../src/batch/write-output.ts";
import { patientKey } from "../../src/cases/identity.ts";
import { caseMessage } from "../../src/cases/messages.ts";
import type { BatchSummary } from "../../src/report/batch-summary.ts";

let out = "";
beforeEach(() => {
  out = mkdtempSync(join(tmpdir(), "reports-"));
  const failure = caseMessage("case-without-exam", null);
  const row = (id: string, issuer: string) =>
    failedRow({ key: patientKey(id, issuer), id, issuer, failure }, false);
  const batch: BatchSummary = {
    schema: "aortic-packet/batch/1",
    asOf: "2026-01-15",
    software: { name: "aortic-packet", version: "test", rulesDigest: "0" },
    files: [],
    patients: [row("TEST-1", "ONE"), row("TEST-1", "TWO"), row("TEST-2", "ONE")],
    messages: [],
  };
  writeFileSync(join(out, "batch.json"), jsonText(batch));
});
afterEach(() => rmSync(out, { recursive: true }));

/** The code of the message in place of a plan. */
const failureCode = (patient: string): string => {
  const found = findPlan(out, patient);
  if (!("failure" in found)) throw new Error("there is no plan in this folder");
  return found.failure.code;
};

describe("findPlan", () => {
  test.each([
    ["an ID that no patient has", "TEST-3", "packet-patient-unknown"],
    ["an ID of two issuers", "TEST-1", "packet-patient-ambiguous"],
    ["a patient without a report", "TEST-2", "case-without-exam"],
    ["one of the two by key", patientKey("TEST-1", "TWO"), "case-without-exam"],
  ])("%s", (_, patient, code) => {
    expect(failureCode(patient)).toBe(code);
  });

  test("a folder without any run", () => {
    rmSync(join(out, "batch.json"));
    expect(failureCode("TEST-2")).toBe("packet-patient-unknown");
  });
});
