import { placeById } from "../../anatomy/places.ts";
import type { PatientCase } from "../../cases/patient-case.ts";
import type { InventoryRow } from "../../readers/csv/inventory.ts";
import type { PlanningSettings } from "../../site/planning-settings.ts";
import { accessLimits, sourceWords } from "./access-limits.ts";
import { type AccessPath, accessPath, type AccessStretch, lumenOver } from "./access-lumen.ts";
import { courseChecks } from "./access-course.ts";
import { obstacleChecks } from "./access-obstacles.ts";
import type { AccessErrors, Side } from "./access-samples.ts";
import { lumenCheck, sheathAccess, type SheathAccess, sheathsOf } from "./access-sheaths.ts";
import { findingNeeded, findingWords, latestFinding } from "../latest-finding.ts";
import type { PlanningCheck } from "../planning-check.ts";

/** The way in on one side. Lengths in mm with 95 % intervals. */
export interface AccessSide {
  side: Side;
  /** From the aorta down. */
  stretches: AccessStretch[];
  /** Sections of a path that can't be placed on a stretch; null without any. */
  unplaced: AccessStretch | null;
  /** The narrowest of what is measured; null where nothing is. `isWhole`: every stretch has its least diameter. */
  narrowest: {
    valueMm: number;
    lowMm: number;
    highMm: number;
    at: string;
    isWhole: boolean;
    used: string[];
  } | null;
  /** Between neighbouring sections of the path, in mm; null without a path. */
  largestGapMm: number | null;
  internalIliac: { words: string; used: string[] };
  checks: PlanningCheck[];
  /** One entry an outer size of the inventory, smallest first; null without an inventory. */
  sheaths: SheathAccess[] | null;
  missing: string[];
}

/** What the access rests on besides the case. */
export interface AccessBasis extends AccessErrors {
  /** YYYY-MM-DD. */
  asOf: string;
  /** Null where the site names no inventory. */
  inventory: readonly InventoryRow[] | null;
  planning: Pick<PlanningSettings, "sheathRatio">;
}

/** One side against published limits and the sheaths of the inventory. */
export function accessSide(patientCase: PatientCase, side: Side, basis: AccessBasis): AccessSide {
  const { asOf, inventory, planning } = basis;
  const path = accessPath(patientCase, side, asOf, basis);
  const lumen = lumenOver(path.stretches, path.unplaced);
  const checks = [
    conduitCheck(path),
    ...obstacleChecks(patientCase, side, asOf),
    ...courseChecks(patientCase, side, asOf),
  ];
  const sheaths =
    inventory &&
    sheathsOf(inventory).map((sheath) => sheathAccess(sheath, lumen, planning.sheathRatio));
  const internalIliac = placeById(`${side}-internal-iliac-artery`);
  const seen = latestFinding(patientCase, asOf, "patency", internalIliac.id);
  const { narrowestMm, at, isWhole, used } = lumen;
  const missing = [
    ...lumen.missing,
    ...checks.flatMap((check) => check.missing),
    ...(sheaths ?? []).flatMap((sheath) => sheath.checks.flatMap((check) => check.missing)),
    ...(sheaths === null ? ["the site's inventory, for the sheath sizes"] : []),
    ...(seen.state === null ? [findingNeeded(`patency of the ${internalIliac.label}`, seen)] : []),
  ];
  return {
    side,
    stretches: path.stretches,
    unplaced: path.unplaced,
    narrowest: narrowestMm && {
      valueMm: narrowestMm.value,
      lowMm: narrowestMm.low,
      highMm: narrowestMm.high,
      at,
      isWhole,
      used,
    },
    largestGapMm: path.largestGapMm,
    internalIliac: { words: findingWords(seen), used: seen.used },
    checks,
    sheaths,
    missing: [...new Set(missing)],
  };
}

/** The source speaks of the external iliac and the femoral artery alone. */
function conduitCheck({ stretches, unplaced }: AccessPath): PlanningCheck {
  const { limitMm, ...origin } = accessLimits.conduit;
  const base = {
    id: "access-conduit",
    label: `external iliac and common femoral artery not under ${limitMm} mm (under it an iliac conduit may be needed)`,
    limit: `>= ${limitMm} mm`,
    source: sourceWords(origin),
  };
  const own = stretches.filter(({ id }) => id !== "common iliac");
  const { narrowestMm, at, isWhole, missing, used } = lumenOver(own, null);
  if (narrowestMm !== null) {
    return lumenCheck(base, limitMm, { narrowestMm, at, isWhole, missing, used });
  }
  return {
    ...base,
    outcome: "not-assessable",
    value: null,
    spansLimit: false,
    used: [],
    missing: [...missing, ...(unplaced?.missing ?? [])],
    reason: "No diameter of these two arteries is measured.",
  };
}
