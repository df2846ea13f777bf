import type { Measurement, PatientCase } from "../../cases/patient-case.ts";
import { tortuosityIndex } from "../../geometry/polyline.ts";
import { holds } from "../../quantities/limit.ts";
import { accessLimits, sourceWords } from "./access-limits.ts";
import { latestPath, type Side, stretchPlaces } from "./access-samples.ts";
import type { PlanningCheck } from "../planning-check.ts";

/** The largest angle and the tortuosity of the way in on one side. */
export function courseChecks(patientCase: PatientCase, side: Side, asOf: string): PlanningCheck[] {
  return [angleCheck(patientCase, side, asOf), tortuosityCheck(patientCase, side, asOf)];
}

/** The measurement of a quantity at the stretches of a side in the latest exam that has it; the largest of several. */
function largestOf(
  { exams, measurements }: PatientCase,
  side: Side,
  asOf: string,
  quantity: Measurement["quantity"],
): { reading: Measurement; date: string; used: string[] } | null {
  const places = new Set(stretchPlaces(side).map(({ placeId }) => placeId));
  const own = measurements.filter((one) => one.quantity === quantity && places.has(one.place.id));
  const exam = exams.findLast(
    ({ key, imagingDate }) => imagingDate <= asOf && own.some((one) => one.exam === key),
  );
  const inExam = own.filter((one) => one.exam === exam?.key);
  const [reading] = inExam.toSorted((a, b) => b.value - a.value);
  if (!exam || !reading) return null;
  return { reading, date: exam.imagingDate, used: inExam.map(({ key }) => key) };
}

function angleCheck(patientCase: PatientCase, side: Side, asOf: string): PlanningCheck {
  const { limitDeg, ...origin } = accessLimits.angle;
  const base = {
    id: "access-angle",
    label: `no iliac angle over ${limitDeg} degrees`,
    limit: `<= ${limitDeg} deg`,
    source: sourceWords(origin),
  };
  const largest = largestOf(patientCase, side, asOf, "angle");
  if (largest === null) {
    return notMeasured(base, `angle of the ${side} iliac arteries`);
  }
  const { reading, date, used } = largest;
  return {
    ...base,
    outcome: holds(reading.value, "<=", limitDeg) ? "met" : "not-met",
    value: { value: reading.value, low: null, high: null, unit: "deg" },
    spansLimit: false,
    used,
    missing: [],
    reason: `${reading.value.toFixed(0)} degrees, ${reading.place.label.replace(/^zone \d+, /, "")}, ${date}; its error is not known.`,
  };
}

function tortuosityCheck(patientCase: PatientCase, side: Side, asOf: string): PlanningCheck {
  const { cutOffs, ...origin } = accessLimits.tortuosity;
  const [first = Number.POSITIVE_INFINITY, ...others] = cutOffs;
  const base = {
    id: "access-tortuosity",
    label: "tortuosity index under the first grade",
    limit: `< ${first} (no unit); further grades from ${others.join(" and ")}`,
    source: sourceWords(origin),
  };
  const index = measuredIndex(patientCase, side, asOf) ?? pathIndex(patientCase, side, asOf);
  if (index === null) return notMeasured(base, `tortuosity index of the ${side} access path`);
  const reached = cutOffs.findLast((cutOff) => holds(index.value, ">=", cutOff));
  const words = reached === undefined ? "reaches no grade" : `reaches the grade from ${reached}`;
  return {
    ...base,
    outcome: holds(index.value, "<", first) ? "met" : "not-met",
    value: { value: index.value, low: null, high: null, unit: "1" },
    spansLimit: false,
    used: index.used,
    missing: [],
    reason: `${index.value.toFixed(3)} ${index.how}; ${words}; its error is not known.`,
  };
}

interface Index {
  value: number;
  how: string;
  used: string[];
}

function measuredIndex(patientCase: PatientCase, side: Side, asOf: string): Index | null {
  const largest = largestOf(patientCase, side, asOf, "tortuosity");
  if (largest === null) return null;
  const { reading, date, used } = largest;
  return {
    value: reading.value,
    how: `as measured, ${reading.place.label.replace(/^zone \d+, /, "")}, ${date}`,
    used,
  };
}

/** Two points make a straight line of whatever vessel. */
const leastPoints = 3;

/** From the points of the path, as far as they are stated. */
function pathIndex(patientCase: PatientCase, side: Side, asOf: string): Index | null {
  const path = latestPath(patientCase, side, asOf);
  const placed = (path?.sections ?? []).flatMap(({ station: { key, point } }) =>
    point === null ? [] : [{ key, point }],
  );
  const value =
    placed.length < leastPoints ? null : tortuosityIndex(placed.map(({ point }) => point));
  if (path === null || value === null) return null;
  return {
    value,
    how: `from ${placed.length} points of the path, ${path.date}`,
    used: placed.map(({ key }) => key),
  };
}

const notMeasured = (
  base: Pick<PlanningCheck, "id" | "label" | "limit" | "source">,
  what: string,
): PlanningCheck => ({
  ...base,
  outcome: "not-assessable",
  value: null,
  spansLimit: false,
  used: [],
  missing: [what],
  reason: `Not measured: ${what}.`,
});
