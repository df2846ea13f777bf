import type { PatientCase } from "../../cases/patient-case.ts";
import { formatLength } from "../../quantities/format-length.ts";
import { holds, spans } from "../../quantities/limit.ts";
import { sourceWords } from "../access/access-limits.ts";
import { type AorticLength, type BeginZone, lengthToCoeliac } from "./perfusion-lengths.ts";
import { perfusionData } from "./perfusion-statements.ts";
import type { PlanningCheck } from "../planning-check.ts";

/** A covered length that a landing may come to, from the least to the most, in mm. */
export interface CoverageInterval {
  leastMm: number;
  mostMm: number;
  /** From the border of that zone to where the fabric begins; null where it is not known. */
  beyondBorderMm: number | null;
  /** "0" to "4": where the proximal edge of the fabric lies. */
  fromZone: string;
}

type CandidateZone = Exclude<BeginZone, "5">;

/** How much of the aorta a landing in one zone covers, and what is left above the coeliac artery. */
export interface Coverage {
  /** Null where neither the case nor its lengths tell; `leastMm` null where only the most is known. */
  lengthMm: { leastMm: number | null; mostMm: number; how: string } | null;
  /** Covered length over the length from the left subclavian to the coeliac artery, in per cent. */
  sharePercent: { low: number | null; high: number } | null;
  /** Negative where the coverage would reach past the coeliac artery. */
  aboveCoeliacMm: { lowMm: number; highMm: number } | null;
  checks: PlanningCheck[];
  used: string[];
  missing: string[];
}

/** `siteMm` is the covered length from which on the site marks it. `stopped` says why the zone has no meaning here. */
export function coverageOf(
  patientCase: PatientCase,
  zone: CandidateZone,
  given: CoverageInterval | null,
  basis: { asOf: string; siteMm: number; isUsualArch: boolean; stopped: string | null },
): Coverage {
  const { asOf, siteMm, isUsualArch, stopped } = basis;
  const toCoeliac = (from: BeginZone): AorticLength =>
    stopped === null
      ? lengthToCoeliac(patientCase, asOf, from, isUsualArch)
      : { missing: `borders of zone ${zone} in this arch` };
  const fromStart = toCoeliac(zone);
  const descending = toCoeliac("3");
  const lengthMm = lengthOf(given, fromStart);
  const aboveCoeliacMm = aboveCoeliac(given, fromStart);
  const wanted = `covered length from zone ${zone}`;
  const checks = [
    ...limitsOf(siteMm).map((limit) => coverageCheck(limit, lengthMm, wanted, fromStart)),
    coeliacCheck(aboveCoeliacMm, { given, wanted, fromStart }),
  ];
  const shareMissing = "missing" in descending ? [descending.missing] : [];
  return {
    lengthMm,
    sharePercent:
      lengthMm === null || "missing" in descending
        ? null
        : {
            low: lengthMm.leastMm === null ? null : (100 * lengthMm.leastMm) / descending.mm,
            high: (100 * lengthMm.mostMm) / descending.mm,
          },
    aboveCoeliacMm,
    checks,
    used: [...new Set([fromStart, descending].flatMap(usedOf))],
    missing: [...new Set([...checks.flatMap(({ missing }) => missing), ...shareMissing])],
  };
}

const usedOf = (length: AorticLength): string[] => ("missing" in length ? [] : length.used);

/** Without a given coverage the whole length down to the coeliac artery is the most that it can be above it. */
function lengthOf(given: CoverageInterval | null, fromStart: AorticLength): Coverage["lengthMm"] {
  if (given !== null) {
    const { leastMm, mostMm } = given;
    return { leastMm, mostMm, how: "by the stretches that it has to bridge" };
  }
  if ("missing" in fromStart) return null;
  const how = `at most, down to the coeliac artery: ${fromStart.how}`;
  return { leastMm: null, mostMm: fromStart.mm, how };
}

