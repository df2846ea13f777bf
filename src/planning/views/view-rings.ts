import type { AorticPlace } from "../../anatomy/places.ts";
import type {
  Centreline,
  Measurement,
  PatientCase,
  Ring,
  Station,
} from "../../cases/patient-case.ts";
import { toDegrees } from "../../geometry/degrees.ts";
import { tangentAt } from "../../geometry/polyline.ts";
import { fittedCurve } from "../../geometry/smoothed-line.ts";
import { angleBetweenDeg, norm, unit, type Vector } from "../../geometry/vector.ts";
import { studentTQuantile } from "../../statistics/student-t.ts";
import { formatLength } from "../../quantities/format-length.ts";
import { holds } from "../../quantities/limit.ts";
import { mostSpreadDeg } from "./branch-profile.ts";
import type { LandingSegment } from "../landing/landing-segment.ts";
import { type LinePoints, pointAt } from "../line-points.ts";
import { type NotAssessable, whyNoAngles } from "./may-view.ts";
import { remembered } from "../remembered.ts";
import { diameterOfMeasurement, type VesselDiameter } from "./vessel-diameter.ts";
import { type ViewedLine, viewedLine } from "./viewed-line.ts";
import type { UncertainAxis } from "./view-family.ts";

/** What of a landing segment places its ring and its stretch. */
export type RingSegment = Pick<
  LandingSegment,
  "exam" | "zone" | "conditions" | "startMm" | "endMm"
>;

/** Which rings are meant, and the reading errors they stand on. */
export interface RingBasis {
  segments: { proximal: readonly RingSegment[] } | null;
  /** SD in mm of one diameter reading. */
  readingSdMmOf: (reading: Measurement) => number;
  stationSdMmOf: (station: Station) => number;
}

/** A ring with its axis, before it is looked at. */
export interface PlacedRing {
  label: string;
  basis: "landing segment" | "border" | "ring in a report";
  exam: string;
  /** The aortic centreline that it stands on, where, and the stretch of wall beyond it; null for a ring of a report. */
  on: { viewed: ViewedLine; atMm: number; toMm: number } | null;
  centre: Vector | null;
  axis: RingAxis | NotAssessable;
  /** Why there are no C-arm angles though there is an axis; null where there are. */
  lying: NotAssessable | null;
  patientPosition: string | null;
  positionBy: string | null;
  diameter: VesselDiameter | null;
  used: string[];
}

export interface RingAxis extends UncertainAxis {
  points: number | null;
  /** How the axis and its uncertainty were made. */
  method: string;
}

/** Half the stretch whose points give the axis at a place; common practice, no source. */
const halfWindowMm = 15;
/** Stretch beyond a border that its bend is given for: 20 mm of seal, common practice. */
const borderStretchMm = 20;

/** The rings on an aortic centreline (edges of landing segments, else borders of zones), then those of reports. */
export function placedRings(patientCase: PatientCase, basis: RingBasis): PlacedRing[] {
  const viewedOf = remembered((line: Centreline) => viewedLine(line, basis.stationSdMmOf));
  return [
    ...segmentRings(patientCase, basis, viewedOf),
    ...borderRings(patientCase, basis, viewedOf),
    ...reportRings(patientCase, basis),
  ];
}

const aorticLine = ({ centrelines }: PatientCase, exam: string): Centreline | undefined =>
  centrelines.find((line) => line.vessel === "aorta" && line.exam === exam);

function segmentRings(
  patientCase: PatientCase,
  basis: RingBasis,
  viewedOf: (line: Centreline) => ViewedLine,
): PlacedRing[] {
  const starts = Map.groupBy(basis.segments?.proximal ?? [], ({ exam, startMm, zone }) =>
    JSON.stringify([exam, startMm, zone]),
  );
  return [...starts.values()].flatMap((segments) => {
    const [{ exam, startMm, zone } = { exam: null, startMm: null, zone: "" }] = segments;
    const ends = segments.flatMap(({ endMm }) => endMm ?? []);
    const line = exam === null ? undefined : aorticLine(patientCase, exam);
    if (!line || startMm === null || ends.length === 0) return [];
    const isAlone =
      [...starts.values()].filter(([one]) => one?.zone === zone && one.startMm !== null).length < 2;
    const conditions = segments.map((segment) => segment.conditions).join(" and ");
    return ringOnLine({
      label: `proximal edge in zone ${zone}${isAlone ? "" : ` (${conditions})`}`,
      basis: "landing segment",
      on: { viewed: viewedOf(line), atMm: startMm, toMm: Math.max(...ends) },
    });
  });
}

