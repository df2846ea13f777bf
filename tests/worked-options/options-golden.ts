import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { expect } from "vitest";
import type { PlanningCheck } from "../../src/planning/planning-check.ts";
import type { WorkedCase } from "./worked-case.ts";

const judged = (checks: readonly PlanningCheck[]) =>
  checks.map(({ id, outcome, missing }) => ({ id, outcome, missing }));

/** What is kept of a worked case: its landings whole, of the other checks what they came to. */
function keptOf({ planning }: WorkedCase): unknown {
  const { options, distalLandings, coverages, archPlans, access, perfusion } = planning;
  return {
    options,
    distalLandings,
    coverages,
    archPlans: archPlans.map(({ id, requirements }) => ({ id, checks: judged(requirements) })),
    access: access.sides.map(({ side, checks, sheaths }) => ({
      side,
      checks: judged(checks),
      sheaths: (sheaths ?? []).map((one) => ({
        sheath: one.asWritten,
        checks: judged(one.checks),
      })),
    })),
    cord: perfusion.cord.zones.map(({ zone, checks }) => ({ zone, checks: judged(checks) })),
    brain: perfusion.brain.zones.map(({ zone, supplies }) => ({
      zone,
      checks: judged(supplies.map(({ check }) => check)),
    })),
  };
}

/** Compares with the stored file, or writes it where UPDATE_GOLDEN is set. */
export function expectOptionsGolden(name: string, worked: WorkedCase): void {
  const path = `tests/golden/${name}.options.json`;
  const text = `${JSON.stringify(keptOf(worked), null, 1)}\n`;
  if (process.env["UPDATE_GOLDEN"]) writeFileSync(path, text);
  expect(existsSync(path), `${path} is missing; write it with UPDATE_GOLDEN=1 and read it`).toBe(
    true,
  );
  expect(text).toBe(readFileSync(path, "utf8"));
}
