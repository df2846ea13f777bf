import type { Measurement } from "../cases/patient-case.ts";
import type { Outcome } from "../guidelines/rule.ts";
import { formatLength } from "../quantities/format-length.ts";
import { holds, spans } from "../quantities/limit.ts";
import type { PathId } from "../quantities/measured-quantity.ts";
import { landingData, type LandingCondition, type LandingZone } from "./landing-data.ts";
import type { LandingWall } from "./landing-zone-facts.ts";

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

/** The numbers of one zone that its conditions are judged on. */
interface ZoneNumbers {
  lengths: readonly Measurement[];
  diameters: readonly Measurement[];
  /** Half the width of the 95 % interval of a diameter reading, in mm. */
  errorMmOf: (reading: Measurement) => number;
  /** Of the exam, YYYY-MM-DD. */
  date: string;
}

export const zoneName = ({ zone }: LandingZone): string => `zone ${zone}`;
export const isCurved = ({ zone }: LandingZone): boolean => zone !== "4";

/** All published conditions of the zone. One that is of the native wall alone is not applicable to another. */
export function landingChecks(
  zone: LandingZone,
  numbers: ZoneNumbers,
  wall: LandingWall,
): LandingCheck[] {
  return conditionsOf(zone).map((condition) => {
    const check =
      condition.quantity === "sound-length"
        ? lengthCheck(condition, zone, numbers)
        : diameterCheck(condition, zone, numbers);
    if (condition.wall === undefined || wall.isNative === true) return check;
    return wall.isNative === false
      ? {
          ...check,
          outcome: "not-applicable",
          reason: `The zone is no native wall: ${wall.words}.`,
        }
      : {
          ...check,
          outcome: "not-assessable",
          reason: `Whether the wall is native is ${wall.words}.`,
        };
  });
}

/** All published conditions of a zone that has no meaning in this arch. */
export function checksOfStopped(zone: LandingZone, reason: string): LandingCheck[] {
  return conditionsOf(zone).map((condition) => notAssessable(condition, reason));
}

const conditionsOf = ({ zone }: LandingZone): LandingCondition[] =>
  landingData.conditions.filter(({ zones }) => zones.includes(zone));

/** Whether a condition of the zone is of the native wall alone. */
export const hasConditionOfNativeWall = (zone: LandingZone): boolean =>
  conditionsOf(zone).some(({ wall }) => wall === "native");

function notAssessable(condition: LandingCondition, reason: string): LandingCheck {
  return { ...checkBase(condition), outcome: "not-assessable", value: null, used: [], reason };
}

/** Judged on the shortest path measured. Along a bend the centreline alone can fail a limit but not show that it holds. */
function lengthCheck(
  condition: LandingCondition,
  zone: LandingZone,
  { lengths, date }: ZoneNumbers,
): LandingCheck {
  const shortest = lengths.toSorted((a, b) => a.value - b.value)[0];
  if (!shortest)
    return notAssessable(condition, `Not measured: sound length in ${zoneName(zone)}.`);
  const base = checkBase(condition);
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
  { diameters, errorMmOf, date }: ZoneNumbers,
): LandingCheck {
  const largest = diameters.toSorted((a, b) => b.value - a.value)[0];
  if (!largest) return notAssessable(condition, `Not measured: diameters in ${zoneName(zone)}.`);
  const base = checkBase(condition);
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
