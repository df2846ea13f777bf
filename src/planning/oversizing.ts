import { daysBetween } from "../quantities/days-between.ts";
import type { CaseFacts } from "../cases/patient-case.ts";
import { dissections } from "../cases/vocabulary.ts";
import { holds } from "../quantities/limit.ts";
import type { InventoryRow } from "../readers/csv/inventory.ts";
import { landingData, type OversizingWindow } from "./landing-data.ts";

/** The window that the diagnosis asks for, or the fact that is missing to tell. */
export function oversizingWindow(
  facts: CaseFacts,
  asOf: string,
): { window: OversizingWindow } | { missing: string } {
  const { diagnoses, onsetDate } = facts;
  if (diagnoses === null || diagnoses.length === 0) return { missing: "diagnosis" };
  const isDissection = diagnoses.some((diagnosis) => dissections.has(diagnosis));
  if (!isDissection) {
    return diagnoses.some((diagnosis) => diagnosis.endsWith("aneurysm"))
      ? { window: windowFor("aneurysm") }
      : { missing: `an oversizing window for ${diagnoses.join(", ")}` };
  }
  if (onsetDate === null) return { missing: "onset date of the dissection" };
  const days = daysBetween(onsetDate, asOf);
  // Acute to 14 days, subacute to 90, chronic beyond: ESC 2024, section 9.3.1.
  if (days <= 14) return { window: windowFor("acute-dissection") };
  if (days > 90) return { window: windowFor("chronic-dissection") };
  return { missing: "an oversizing window for a subacute dissection" };
}

function windowFor(id: OversizingWindow["id"]): OversizingWindow {
  const window = landingData.oversizing.find((row) => row.id === id);
  if (!window) throw new Error(`landing-zones.yaml has no oversizing window ${id}`);
  return window;
}

/** Nominal graft diameters in mm, both ends included. */
export interface GraftInterval {
  graftLowMm: number;
  graftHighMm: number;
  /** The diameters that lie inside the window whatever the true vessel diameter within its error; empty where low is over high. */
  surelyInsideLowMm: number;
  surelyInsideHighMm: number;
}

/** The inventory rows whose proximal diameter lies in the interval, in the order of the inventory. */
export function rowsThatFit(
  { graftLowMm, graftHighMm }: GraftInterval,
  inventory: readonly InventoryRow[],
): { id: string; proximalMm: number }[] {
  return inventory
    .filter(
      ({ proximalMm }) =>
        holds(proximalMm, ">=", graftLowMm) && holds(proximalMm, "<=", graftHighMm),
    )
    .map(({ id, proximalMm }) => ({ id, proximalMm }));
}

/**
 * Oversizing is (graft / vessel - 1) * 100 %. Returns the graft diameters that it allows for a
 * vessel of `diameterMm`, and those it allows for every vessel within `diameterMm` +/- `errorMm`.
 */
export function graftInterval(
  diameterMm: number,
  errorMm: number,
  window: Pick<OversizingWindow, "lowPercent" | "highPercent">,
): GraftInterval {
  const lowRatio = (100 + window.lowPercent) / 100;
  const highRatio = (100 + window.highPercent) / 100;
  return {
    graftLowMm: diameterMm * lowRatio,
    graftHighMm: diameterMm * highRatio,
    surelyInsideLowMm: (diameterMm + errorMm) * lowRatio,
    surelyInsideHighMm: (diameterMm - errorMm) * highRatio,
  };
}
