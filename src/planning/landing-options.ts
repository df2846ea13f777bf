import { formatLength } from "../quantities/format-length.ts";
import type { Measurement, PatientCase } from "../cases/patient-case.ts";
import { dissections } from "../cases/vocabulary.ts";
import type { Outcome } from "../guidelines/rule.ts";
import { holds, spans } from "../quantities/limit.ts";
import type { PathId } from "../quantities/measured-quantity.ts";
import type { InventoryRow } from "../readers/csv/inventory.ts";
import {
  landingData,
  type LandingCondition,
  type LandingZone,
  type OversizingWindow,
} from "./landing-data.ts";
import { graftInterval, type GraftInterval, oversizingWindow, rowsThatFit } from "./oversizing.ts";
import { referenceDiameter, type ReferenceDiameter } from "./reference-diameter.ts";

/** One published condition laid beside the numbers of one zone. */
export interface LandingCheck {
  id: string;
  label: string;
  outcome: Outcome;
  value: { value: number; low: number | null; high: number | null; unit: string } | null;
  limit: string;
  spansLimit: boolean;
  source: string;
  used: string[];
  reason: string;
}

/** Everything computed for one candidate proximal landing zone. Nothing here ranks the zones. */
export interface LandingOption {
  zone: LandingZone["zone"];
  label: string;
  soundLengths: { path: PathId; valueMm: number; measurement: string }[];
  diameterRange: { lowMm: number; highMm: number; measurements: string[] } | null;
  reference: { diameterMm: number; method: string; edge: string; measurements: string[] } | null;
  oversizing:
    | ({
        situation: string;
        lowPercent: number;
        highPercent: number;
        source: string;
        /** Inventory rows whose proximal diameter lies in the window; null without an inventory. */
        inventoryRows: { id: string; proximalMm: number }[] | null;
      } & GraftInterval)
    | null;
  branchesCovered: string[];
  movedFirst: string[];
  checks: LandingCheck[];
  missing: string[];
  questions: { text: string; answeredBy: string }[];
}

/** What the options stand on besides the case. `readingSdMmOf` gives the SD of a diameter reading. */
export interface PlanningBasis {
  asOf: string;
  readingSdMmOf: (reading: Measurement) => number;
  /** Null where the site names no inventory. */
  inventory: readonly InventoryRow[] | null;
}

/** One option per candidate zone 0 to 4, in that order, also where the numbers fail or are missing. */
export function landingOptions(patientCase: PatientCase, basis: PlanningBasis): LandingOption[] {
  return landingData.zones.map((zone) => landingOption(zone, patientCase, basis));
}

function landingOption(
  zone: LandingZone,
  patientCase: PatientCase,
  basis: PlanningBasis,
): LandingOption {
  const missing: string[] = [];
  const { measurements, dateOf } = latestOfZone(zone.zone, patientCase);
  const lengths = measurements.filter(({ quantity }) => quantity === "sound-length");
  const diameters = measurements.filter(({ quantity }) =>
    ["diameter", "long-axis", "short-axis"].includes(quantity),
  );
  const sections = [...Map.groupBy(measurements, ({ place }) => place.id).values()];
  const references = sections.map(referenceDiameter);
  const reference = references
    .filter((result): result is ReferenceDiameter => "diameterMm" in result)
    .reduce<ReferenceDiameter | null>(
      (largest, next) => (largest && largest.diameterMm >= next.diameterMm ? largest : next),
      null,
    );
  if (lengths.length === 0) missing.push(`sound length in ${zoneName(zone)}`);
  if (diameters.length === 0) missing.push(`diameters in ${zoneName(zone)}`);
  else if (!reference) {
    const why = references.map((result) => ("why" in result ? result.why : "")).find(Boolean);
    missing.push(`reference diameter in ${zoneName(zone)}: ${why}`);
  }
  const chosen = oversizingWindow(patientCase.facts, basis.asOf);
  if ("missing" in chosen) missing.push(chosen.missing);
  const errorMmOf = (reading: Measurement) => 1.96 * basis.readingSdMmOf(reading);
  const checks = landingData.conditions
    .filter(({ zones }) => zones.includes(zone.zone))
    .map((condition) =>
      condition.quantity === "sound-length"
        ? lengthCheck(condition, zone, lengths, dateOf)
        : diameterCheck(condition, zone, diameters, errorMmOf, dateOf),
    );
  if (isCurved(zone) && lengths.length > 0 && !lengths.some(({ path }) => path === "inner-curve")) {
    missing.push(`sound length along the inner curve in ${zoneName(zone)}`);
  }
  const values = diameters.map(({ value }) => value);
  return {
    zone: zone.zone,
    label: zone.label,
    soundLengths: lengths.map(({ path, value, key }) => ({
      path,
      valueMm: value,
      measurement: key,
    })),
    diameterRange:
      values.length === 0
        ? null
        : {
            lowMm: Math.min(...values),
            highMm: Math.max(...values),
            measurements: diameters.map(({ key }) => key),
          },
    reference: reference && {
      diameterMm: reference.diameterMm,
      method: referenceMethod(reference, references.length),
      edge: reference.edge,
      measurements: reference.measurements.map(({ key }) => key),
    },
    oversizing:
      reference && "window" in chosen
        ? oversizingOf(reference, chosen.window, errorMmOf, basis)
        : null,
    branchesCovered: zone.covers,
    movedFirst: zone.movedFirst,
    checks,
    missing,
    questions: zone.questions,
  };
}

