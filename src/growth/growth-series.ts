import type { AorticPlace } from "../anatomy/places.ts";
import type { Exam, Measurement, PatientCase, PriorRepair } from "../cases/patient-case.ts";
import { isAnastomosis } from "../cases/anastomosis.ts";
import { type Wall, wallAt } from "../cases/wall.ts";
import type { LumenId, StatisticId } from "../quantities/measured-quantity.ts";
import {
  comparability,
  type Comparability,
  isCompared,
  type SeriesPoint,
} from "./comparability.ts";

/** A point with the verdict on its comparability. */
export type JudgedPoint = SeriesPoint & Comparability;

/** The same diameter of the same place over at least two exams, earliest first. */
export interface GrowthSeries {
  /** Stable within the patient. */
  key: string;
  place: AorticPlace;
  statistic: StatisticId;
  lumen: LumenId;
  /**
   * What the wall is at the last exam, as words for a sentence: "on a graft since 2019", or what is unclear about it.
   * Null for a native wall, for an anastomosis, and where nothing is stated about repairs.
   */
  wall: string | null;
  points: JudgedPoint[];
}

interface Reading {
  measurement: Measurement;
  exam: Exam;
}

/**
 * All diameters of a patient that stand in at least two exams, along the vessel. Diameters go together when place,
 * statistic and lumen are the same; where one exam states more than one edge, plane or cardiac phase, these go apart.
 */
export function growthSeries(patientCase: PatientCase): GrowthSeries[] {
  const examByKey = new Map(patientCase.exams.map((exam) => [exam.key, exam]));
  const readings = patientCase.measurements
    .filter(({ quantity }) => quantity === "diameter")
    .map((measurement): Reading => {
      const exam = examByKey.get(measurement.exam);
      if (!exam) throw new Error(`measurement ${measurement.key} names no exam of its case`);
      return { measurement, exam };
    });
  const groups = Map.groupBy(readings, ({ measurement: { place, statistic, lumen } }) =>
    [place.id, statistic, lumen].join(" "),
  );
  const repairs = patientCase.facts.priorRepairs;
  return [...groups.values()]
    .flatMap((group) => waysToTake.reduce(apartBy, [{ group, keyEnd: "" }]))
    .filter(({ group }) => new Set(group.map(({ exam }) => exam.key)).size > 1)
    .map(({ group, keyEnd }) => seriesOf(group, keyEnd, repairs))
    .toSorted((a, b) => a.place.position - b.place.position || (a.key < b.key ? -1 : 1));
}

interface Part {
  group: Reading[];
  keyEnd: string;
}

/** Ways to take a size that one exam may hold side by side. */
const waysToTake = ["edge", "plane", "phase"] as const;

function apartBy(parts: Part[], way: (typeof waysToTake)[number]): Part[] {
  const wayOf = ({ measurement }: Reading): string => measurement[way];
  return parts.flatMap((part) => {
    const exams = [...Map.groupBy(part.group, ({ exam }) => exam.key).values()];
    const isOneEach = exams.every((readings) => new Set(readings.map(wayOf)).size === 1);
    if (isOneEach) return [part];
    return [...Map.groupBy(part.group, wayOf)].map(([word, group]): Part => ({
      group,
      keyEnd: `${part.keyEnd}-${word}-${way}`,
    }));
  });
}

function seriesOf(
  group: Reading[],
  keyEnd: string,
  repairs: readonly PriorRepair[] | null,
): GrowthSeries {
  const [first] = group;
  if (!first) throw new Error("a series without a reading");
  const { place, statistic, lumen } = first.measurement;
  const points = [...Map.groupBy(group, ({ exam }) => exam.key).values()]
    .map(pointOf)
    .toSorted((a, b) => (sortKey(a) < sortKey(b) ? -1 : 1));
  const slug = place.id.replaceAll(/[^a-z0-9]+/g, "-");
  return {
    key: `G-${slug}-${statistic}-${lumen}${keyEnd}`,
    place,
    statistic,
    lumen,
    wall:
      repairs === null || isAnastomosis(place)
        ? null
        : wallWords(wallAt(place, repairs, lastDay(points))),
    points: judgedPoints(points, place, repairs ?? []),
  };
}

const lastDay = (points: readonly SeriesPoint[]): string => points.at(-1)?.exam.imagingDate ?? "";

function wallWords(wall: Wall): string | null {
  if ("unclear" in wall) return `wall unclear: ${wall.unclear}`;
  const { kind, since } = wall;
  if (kind === "native") return null;
  const what = {
    graft: "on a graft",
    "stent graft": "on a stent graft",
    "elephant trunk": "native wall with an elephant trunk inside",
    "frozen elephant trunk": "on a frozen elephant trunk",
    "repaired, kind not stated": "repaired, kind not stated",
  }[kind];
  return since === null ? what : `${what} since ${since}`;
}

/** Judges points from the last to the first: each stands beside the reference and those kept after it. */
function judgedPoints(
  points: readonly SeriesPoint[],
  place: AorticPlace,
  repairs: readonly PriorRepair[],
): JudgedPoint[] {
  const reference = points.findLast(({ valuesMm }) => valuesMm.length === 1);
  const kept = reference ? [reference] : [];
  const judged = points.toReversed().map((point): JudgedPoint => {
    const comparison = comparability(point, kept, place, repairs);
    if (isCompared(comparison) && point !== reference) kept.push(point);
    return { ...point, ...comparison };
  });
  return judged.toReversed();
}

const sortKey = ({ exam }: SeriesPoint): string => `${exam.imagingDate} ${exam.key}`;

function pointOf(readings: Reading[]): SeriesPoint {
  const [first] = readings;
  if (!first) throw new Error("a point without a reading");
  const values = new Set(readings.map(({ measurement }) => measurement.value));
  return {
    exam: first.exam,
    valuesMm: [...values].toSorted((a, b) => a - b),
    measurements: readings.map(({ measurement }) => measurement.key).toSorted(),
    edge: first.measurement.edge,
    plane: first.measurement.plane,
    phase: first.measurement.phase,
  };
}
