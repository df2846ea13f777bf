import { norm, subtract } from "../geometry/vector.ts";
import type { Message } from "../message.ts";
import type { DrawnFigure } from "../readers/reading.ts";
import { caseMessage } from "./messages.ts";
import type { Centreline, Exam, Measurement, Station } from "./patient-case.ts";
import type { ScanPosition } from "./scan-position.ts";
import { stationKey } from "./stations.ts";

/** A measurement with the figure that was drawn where it was taken. */
export interface DrawnMeasurement {
  measurement: Measurement;
  figure: DrawnFigure;
}

/** Fewer points say nothing of how a vessel bends. */
const leastPoints = 3;

/**
 * The lines of at least three points that reports of one exam drew under a length along the centreline, or along a line
 * that is not stated. Distances count from the first point; sections and marks are none. A vessel whose centreline a
 * sheet states keeps that one, which has the sections; several different lines of one vessel are all left out, since
 * nothing says how they join.
 */
export function drawnCentrelines(
  drawn: readonly DrawnMeasurement[],
  { key: exam, imagingDate: date }: Exam,
  { bySite, ofSheets }: { bySite: ScanPosition; ofSheets: readonly Centreline[] },
): { centrelines: Centreline[]; messages: Message[] } {
  const lines = Map.groupBy(
    drawn.filter(isLine),
    ({ measurement }) => courseOf(measurement).vessel,
  );
  const messages: Message[] = [];
  const centrelines = [...lines.values()].flatMap((ofVessel): Centreline[] => {
    const [first] = ofVessel.toSorted((a, b) => (orderOf(a) < orderOf(b) ? -1 : 1));
    if (!first) return [];
    const course = courseOf(first.measurement);
    const leaveOut = (code: "centreline-of-report-not-used" | "centreline-lines-differ") => {
      const data = { label: course.label, date };
      messages.push(caseMessage(code, first.figure.source, data));
      return [];
    };
    if (ofSheets.some(({ vessel }) => vessel === course.vessel)) {
      return leaveOut("centreline-of-report-not-used");
    }
    const different = new Set(ofVessel.map(({ figure }) => JSON.stringify(figure.points)));
    if (different.size > 1) return leaveOut("centreline-lines-differ");
    const stations = stationsOf(first);
    return [{ exam, ...course, ...bySite, origin: "structured report", stations }];
  });
  return { centrelines, messages };
}

const orderOf = ({ measurement }: DrawnMeasurement): string =>
  JSON.stringify([measurement.source.file, measurement.key]);

const isLine = ({ measurement: { quantity, path }, figure }: DrawnMeasurement): boolean =>
  quantity === "length" &&
  (path === "centreline" || path === "unstated") &&
  figure.graphicType === "POLYLINE" &&
  figure.points.length >= leastPoints;

/** A branch or an iliac artery is a vessel of its own; all other places are the aorta. */
function courseOf({ place }: Measurement): Pick<Centreline, "vessel" | "label"> {
  return place.kind === "branch" || place.region === "iliac"
    ? { vessel: place.id, label: place.label }
    : { vessel: "aorta", label: "aorta" };
}

function stationsOf({ measurement: { reader, comment }, figure }: DrawnMeasurement): Station[] {
  let distanceMm = 0;
  return figure.points.map((point, index): Station => {
    const before = figure.points[index - 1];
    if (before) distanceMm += norm(subtract(point, before));
    const source = { ...figure.source, at: `${figure.source.at}, point ${index + 1}` };
    return {
      key: stationKey(source),
      distanceMm,
      point,
      mark: null,
      wall: null,
      lumen: "unstated",
      edge: "unstated",
      maximumMm: null,
      minimumMm: null,
      perimeterMm: null,
      areaMm2: null,
      thrombusArcDeg: null,
      thrombusThicknessMm: null,
      calciumArcDeg: null,
      source,
      reader,
      comment,
    };
  });
}
