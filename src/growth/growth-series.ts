import type { AorticPlace } from "../anatomy/places.ts";
import type { Exam, Measurement, PatientCase, PriorRepair } from "../cases/patient-case.ts";
import type { EdgeId, LumenId, StatisticId } from "../quantities/measured-quantity.ts";
import { comparability, type Comparability, type SeriesPoint } from "./comparability.ts";

/** A point with the verdict on its comparability. */
export type JudgedPoint = SeriesPoint & Comparability;

/** The same diameter of the same place over at least two exams, earliest first. */
export interface GrowthSeries {
  /** Stable within the patient. */
  key: string;
  place: AorticPlace;
  statistic: StatisticId;
  lumen: LumenId;
  points: JudgedPoint[];
}

interface Reading {
  measurement: Measurement;
  exam: Exam;
}

/**
 * All diameters of a patient that stand in at least two exams, along the vessel. Diameters go together when place,
 * statistic and lumen are the same; where one exam states more than one edge, the edges go apart.
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
  const repairs = patientCase.facts.priorRepairs ?? [];
  return [...groups.values()]
    .flatMap(apartByEdge)
    .filter(({ group }) => new Set(group.map(({ exam }) => exam.key)).size > 1)
    .map(({ group, keyEnd }) => seriesOf(group, keyEnd, repairs))
    .toSorted((a, b) => a.place.position - b.place.position || (a.key < b.key ? -1 : 1));
}

function apartByEdge(group: Reading[]): { group: Reading[]; keyEnd: string }[] {
  const byExam = Map.groupBy(group, ({ exam }) => exam.key);
  const edgesIn = (readings: Reading[]) => new Set(readings.map(edgeOf)).size;
  if ([...byExam.values()].every((readings) => edgesIn(readings) === 1)) {
    return [{ group, keyEnd: "" }];
  }
  return [...Map.groupBy(group, edgeOf)].map(([edge, part]) => ({
    group: part,
    keyEnd: `-${edge}-edge`,
  }));
}

const edgeOf = ({ measurement }: Reading): EdgeId => measurement.edge;

function seriesOf(group: Reading[], keyEnd: string, repairs: readonly PriorRepair[]): GrowthSeries {
  const [first] = group;
  if (!first) throw new Error("a series without a reading");
  const { place, statistic, lumen } = first.measurement;
  const points = [...Map.groupBy(group, ({ exam }) => exam.key).values()]
    .map(pointOf)
    .toSorted((a, b) => (sortKey(a) < sortKey(b) ? -1 : 1));
  const reference = points.findLast(({ valuesMm }) => valuesMm.length === 1) ?? null;
  const slug = place.id.replaceAll(/[^a-z0-9]+/g, "-");
  return {
    key: `G-${slug}-${statistic}-${lumen}${keyEnd}`,
    place,
    statistic,
    lumen,
    points: points.map((point) => judged(point, comparability(point, reference, place, repairs))),
  };
}

const judged = (point: SeriesPoint, verdict: Comparability): JudgedPoint => ({
  ...point,
  ...verdict,
});

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
  };
}
