import type { InventoryRow } from "../../readers/csv/inventory.ts";
import { formatLength } from "../../quantities/format-length.ts";
import { mmToFrench } from "../../quantities/french.ts";
import { holds, spans } from "../../quantities/limit.ts";
import { accessLimits, type RatioLimit, sourceWords } from "./access-limits.ts";
import type { AccessLumen, Bounded } from "./access-lumen.ts";
import type { PlanningCheck } from "../planning-check.ts";

/** One outer size of sheath, with the rows of the inventory that need it, in the order of the inventory. */
export interface Sheath {
  outerMm: number;
  /** As the first of its rows states it. */
  asWritten: string;
  rows: string[];
}

/** One sheath on one side. */
export interface SheathAccess extends Sheath {
  /** Outer diameter over the narrowest lumen; without an upper end where the lumen may be narrower. */
  ratio: { value: number; low: number; high: number | null } | null;
  checks: PlanningCheck[];
}

/** The outer sizes of an inventory, each once, smallest first. */
export function sheathsOf(inventory: readonly InventoryRow[]): Sheath[] {
  const sizes = Map.groupBy(inventory, ({ sheathOuterMm }) => sheathOuterMm.toFixed(3));
  return [...sizes.values()]
    .flatMap((rows): Sheath[] => {
      const [first] = rows;
      if (!first) return [];
      const { sheathOuterMm: outerMm, sheathAsWritten: asWritten } = first;
      return [{ outerMm, asWritten, rows: rows.map(({ id }) => id) }];
    })
    .toSorted((a, b) => a.outerMm - b.outerMm);
}

/** One sheath against the lumen of a side, by the site's ratio (`siteRatio`) and by every published limit. */
export function sheathAccess(sheath: Sheath, lumen: AccessLumen, siteRatio: number): SheathAccess {
  return {
    ...sheath,
    ratio: lumen.narrowestMm && ratioOf(sheath.outerMm, lumen.narrowestMm, lumen.isWhole),
    checks: [
      ...ratioLimits(siteRatio).map((limit) =>
        limit.of === "diameter"
          ? diameterRatioCheck(limit, sheath, lumen)
          : areaRatioCheck(limit, sheath, lumen),
      ),
      tableCheck(sheath, lumen),
    ],
  };
}

/** The site's own ratio first; where it is a published one it stands once, with that source. */
function ratioLimits(siteRatio: number): RatioLimit[] {
  const isSites = ({ of, limit }: RatioLimit): boolean => of === "diameter" && limit === siteRatio;
  const own: RatioLimit = accessLimits.ratios.find(isSites) ?? {
    id: "sheath-ratio-of-site",
    of: "diameter",
    limit: siteRatio,
    source: "the site's own setting",
    confirmed: true,
  };
  return [own, ...accessLimits.ratios.filter((limit) => !isSites(limit))];
}

function ratioOf(sheathMm: number, lumenMm: Bounded, isWhole: boolean) {
  return {
    value: sheathMm / lumenMm.value,
    low: sheathMm / lumenMm.high,
    high: isWhole && lumenMm.low > 0 ? sheathMm / lumenMm.low : null,
  };
}

type RatioBase = Pick<PlanningCheck, "id" | "label" | "limit" | "source">;

const baseOf = ({ id, of, limit, ...origin }: RatioLimit): RatioBase => ({
  id,
  label: `outer sheath over least lumen ${of} at most ${limit}`,
  limit: `<= ${limit} (no unit)`,
  source: sourceWords(origin),
});

const unknown = (base: RatioBase, missing: string[], used: string[], reason: string) => ({
  ...base,
  outcome: "not-assessable" as const,
  value: null,
  spansLimit: false,
  used,
  missing,
  reason,
});

