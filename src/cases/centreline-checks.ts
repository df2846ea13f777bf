import { norm, subtract } from "../geometry/vector.ts";
import type { Message } from "../message.ts";
import { formatLength } from "../quantities/format-length.ts";
import { holds } from "../quantities/limit.ts";
import { caseMessage } from "./messages.ts";
import type { Station, StationMark } from "./patient-case.ts";

/** What a centreline is called in messages. */
export interface CentrelineName {
  label: string;
  /** Imaging date, YYYY-MM-DD. */
  date: string;
}

const comparedFields = [
  "point",
  "wall",
  "maximumMm",
  "minimumMm",
  "perimeterMm",
  "areaMm2",
  "thrombusArcDeg",
  "thrombusThicknessMm",
  "calciumArcDeg",
] as const;

/**
 * A message where two rows give the same section, at one distance in one lumen by one edge, different values; null where
 * all agree. A row may say what another leaves out, and several marks may stand at one distance.
 */
export function stationClash(
  stations: readonly Station[],
  { label, date }: CentrelineName,
): Message | null {
  const sections = Map.groupBy(stations, ({ distanceMm, lumen, edge }) =>
    JSON.stringify([distanceMm, lumen, edge]),
  );
  for (const rows of sections.values()) {
    for (const field of comparedFields) {
      const stated = rows.filter((row) => row[field] !== null);
      const values = new Set(stated.map((row) => JSON.stringify(row[field])));
      const [first] = stated;
      if (!first || values.size < 2) continue;
      const files = [...new Set(stated.map(({ source }) => source.file))].toSorted().join(", ");
      const at = formatLength(first.distanceMm);
      return caseMessage("centrelines-differ", first.source, { label, date, at, files });
    }
  }
  return null;
}

/**
 * Takes out the marks that stand at more than one distance: which of them is meant is not known. A branch whose edges are
 * stated has a mark for each.
 */
export function withoutDoubleMarks(
  stations: readonly Station[],
  { label, date }: CentrelineName,
): { stations: Station[]; messages: Message[] } {
  const marked = stations.filter(({ mark }) => mark !== null);
  const groups = Map.groupBy(marked, ({ mark }) => markKey(mark));
  const messages: Message[] = [];
  const doubled = new Set<string>();
  for (const [key, group] of groups) {
    const distances = [...new Set(group.map(({ distanceMm }) => distanceMm))];
    const [first] = group;
    if (!first?.mark || distances.length < 2) continue;
    doubled.add(key);
    const { place, edge } = first.mark;
    const mark = edge === null ? place.label : `${place.label}, ${edge}`;
    const data = { label, date, mark, distances: distances.map(formatLength).join(", ") };
    messages.push(caseMessage("centreline-mark-twice", first.source, data));
  }
  const kept = stations.map((one) =>
    doubled.has(markKey(one.mark)) ? { ...one, mark: null } : one,
  );
  return { stations: kept, messages };
}

const markKey = (mark: StationMark | null): string =>
  mark === null ? "" : JSON.stringify([mark.place.id, mark.edge]);

/** How far a straight line may be over the distance along the centreline between its ends, which it can't be longer than. */
const roundingMm = 0.5;
const roundingShare = 0.02;

/**
 * A message where neighbouring points of one lumen lie further apart than their distances along the centreline say; null
 * where none do. 0.5 mm or 2 %, whichever is more, is allowed for rounding: common practice, not from a source.
 */
export function pointsTooFarApart(
  stations: readonly Station[],
  { label, date }: CentrelineName,
): Message | null {
  const faults = [...Map.groupBy(stations, ({ lumen }) => lumen).values()].flatMap((ofLumen) => {
    const points = ofLumen.flatMap(({ distanceMm, point, source }) =>
      point === null ? [] : [{ distanceMm, point, source }],
    );
    return points.flatMap((to, index) => {
      const from = points[index - 1];
      if (!from || from.distanceMm === to.distanceMm) return [];
      const alongMm = to.distanceMm - from.distanceMm;
      const straightMm = norm(subtract(to.point, from.point));
      const allowedMm = alongMm + Math.max(roundingMm, roundingShare * alongMm);
      return holds(straightMm, "<=", allowedMm) ? [] : [{ from, to, alongMm, straightMm }];
    });
  });
  const [first] = faults;
  if (!first) return null;
  return caseMessage("centreline-points-longer", first.to.source, {
    label,
    date,
    count: faults.length,
    from: formatLength(first.from.distanceMm),
    to: formatLength(first.to.distanceMm),
    straight: formatLength(first.straightMm),
    along: formatLength(first.alongMm),
  });
}