const archZones = new Set(["0", "1", "2", "3"]);

/** Marks that a proximal landing zone begins at: distal edges of branches of the arch, and the sinotubular junction. */
const beginsZone = (place: AorticPlace, edge: string | null): boolean =>
  place.id === "sinotubular-junction" ||
  (place.kind === "branch" &&
    edge === "distal edge" &&
    (place.zones.length === 0 || place.zones.some((zone) => archZones.has(zone))));

/** Borders at which no landing segment begins before the next one, in the latest exam with an aortic centreline. */
function borderRings(
  patientCase: PatientCase,
  basis: RingBasis,
  viewedOf: (line: Centreline) => ViewedLine,
): PlacedRing[] {
  const line = patientCase.exams
    .toReversed()
    .map(({ key }) => aorticLine(patientCase, key))
    .find((found) => found !== undefined);
  if (!line) return [];
  const starts = (basis.segments?.proximal ?? []).flatMap(({ exam, startMm }) =>
    exam === line.exam && startMm !== null ? [startMm] : [],
  );
  const marks = new Map(
    line.stations.flatMap(({ distanceMm, mark }) =>
      mark !== null && beginsZone(mark.place, mark.edge) ? [[distanceMm, mark] as const] : [],
    ),
  );
  const borders = [...marks].toSorted(([one], [other]) => one - other);
  const lastMm = line.stations.at(-1)?.distanceMm ?? 0;
  return borders.flatMap(([atMm, { place, edge }], index) => {
    const nextMm = borders[index + 1]?.[0];
    const isBeforeNext = (start: number): boolean =>
      nextMm === undefined || holds(start, "<", nextMm);
    if (starts.some((start) => holds(start, ">=", atMm) && isBeforeNext(start))) return [];
    const label = place.kind === "branch" ? `${edge} of the ${place.label}` : place.label;
    const toMm = Math.min(atMm + borderStretchMm, Math.max(lastMm, atMm));
    return ringOnLine({ label, basis: "border", on: { viewed: viewedOf(line), atMm, toMm } });
  });
}

function ringOnLine({
  label,
  basis,
  on,
}: Pick<PlacedRing, "label" | "basis"> & { on: NonNullable<PlacedRing["on"]> }): PlacedRing {
  const { viewed, atMm } = on;
  const { line, placed } = viewed;
  const diameter = viewed.diameterAt(atMm);
  const near = placed.stations.filter((_, index) =>
    holds(Math.abs((placed.distancesMm[index] ?? 0) - atMm), "<=", halfWindowMm),
  );
  return {
    label,
    basis,
    exam: line.exam,
    on,
    centre: pointAt(placed, atMm),
    axis: axisOnLine(placed, atMm),
    lying: whyNoAngles(line),
    patientPosition: line.patientPosition,
    positionBy: line.positionBy,
    diameter,
    used: [...new Set([...near, ...(diameter?.used ?? [])])],
  };
}

/**
 * The axis at a place of a line: the direction there of a parabola through the points near it, with its 95 % interval by
 * their scatter; so a bend is no uncertainty. With 3 points only, the straight line through them.
 */
function axisOnLine(line: LinePoints, atMm: number): RingAxis | NotAssessable {
  const what = "axis of the ring";
  const where = `within ${halfWindowMm} mm of ${formatLength(atMm)}`;
  const found = curvedAxis(line, atMm) ?? straightAxis(line, atMm);
  if ("why" in found) {
    const missing = `at least 3 points of the aortic centreline in DICOM patient coordinates ${where}`;
    return { what, missing: `${missing} (${found.why})` };
  }
  const { made, uncertaintyDeg } = found;
  if (!holds(uncertaintyDeg, "<=", mostSpreadDeg)) {
    return {
      what,
      missing: `points of the aortic centreline ${where} that fix its direction to ${mostSpreadDeg}° (these: ${made})`,
    };
  }
  return {
    axis: found.axis,
    uncertaintyDeg,
    points: found.points,
    method: `${made} ${where}; their reading error is not stated`,
  };
}

