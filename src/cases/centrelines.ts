import type { Dictionary } from "../anatomy/dictionary.ts";
import type { Message } from "../message.ts";
import { formatLength } from "../quantities/format-length.ts";
import type { StatedStation } from "../readers/reading.ts";
import {
  type CentrelineName,
  pointsTooFarApart,
  stationClash,
  withoutDoubleMarks,
} from "./centreline-checks.ts";
import { markDisorder } from "./mark-order.ts";
import { caseMessage } from "./messages.ts";
import type { Centreline, Exam, Station } from "./patient-case.ts";
import type { ScanPosition } from "./scan-position.ts";
import { type PlacedStation, placeStations } from "./stations.ts";

/**
 * The centrelines that the sheets of one exam state, the aorta first, then by vessel. Rows that say the same count once.
 * Where rows give one section different values, or marks stand in an order that no vessel has, the whole centreline is
 * left out: nothing says which row is wrong. `bySite` fills a patient position that no row states.
 */
export function sheetCentrelines(
  stated: readonly StatedStation[],
  exam: Exam,
  { dictionary, bySite }: { dictionary: Dictionary; bySite: ScanPosition },
): { centrelines: Centreline[]; messages: Message[] } {
  const { placed, messages } = placeStations(stated, dictionary);
  const vessels = Map.groupBy(placed, ({ vessel }) => vessel);
  const centrelines = [...vessels.values()].flatMap((rows): Centreline[] => {
    const centreline = centrelineOf(rows, exam, { bySite, messages });
    return centreline ? [centreline] : [];
  });
  return { centrelines: centrelines.toSorted(aortaFirst), messages };
}

/** Orders the centrelines of one exam. */
export function aortaFirst(a: Centreline, b: Centreline): number {
  const rank = ({ vessel }: Centreline): string => (vessel === "aorta" ? "" : vessel);
  return rank(a) < rank(b) ? -1 : Number(rank(a) > rank(b));
}

function centrelineOf(
  rows: readonly PlacedStation[],
  { key: exam, imagingDate: date }: Exam,
  { bySite, messages }: { bySite: ScanPosition; messages: Message[] },
): Centreline | null {
  const ordered = rows.toSorted((a, b) => alongTheLine(a.station, b.station));
  const [first] = ordered;
  if (!first) return null;
  const { vessel, label } = first;
  const name: CentrelineName = { label, date };
  messages.push(...axesMessages(ordered, name));
  const position = positionOf(ordered, name, { bySite, messages });
  const distinct = onceEach(ordered.map(({ station }) => station));
  const clash = stationClash(distinct, name);
  if (clash) {
    messages.push(clash);
    return null;
  }
  const marked = withoutDoubleMarks(distinct, name);
  messages.push(...marked.messages);
  const disorder = vessel === "aorta" || isAccess(vessel) ? markDisorder(marked.stations) : null;
  if (disorder) {
    const [one, other] = [disorder.first, disorder.second].map(
      ({ mark, distanceMm }) =>
        `${mark.place.label}${mark.edge === null ? "" : `, ${mark.edge}`} (${formatLength(distanceMm)})`,
    );
    const data = { label, date, one: one ?? "", other: other ?? "" };
    messages.push(caseMessage("centreline-marks-out-of-order", first.station.source, data));
    return null;
  }
  messages.push(...[pointsTooFarApart(marked.stations, name)].filter((one) => one !== null));
  const origin = "centreline sheet";
  return { exam, vessel, label, ...position, origin, stations: marked.stations };
}

const isAccess = (vessel: string): boolean => vessel.endsWith(" access path");

/** What is said once of the coordinates of a centreline. */
function axesMessages(rows: readonly PlacedStation[], { label, date }: CentrelineName): Message[] {
  const codes = {
    "without axes": "centreline-axes-not-stated",
    incomplete: "centreline-points-incomplete",
    RAS: "centreline-axes-converted",
  } as const;
  return (["without axes", "incomplete", "RAS"] as const).flatMap((axes) => {
    const found = rows.filter((row) => row.axes === axes);
    const source = found[0]?.station.source ?? null;
    const data = { label, date, count: found.length };
    return found.length === 0 ? [] : [caseMessage(codes[axes], source, data)];
  });
}

/** The one position that rows state, or that of the site; none where rows contradict each other. */
function positionOf(
  rows: readonly PlacedStation[],
  { label, date }: CentrelineName,
  { bySite, messages }: { bySite: ScanPosition; messages: Message[] },
): ScanPosition {
  const positions = [...new Set(rows.flatMap((row) => row.patientPosition ?? []))].toSorted();
  const [only, ...others] = positions;
  if (only === undefined) return bySite;
  if (others.length === 0) return { patientPosition: only, positionBy: null };
  const source = rows[0]?.station.source ?? null;
  const data = { label, date, positions: positions.join(", ") };
  messages.push(caseMessage("centreline-positions-differ", source, data));
  return { patientPosition: null, positionBy: null };
}

/** Stations that say the same, the first of each. */
function onceEach(stations: readonly Station[]): Station[] {
  const byMeaning = new Map<string, Station>();
  for (const station of stations) {
    const meaning = meaningOf(station);
    if (!byMeaning.has(meaning)) byMeaning.set(meaning, station);
  }
  return [...byMeaning.values()];
}

function meaningOf({ mark, ...station }: Station): string {
  const { key: _, source: __, reader: ___, comment: ____, ...rest } = station;
  return JSON.stringify([mark?.place.id, mark?.edge, rest]);
}

/** By distance, lumen and mark; the key decides only between rows that say the same. */
function alongTheLine(a: Station, b: Station): number {
  const rest = (one: Station): string =>
    JSON.stringify([
      one.lumen,
      one.edge,
      (one.mark?.place.position ?? 99).toFixed(3).padStart(8),
      meaningOf(one),
      one.reader,
      one.comment,
      one.key,
    ]);
  return a.distanceMm - b.distanceMm || (rest(a) < rest(b) ? -1 : 1);
}
