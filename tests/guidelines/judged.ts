import type { CaseFacts } from "../../src/cases/patient-case.ts";
import type { Assessment } from "../../src/guidelines/assessment.ts";
import { evaluateRules } from "../../src/guidelines/evaluate-rules.ts";
import { loadRules } from "../../src/guidelines/load-rules.ts";
import { asOf, inventedCase, type InventedDiameter } from "./invented-case.ts";

const shipped = loadRules();

/** The assessments of one shipped rule for an invented patient. */
export function judge(
  id: string,
  diameters: InventedDiameter[],
  stated: Partial<CaseFacts> = {},
  readingSdMm: number | null = null,
): Assessment[] {
  const rules = shipped.filter((rule) => rule.id === id);
  return evaluateRules(inventedCase(diameters, stated), rules, {
    asOf,
    readingSdMmOf: () => readingSdMm,
  });
}

/** The limit of 55 mm for the descending aorta: one part, no further conditions. */
export function descending(
  diameters: InventedDiameter[],
  stated: Partial<CaseFacts> = {},
  readingSdMm: number | null = null,
): Assessment {
  const [found, ...others] = judge("esc-2024-descending-55-mm", diameters, stated, readingSdMm);
  if (!found || others.length > 0) throw new Error("one part, one assessment");
  return found;
}