function oversizingOf(
  { diameterMm, measurements }: ReferenceDiameter,
  { label, lowPercent, highPercent, source }: OversizingWindow,
  errorMmOf: (reading: Measurement) => number,
  { inventory }: PlanningBasis,
): LandingOption["oversizing"] {
  const errorMm = Math.max(...measurements.map(errorMmOf));
  const interval = graftInterval(diameterMm, errorMm, { lowPercent, highPercent });
  return {
    situation: label,
    lowPercent,
    highPercent,
    source,
    ...interval,
    inventoryRows: inventory && rowsThatFit(interval, inventory),
  };
}

const zoneName = ({ zone }: LandingZone): string => `zone ${zone}`;
const isCurved = ({ zone }: LandingZone): boolean => zone !== "4";

/** The measurements that lie in the zone, of the latest exam that has any; lumens that can't be the whole vessel are left out. */
function latestOfZone(zone: string, { measurements, exams, facts }: PatientCase) {
  const isDissection = facts.diagnoses?.some((diagnosis) => dissections.has(diagnosis)) ?? true;
  const usable = measurements.filter(
    ({ place, lumen, quantity }) =>
      place.zones.includes(zone) &&
      place.kind !== "branch" &&
      (lumen === "whole" ||
        (lumen === "unstated" && (!isDissection || quantity === "sound-length"))),
  );
  const latest = exams.findLast(({ key }) => usable.some(({ exam }) => exam === key));
  return {
    measurements: usable.filter(({ exam }) => exam === latest?.key),
    dateOf: latest?.imagingDate ?? "",
  };
}

function referenceMethod({ method, measurements }: ReferenceDiameter, places: number): string {
  const where = measurements[0]?.place.label ?? "";
  return places > 1
    ? `${method}, ${where}, the largest of ${places} places`
    : `${method}, ${where}`;
}

/** Judged on the shortest path measured. Along a bend the centreline alone can fail a limit but not show that it holds. */
function lengthCheck(
  condition: LandingCondition,
  zone: LandingZone,
  lengths: Measurement[],
  date: string,
): LandingCheck {
  const shortest = lengths.toSorted((a, b) => a.value - b.value)[0];
  const base = checkBase(condition);
  if (!shortest) {
    const reason = `Not measured: sound length in ${zoneName(zone)}.`;
    return { ...base, outcome: "not-assessable", value: null, used: [], reason };
  }
  const value = { value: shortest.value, low: null, high: null, unit: "mm" };
  const used = [shortest.key];
  const said = `${formatLength(shortest.value)} ${pathWords[shortest.path]}, ${date}`;
  const fits = holds(shortest.value, condition.operator, condition.value);
  const hasInner = lengths.some(({ path }) => path === "inner-curve");
  if (fits && isCurved(zone) && !hasInner) {
    const reason = `${said}; the inner curve is shorter and is not measured.`;
    return { ...base, outcome: "not-assessable", value, used, reason };
  }
  return { ...base, outcome: fits ? "met" : "not-met", value, used, reason: `${said}.` };
}

const pathWords: Record<PathId, string> = {
  centreline: "along the centreline",
  "inner-curve": "along the inner curve",
  "outer-curve": "along the outer curve",
  unstated: "along a path that is not stated",
};

/** Judged on the largest diameter of the zone. */
function diameterCheck(
  condition: LandingCondition,
  zone: LandingZone,
  diameters: Measurement[],
  errorMmOf: (reading: Measurement) => number,
  date: string,
): LandingCheck {
  const largest = diameters.toSorted((a, b) => b.value - a.value)[0];
  const base = checkBase(condition);
  if (!largest) {
    const reason = `Not measured: diameters in ${zoneName(zone)}.`;
    return { ...base, outcome: "not-assessable", value: null, used: [], reason };
  }
  const errorMm = errorMmOf(largest);
  const [low, high] = [largest.value - errorMm, largest.value + errorMm];
  const edge = largest.edge === "unstated" ? "edge not stated" : `${largest.edge} edge`;
  return {
    ...base,
    outcome: holds(largest.value, condition.operator, condition.value) ? "met" : "not-met",
    value: { value: largest.value, low, high, unit: "mm" },
    spansLimit: spans(low, high, condition.value),
    used: [largest.key],
    reason: `Largest diameter ${formatLength(largest.value)}, ${largest.place.label}, ${edge}, ${date}.`,
  };
}

const checkBase = ({ id, label, operator, value, source, confirmed }: LandingCondition) => ({
  id,
  label,
  limit: `${operator} ${value} mm`,
  spansLimit: false,
  source: confirmed ? source : `${source} (not confirmed against the source)`,
});