/** A lumen that may be narrower than what is measured can show that a sheath is over a limit, never that it is within. */
function diameterRatioCheck(limit: RatioLimit, sheath: Sheath, lumen: AccessLumen): PlanningCheck {
  const base = baseOf(limit);
  const { narrowestMm, isWhole, missing, used, at } = lumen;
  if (narrowestMm === null) {
    return unknown(base, missing, used, "No lumen diameter is measured on this way.");
  }
  const ratio = ratioOf(sheath.outerMm, narrowestMm, isWhole);
  const isWithin = holds(ratio.value, "<=", limit.limit);
  const isOpen = isWithin && !isWhole;
  const said = `${formatLength(sheath.outerMm)} (${sheath.asWritten}) in ${formatLength(narrowestMm.value)}, ${at}: ${ratio.value.toFixed(3)}`;
  return {
    ...base,
    outcome: isOpen ? "not-assessable" : isWithin ? "met" : "not-met",
    value: { ...ratio, unit: "1" },
    spansLimit: spans(ratio.low, ratio.high ?? Number.POSITIVE_INFINITY, limit.limit),
    used,
    missing: isOpen ? missing : [],
    reason: isWhole ? `${said}.` : `${said} at least; the way is not measured whole.`,
  };
}

function areaRatioCheck(limit: RatioLimit, { outerMm }: Sheath, lumen: AccessLumen): PlanningCheck {
  const base = baseOf(limit);
  const { leastAreaMm2, areaMissing, areaUsed } = lumen;
  if (leastAreaMm2 === null) {
    return unknown(base, areaMissing, areaUsed, "The lumen area is not measured on the whole way.");
  }
  const sheathMm2 = (Math.PI / 4) * outerMm ** 2;
  const ratio = ratioOf(sheathMm2, leastAreaMm2, true);
  return {
    ...base,
    outcome: holds(ratio.value, "<=", limit.limit) ? "met" : "not-met",
    value: { ...ratio, unit: "1" },
    spansLimit: spans(ratio.low, ratio.high ?? Number.POSITIVE_INFINITY, limit.limit),
    used: areaUsed,
    missing: [],
    reason: `${sheathMm2.toFixed(1)} mm2 in ${leastAreaMm2.value.toFixed(1)} mm2: ${ratio.value.toFixed(3)}.`,
  };
}

/** The table is in whole French: an outer size in mm is taken as the nearest. */
function tableCheck(sheath: Sheath, lumen: AccessLumen): PlanningCheck {
  const { teachingTable } = accessLimits;
  const french = Math.round(mmToFrench(sheath.outerMm));
  const row = teachingTable.rows.find(({ fromFr, toFr }) => fromFr <= french && french <= toFr);
  const base = {
    id: "sheath-teaching-table",
    label: `least lumen diameter for a sheath of ${french} Fr`,
    limit: row ? `>= ${row.leastMm} mm` : "none for this size",
    source: sourceWords(teachingTable),
  };
  const { narrowestMm, isWhole, missing, used, at } = lumen;
  if (row === undefined) {
    const reason = `The table has no row for ${french} Fr.`;
    return { ...unknown(base, [], [], reason), outcome: "not-applicable" };
  }
  if (narrowestMm === null) {
    return unknown(base, missing, used, "No lumen diameter is measured on this way.");
  }
  return lumenCheck(base, row.leastMm, { narrowestMm, isWhole, missing, used, at });
}

/** The narrowest lumen against a least diameter in mm. */
export function lumenCheck(
  base: RatioBase,
  leastMm: number,
  lumen: Pick<AccessLumen, "isWhole" | "missing" | "used" | "at"> & { narrowestMm: Bounded },
): PlanningCheck {
  const { narrowestMm, isWhole, missing, used, at } = lumen;
  const { value, low, high } = narrowestMm;
  const isEnough = holds(value, ">=", leastMm);
  const isOpen = isEnough && !isWhole;
  return {
    ...base,
    outcome: isOpen ? "not-assessable" : isEnough ? "met" : "not-met",
    value: { value, low: isWhole ? low : null, high, unit: "mm" },
    spansLimit: spans(isWhole ? low : 0, high, leastMm),
    used,
    missing: isOpen ? missing : [],
    reason: isWhole
      ? `Narrowest ${formatLength(value)}, ${at}.`
      : `At most ${formatLength(value)}, ${at}; the way is not measured whole.`,
  };
}
