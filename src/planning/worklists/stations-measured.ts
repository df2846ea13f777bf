import type { Centreline, Station } from "../../cases/patient-case.ts";
import { holds } from "../../quantities/limit.ts";
import { type Mark, type MarkItem, markWords, type StretchItem } from "./worklists.ts";
import type { StationColumn } from "./worklist-data.ts";

/** What the centrelines of one exam hold of something asked for: the stations used, and what they lack. */
export interface StationsFound {
  used: string[];
  /** Half a sentence; null where nothing is lacking. */
  lacks: string | null;
}

/** Stations at a landmark. A branch needs its edge: a station at its centre, or of no stated edge, will not do. */
function stationsAt(lines: readonly Centreline[], { place, edge }: Mark): Station[] {
  return lines
    .flatMap(({ stations }) => stations)
    .filter(({ mark }) => mark?.place.id === place.id && (edge === null || mark.edge === edge));
}

/** Whether the landmark stands on the centreline of the aorta; null where nothing of the kind does. */
export function markFound(lines: readonly Centreline[], { mark }: MarkItem): StationsFound | null {
  const aortic = lines.filter(({ vessel }) => vessel === "aorta");
  const found = stationsAt(aortic, mark);
  if (found.length > 0) return { used: found.map(({ key }) => key), lacks: null };
  const [other] = stationsAt(aortic, { ...mark, edge: null });
  if (!other) return null;
  return { used: [], lacks: `marked by its ${other.mark?.edge ?? "place, without an edge"} alone` };
}

/**
 * Whether the stations between the two landmarks stand close enough and fill every column; null where the vessel has no
 * centreline. Where one of them lacks something it says what, and at how many stations. A station that does not state
 * its lumen counts as one of the whole vessel only where there is no dissection.
 */
export function stretchFound(
  lines: readonly Centreline[],
  item: StretchItem,
  isDissected: boolean | null,
): StationsFound | null {
  const own = lines.filter(({ vessel }) => vessel === item.vessel);
  if (own.length === 0) return null;
  const unmarked = [item.from, item.to].filter((mark) => stationsAt(own, mark).length === 0);
  if (unmarked.length > 0) {
    return { used: [], lacks: `no station marked as ${unmarked.map(markWords).join(" or ")}` };
  }
  const results = own
    .map((line) => stretchOf(line, item, isDissected))
    .filter((result) => result !== null);
  return (
    results.find(({ lacks }) => lacks === null) ??
    results[0] ?? { used: [], lacks: "the two ends stand on different centrelines" }
  );
}

function stretchOf(
  line: Centreline,
  item: StretchItem,
  isDissected: boolean | null,
): StationsFound | null {
  const distances = ({ place, edge }: Mark): number[] =>
    stationsAt([line], { place, edge }).map(({ distanceMm }) => distanceMm);
  const starts = distances(item.from);
  const ends = distances(item.to);
  if (starts.length === 0 || ends.length === 0) return null;
  const passesForWhole = item.lumen === "whole" && isDissected === false;
  const startMm = Math.min(...starts);
  const endMm = Math.max(...ends);
  if (endMm <= startMm) return { used: [], lacks: "its end stands before its start" };
  const stations = line.stations
    .filter(({ lumen }) => lumen === item.lumen || (passesForWhole && lumen === "unstated"))
    .filter(({ distanceMm }) => distanceMm >= startMm && distanceMm <= endMm)
    .toSorted((a, b) => a.distanceMm - b.distanceMm);
  const places = [startMm, ...stations.map(({ distanceMm }) => distanceMm), endMm];
  const gapsMm = places.slice(1).map((mm, index) => mm - (places[index] ?? mm));
  const widestMm = Math.max(...gapsMm);
  const lacks = [
    ...(holds(widestMm, "<=", item.everyMm)
      ? []
      : [`up to ${widestMm.toFixed(1)} mm between stations`]),
    ...item.columns.flatMap((column) => {
      const empty = stations.filter((station) => !isFilled(station, column, line)).length;
      return empty === 0 ? [] : [`no ${column} at ${empty} of ${stations.length} stations`];
    }),
  ];
  return {
    used: stations.map(({ key }) => key),
    lacks: lacks.length === 0 ? null : lacks.join("; "),
  };
}

/** Where there is no thrombus it has no thickness. */
function isFilled(station: Station, column: StationColumn, line: Centreline): boolean {
  switch (column) {
    case "max_diameter_mm":
      return station.maximumMm !== null;
    case "min_diameter_mm":
      return station.minimumMm !== null;
    case "perimeter_mm":
      return station.perimeterMm !== null;
    case "area_mm2":
      return station.areaMm2 !== null;
    case "wall":
      return station.wall !== null;
    case "thrombus_arc_deg":
      return station.thrombusArcDeg !== null;
    case "thrombus_mm":
      return station.thrombusThicknessMm !== null || station.thrombusArcDeg === 0;
    case "calcium_arc_deg":
      return station.calciumArcDeg !== null;
    case "x_mm":
    case "y_mm":
    case "z_mm":
    case "axes":
      return station.point !== null;
    case "patient_position":
      return line.patientPosition !== null;
  }
}