/** What is left from where the fabric ends, at the most and at the least cover, down to the coeliac artery. */
function aboveCoeliac(
  given: CoverageInterval | null,
  fromStart: AorticLength,
): Coverage["aboveCoeliacMm"] {
  if (given === null || given.beyondBorderMm === null || "missing" in fromStart) return null;
  const fromFabricMm = fromStart.mm - given.beyondBorderMm;
  return { lowMm: fromFabricMm - given.mostMm, highMm: fromFabricMm - given.leastMm };
}

interface CoverageLimit {
  id: string;
  operator: "<" | "<=";
  mm: number;
  source: string;
}

function limitsOf(siteMm: number): CoverageLimit[] {
  const { siteDefault, coverageLimits } = perfusionData;
  const bySite =
    siteMm === siteDefault.fromMm ? sourceWords(siteDefault) : "the site's own setting";
  return [
    { id: "cord-coverage-site", operator: "<", mm: siteMm, source: bySite },
    ...coverageLimits.map(({ id, overMm, ...origin }): CoverageLimit => ({
      id,
      operator: "<=",
      mm: overMm,
      source: sourceWords(origin),
    })),
  ];
}

function coverageCheck(
  { id, operator, mm, source }: CoverageLimit,
  lengthMm: Coverage["lengthMm"],
  wanted: string,
  fromStart: AorticLength,
): PlanningCheck {
  const words = operator === "<" ? "under" : "at most";
  const base = {
    id,
    label: `covered length ${words} ${mm} mm`,
    limit: `${operator} ${mm} mm`,
    source,
  };
  const isOpen = { ...base, outcome: "not-assessable" as const, spansLimit: false };
  if (lengthMm === null) {
    const missing = [wanted, ...("missing" in fromStart ? [fromStart.missing] : [])];
    return {
      ...isOpen,
      value: null,
      used: [],
      missing,
      reason: "The covered length is not known.",
    };
  }
  const { leastMm, mostMm, how } = lengthMm;
  const fits = holds(mostMm, operator, mm);
  const used = usedOf(fromStart);
  if (leastMm === null) {
    const reason = `Covered: ${how}.`;
    const value = { value: mostMm, low: null, high: mostMm, unit: "mm" };
    return fits
      ? { ...base, outcome: "met", value, spansLimit: false, used, missing: [], reason }
      : { ...isOpen, value, used, missing: [wanted], reason };
  }
  return {
    ...base,
    outcome: fits ? "met" : "not-met",
    value: { value: mostMm, low: leastMm, high: mostMm, unit: "mm" },
    spansLimit: spans(leastMm, mostMm, mm),
    used: [],
    missing: [],
    reason: `${formatLength(leastMm)} to ${formatLength(mostMm)}; judged on the most.`,
  };
}

function coeliacCheck(
  above: Coverage["aboveCoeliacMm"],
  {
    given,
    wanted,
    fromStart,
  }: { given: CoverageInterval | null; wanted: string; fromStart: AorticLength },
): PlanningCheck {
  const { id, withinMm, ...origin } = perfusionData.coeliacLimit;
  const base = {
    id,
    label: `more than ${withinMm} mm left above the coeliac artery`,
    limit: `> ${withinMm} mm`,
    source: sourceWords(origin),
    used: usedOf(fromStart),
  };
  const missing = [
    ...(given === null ? [wanted] : []),
    ...(given?.beyondBorderMm === null ? ["border of the zone on the centreline"] : []),
    ...("missing" in fromStart ? [fromStart.missing] : []),
  ];
  if (above === null) {
    const reason = "What is left above the coeliac artery is not known.";
    return { ...base, outcome: "not-assessable", value: null, spansLimit: false, missing, reason };
  }
  const { lowMm, highMm } = above;
  return {
    ...base,
    outcome: holds(lowMm, ">", withinMm) ? "met" : "not-met",
    value: { value: lowMm, low: lowMm, high: highMm, unit: "mm" },
    spansLimit: spans(lowMm, highMm, withinMm),
    missing: [],
    reason: `${formatLength(lowMm)} to ${formatLength(highMm)}; judged on the least.`,
  };
}
