import { placeTable } from "../../anatomy/places.ts";
import { formatError, formatNumber } from "../format.ts";
import { limitsInForce, type LimitInForce } from "../limits-in-force.ts";
import type { Plan, PlanMeasurement, PlanPlace } from "../plan.ts";
import { lumenWord } from "../words.ts";
import { type RepairedBand, repairedBands } from "./profile-repairs.ts";

/** Diameters of one place as the width profile draws them. */
export interface ProfileRow {
  place: PlanPlace;
  /** Largest reading of the last exam, and all of them where they differ. */
  valueMm: number;
  readingsMm: number[];
  edge: PlanMeasurement["edge"];
  statistic: PlanMeasurement["statistic"];
  lumen: PlanMeasurement["lumen"];
  /** "(± 4)", or empty. */
  error: string;
  before: { valueMm: number; date: string } | null;
  trueLumenMm: number | null;
  limits: LimitInForce[];
}

export interface ProfileBranch {
  label: string;
  position: number;
  /** "9 mm", "9 mm, true lumen"; empty where it was not measured. */
  measured: string;
}

export interface Profile {
  /** Imaging date of the exam drawn solid, and of the exam before it with a diameter. */
  date: string;
  dateBefore: string | null;
  bars: ProfileRow[];
  ranges: ProfileRow[];
  branches: ProfileBranch[];
  repaired: RepairedBand[];
}

const statisticRank: Record<PlanMeasurement["statistic"], number> = {
  maximum: 0,
  unstated: 1,
  mean: 2,
  minimum: 3,
};
const lumenRank: Record<PlanMeasurement["lumen"], number> = {
  whole: 0,
  unstated: 1,
  true: 2,
  false: 3,
};

const isDiameter = (measurement: PlanMeasurement): boolean =>
  measurement.quantity === "diameter" && measurement.unit === "mm";

const rank = ({ lumen, statistic }: PlanMeasurement): number =>
  lumenRank[lumen] * 4 + statisticRank[statistic];

/** The reading that stands for a place: whole lumen before part of it, maximum before mean, then the largest. */
function chooseReading(readings: PlanMeasurement[]): PlanMeasurement | null {
  const sorted = [...readings].toSorted((a, b) => rank(a) - rank(b) || b.value - a.value);
  return sorted[0] ?? null;
}

/** The reading error in brackets, taken from the growth point or the criterion that used the reading; or empty. */
export function errorOfMeasurement(plan: Plan, key: string): string {
  for (const { points } of plan.growth) {
    const point = points.find(({ measurements }) => measurements.includes(key));
    if (point?.values.length !== 1) continue;
    const [value = 0] = point.values;
    return formatError({ value, low: point.low, high: point.high });
  }
  const used = plan.assessments.find(
    ({ used, value }) => used.length === 1 && used[0] === key && value?.unit === "mm",
  );
  return used?.value ? formatError(used.value) : "";
}

function rowOf(plan: Plan, here: PlanMeasurement[], lastExam: string): ProfileRow | null {
  const chosen = chooseReading(here.filter(({ exam }) => exam === lastExam));
  if (chosen === null) return null;
  const alike = here.filter(
    ({ statistic, lumen, edge }) =>
      statistic === chosen.statistic && lumen === chosen.lumen && edge === chosen.edge,
  );
  const last = alike.filter(({ exam }) => exam === lastExam);
  const earlier = plan.exams.findLast(
    ({ key }) => key !== lastExam && alike.some(({ exam }) => exam === key),
  );
  const earlierMm = alike.filter(({ exam }) => exam === earlier?.key).map(({ value }) => value);
  const trueLumen = here.find(({ exam, lumen }) => exam === lastExam && lumen === "true");
  return {
    place: chosen.place,
    valueMm: chosen.value,
    readingsMm: [...new Set(last.map(({ value }) => value))].toSorted((a, b) => a - b),
    edge: chosen.edge,
    statistic: chosen.statistic,
    lumen: chosen.lumen,
    error: errorOfMeasurement(plan, chosen.key),
    before: earlier ? { valueMm: Math.max(...earlierMm), date: earlier.imagingDate } : null,
    trueLumenMm: chosen.lumen === "true" ? null : (trueLumen?.value ?? null),
    limits: limitsInForce(plan, chosen.place.id),
  };
}

/** The branches measured, and those that are known to leave the aorta; arch branches as the patient's arch has them. */
function branchesOf(
  { arch }: Pick<Plan, "arch">,
  diameters: PlanMeasurement[],
  lastExam: string,
): ProfileBranch[] {
  const ofArch = new Set(Object.values(arch.zones).flatMap((zone) => zone?.branches ?? []));
  const ofLastExam = diameters.filter(({ exam }) => exam === lastExam);
  return placeTable.flatMap(({ place }) => {
    const readings = ofLastExam.filter((measurement) => measurement.place.id === place.id);
    const isOfArch = place.zones.some((zone) => zone in arch.zones);
    const leavesTheAorta = isOfArch ? ofArch.has(place.label) : place.zones.length > 0;
    if (place.kind !== "branch" || (!leavesTheAorta && readings.length === 0)) return [];
    const widest = chooseReading(readings);
    const lumen = widest && widest.lumen !== "unstated" && widest.lumen !== "whole";
    const measured = widest
      ? `${formatNumber(widest.value)} mm${lumen ? `, ${lumenWord(widest.lumen)}` : ""}`
      : "";
    return [{ label: place.label, position: place.position, measured }];
  });
}

const byPosition = (a: ProfileRow, b: ProfileRow): number =>
  a.place.position - b.place.position || a.place.id.localeCompare(b.place.id, "en");

/** What the width profile draws: the last exam with a diameter, the one before it, limits and branches. Null without a diameter. */
export function profileOf(plan: Plan): Profile | null {
  const diameters = plan.measurements.filter(isDiameter);
  const ofAorta = diameters.filter(({ place }) => place.kind !== "branch");
  const withDiameter = plan.exams.filter(({ key }) => ofAorta.some(({ exam }) => exam === key));
  const last = withDiameter.at(-1);
  if (!last) return null;
  const places = [...new Set(ofAorta.map(({ place }) => place.id))];
  const rows = places.flatMap((id) => {
    const here = ofAorta.filter(({ place }) => place.id === id);
    return rowOf(plan, here, last.key) ?? [];
  });
  return {
    date: last.imagingDate,
    dateBefore: withDiameter.at(-2)?.imagingDate ?? null,
    bars: rows.filter(({ place }) => place.span === null).toSorted(byPosition),
    ranges: rows.filter(({ place }) => place.span !== null).toSorted(byPosition),
    branches: branchesOf(plan, diameters, last.key),
    repaired: repairedBands(plan),
  };
}