interface FoundAxis {
  axis: Vector;
  uncertaintyDeg: number;
  points: number;
  made: string;
}

/** Null under 4 points, and at a place beyond them. */
function curvedAxis(line: LinePoints, atMm: number): FoundAxis | null {
  const curve = fittedCurve(line, atMm - halfWindowMm, atMm + halfWindowMm);
  if (curve === null || holds(curve.fromMm, ">", atMm) || holds(curve.toMm, "<", atMm)) return null;
  const direction = curve.directionAt(atMm);
  const axis = unit(direction);
  if (axis === null) return null;
  const error = curve.directionErrorAt(atMm) / norm(direction);
  const uncertaintyDeg = toDegrees(Math.atan(studentTQuantile(0.975, curve.freedom) * error));
  const { points, scatterMm } = curve;
  const made = `curve through ${points} points, scatter ${scatterMm.toFixed(2)} mm, ± ${uncertaintyDeg.toFixed(1)}°,`;
  return { axis, uncertaintyDeg, points, made };
}

/** With 3 points nothing tells a bend from scatter: what they are off a straight line counts as uncertainty. */
function straightAxis(line: LinePoints, atMm: number): FoundAxis | { why: string } {
  const tangent = tangentAt(line.points, line.distancesMm, atMm, halfWindowMm);
  if ("why" in tangent) return tangent;
  const { axis, spreadDeg, pointsUsed } = tangent;
  const made = `line through ${pointsUsed} points, ${spreadDeg.toFixed(1)}° off it,`;
  return { axis, uncertaintyDeg: spreadDeg, points: pointsUsed, made };
}

/** Rings of the latest exam that draws one at the place; those of one plane and centre are one. */
function reportRings(
  { rings, exams, measurements }: PatientCase,
  { readingSdMmOf }: RingBasis,
): PlacedRing[] {
  const order = new Map(exams.map(({ key }, index) => [key, index]));
  const rank = (exam: string): number => order.get(exam) ?? -1;
  const ofAorta = rings.filter(({ place }) => place.kind !== "branch");
  return [...Map.groupBy(ofAorta, ({ place }) => place.id).values()].flatMap((atPlace) => {
    const latest = Math.max(...atPlace.map(({ exam }) => rank(exam)));
    const drawn = atPlace.filter(({ exam }) => rank(exam) === latest);
    const distinct = drawn.filter(
      (ring, index) => !drawn.slice(0, index).some((earlier) => isSameRing(earlier, ring)),
    );
    return distinct.map((ring): PlacedRing => {
      const keys = drawn.filter((other) => isSameRing(ring, other)).map((one) => one.measurement);
      const diameters = measurements
        .filter(({ key }) => keys.includes(key))
        .flatMap((reading) => diameterOfMeasurement(reading, readingSdMmOf(reading)) ?? []);
      return {
        label: `ring drawn at ${ring.place.label}`,
        basis: "ring in a report",
        exam: ring.exam,
        on: null,
        centre: ring.centre,
        axis: {
          axis: ring.axis,
          uncertaintyDeg: null,
          points: null,
          method: "across the ring as drawn in the report; its error is not stated",
        },
        lying: whyNoAngles(ring),
        patientPosition: ring.patientPosition,
        positionBy: ring.positionBy,
        diameter: diameters[0] ?? null,
        used: keys,
      };
    });
  });
}

/** Within 0.1 mm and 0.1 degrees, which is rounding of what is drawn twice. */
function isSameRing(one: Ring, other: Ring): boolean {
  const apart = one.centre.map((part, index) => part - (other.centre[index] ?? 0));
  const between = angleBetweenDeg(one.axis, other.axis);
  return Math.hypot(...apart) <= 0.1 && Math.min(between, 180 - between) <= 0.1;
}
