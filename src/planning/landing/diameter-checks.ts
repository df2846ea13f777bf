import type { Measurement, PatientCase } from "../../cases/patient-case.ts";
import { formatLength } from "../../quantities/format-length.ts";
import { holds, spans } from "../../quantities/limit.ts";
import { acrossQuantities, sizeQuantities } from "../../quantities/measured-quantity.ts";
import { isWholeLumen } from "../whole-lumen.ts";
import type { PlanningCheck } from "../planning-check.ts";
import { checkedSource } from "../checked-source.ts";
import { landingConditions, type StretchCondition } from "./landing-conditions.ts";
import type { LandingZone } from "./landing-data.ts";
import type { LandingWall } from "./landing-zone-facts.ts";
import type { StationDiameter, ZoneStations } from "./zone-stations.ts";

/** The diameters of one zone that its conditions are judged on. */
export interface ZoneDiameters {
  readings: readonly Measurement[];
  /** Sections along the centreline of the same exam. */
  stations: readonly StationDiameter[];
  /** Half the width of the 95 % interval of a reading, in mm. */
  errorMmOf: (reading: Measurement) => number;
  /** Of the exam, YYYY-MM-DD. */
  date: string;
}

type Answer = Pick<
  PlanningCheck,
  "outcome" | "value" | "spansLimit" | "used" | "missing" | "reason"
>;

/**
 * All published diameters of a landing zone laid beside its largest one. A condition of the native wall is not
 * applicable to another wall; `stopped` says why the zone has no meaning in this arch, and what would give it one.
 */
export function diameterChecks(
  { zone }: LandingZone,
  diameters: ZoneDiameters,
  { wall, stopped }: { wall: LandingWall; stopped: { why: string; missing: string[] } | null },
): PlanningCheck[] {
  return conditionsOf(zone).map((condition) => ({
    id: condition.id,
    label: condition.label,
    limit: `${condition.operator} ${condition.limit} mm`,
    source: checkedSource(condition),
    ...(stopped === null
      ? ofWall(condition, wall, judged(condition, zone, diameters))
      : open(stopped.why, stopped.missing)),
  }));
}

const conditionsOf = (zone: LandingZone["zone"]): StretchCondition[] =>
  landingConditions.conditions.filter(
    ({ measure, ends, zones }) =>
      measure === "diameter" && ends.includes("proximal") && (!zones || zones.includes(zone)),
  );

/**
 * Sizes of the whole vessel in a zone: readings and sections along the centreline of the latest exam up to `asOf` that has
 * any. Left out is an exam from before a repair of the zone; `missing` says so, and where the order of the two is not known.
 */
export function diametersOfZone(
  { zone }: LandingZone,
  { measurements, exams }: PatientCase,
  {
    wall,
    mayBeDissected,
    asOf,
    sections,
  }: { wall: LandingWall; mayBeDissected: boolean; asOf: string; sections: ZoneStations | null },
): Omit<ZoneDiameters, "errorMmOf"> & { missing: string[] } {
  const sizes = measurements.filter(
    ({ place, lumen, quantity }) =>
      place.kind !== "branch" &&
      place.zones.includes(zone) &&
      isWholeLumen(lumen, mayBeDissected) &&
      sizeQuantities.has(quantity),
  );
  const alongLine = sections?.inZone(zone) ?? [];
  const stationsOf = (exam: string): readonly StationDiameter[] =>
    sections?.exam.key === exam ? alongLine : [];
  const latest = exams.findLast(
    ({ key, imagingDate }) =>
      imagingDate <= asOf && (sizes.some(({ exam }) => exam === key) || stationsOf(key).length > 0),
  );
  const none = { readings: [], stations: [], date: "" };
  if (latest === undefined) return { ...none, missing: [`diameters in zone ${zone}`] };
  const isShown = wall.isShownBy(latest);
  if (isShown === false) {
    return { ...none, missing: [`measurements of zone ${zone} after its repair (${wall.words})`] };
  }
  return {
    readings: sizes.filter(({ exam }) => exam === latest.key),
    stations: stationsOf(latest.key),
    date: latest.imagingDate,
    missing: isShown === true ? [] : [isShown.unclear],
  };
}

const open = (reason: string, missing: string[]): Answer => ({
  outcome: "not-assessable",
  value: null,
  spansLimit: false,
  used: [],
  missing,
  reason,
});

function ofWall(condition: StretchCondition, wall: LandingWall, answer: Answer): Answer {
  if (condition.wall === undefined || wall.isNative === true) return answer;
  if (wall.isNative === false) {
    const reason = `The zone is no native wall: ${wall.words}.`;
    return { ...answer, outcome: "not-applicable", missing: [], reason };
  }
  const { unclear } = wall.isNative;
  const reason = `Whether the wall is native is ${wall.words}.`;
  return { ...answer, outcome: "not-assessable", missing: [unclear], reason };
}

function judged(
  { operator, limit }: StretchCondition,
  zone: string,
  { readings, stations, errorMmOf, date }: ZoneDiameters,
): Answer {
  const across = readings
    .filter(({ quantity }) => acrossQuantities.has(quantity))
    .map((reading): StationDiameter => ({
      valueMm: reading.value,
      errorMm: errorMmOf(reading),
      key: reading.key,
      edge: reading.edge,
      where: reading.place.label,
    }));
  const largest = [...across, ...stations].toSorted((a, b) => b.valueMm - a.valueMm)[0];
  if (!largest) {
    return open(`Not measured: diameters in zone ${zone}.`, [`diameters in zone ${zone}`]);
  }
  const { valueMm, errorMm, key, where } = largest;
  const [low, high] = [valueMm - errorMm, valueMm + errorMm];
  const edge = largest.edge === "unstated" ? "edge not stated" : `${largest.edge} edge`;
  return {
    outcome: holds(valueMm, operator, limit) ? "met" : "not-met",
    value: { value: valueMm, low, high, unit: "mm" },
    spansLimit: spans(low, high, limit),
    used: [key],
    missing: [],
    reason: `Largest diameter ${formatLength(valueMm)}, ${where}, ${edge}, ${date}.`,
  };
}
