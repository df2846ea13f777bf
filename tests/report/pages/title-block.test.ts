import { expect, test } from "vitest";
import { titleBlock } from "../../../src/report/pages/title-block.ts";
import { samplePlan } from "../sample-plan.ts";

test.each([
  [null, null, "arch aneurysm"],
  ["none", null, "arch aneurysm; symptoms: none"],
  ["hoarseness", "2026-01-02", "arch aneurysm, onset 2026-01-02; symptoms: hoarseness"],
])("symptoms %j stand behind the diagnosis as written", (symptoms, onsetDate, words) => {
  const patient = { ...samplePlan.patient, diagnosis: "arch aneurysm", symptoms, onsetDate };
  const { words: cells } = titleBlock({ ...samplePlan, patient }, "Summary");
  expect(cells.find(({ label }) => label === "Diagnosis")?.value).toBe(words);
});
