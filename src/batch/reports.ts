import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Message } from "../message.ts";
import { type BatchSummary, batchSummarySchema } from "../report/batch-summary.ts";
import { type Plan, planSchema } from "../report/plan.ts";
import { batchMessage } from "./messages.ts";

/** The summary of the last run in an output folder; null where there was none. */
export function readBatchSummary(out: string): BatchSummary | null {
  const path = join(out, "batch.json");
  if (!existsSync(path)) return null;
  return batchSummarySchema.parse(JSON.parse(readFileSync(path, "utf8")));
}

/** The plan report of a patient, named by patient ID or by key; or the message that says why there is none. */
export function findPlan(out: string, patient: string): { plan: Plan } | { failure: Message } {
  const batch = readBatchSummary(out);
  const rows = (batch?.patients ?? []).filter(({ id, key }) => id === patient || key === patient);
  const [row, ...others] = rows;
  if (!row) return { failure: batchMessage("packet-patient-unknown", null, { id: patient }) };
  if (others.length > 0) {
    const keys = rows.map(({ key }) => key).join(", ");
    const data = { id: patient, count: rows.length, keys };
    return { failure: batchMessage("packet-patient-ambiguous", null, data) };
  }
  if (row.failure) return { failure: row.failure };
  const path = join(out, "patients", row.key, "plan.json");
  return { plan: planSchema.parse(JSON.parse(readFileSync(path, "utf8"))) };
}
