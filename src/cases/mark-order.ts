import type { AorticPlace } from "../anatomy/places.ts";
import { holds } from "../quantities/limit.ts";
import type { Station, StationMark } from "./patient-case.ts";

/** Where a mark can lie between the others: from the first to the last position along the vessel, in bands of `places.yaml`. */
type Reach = readonly [first: number, last: number];

/** Places whose order differs from person to person, or that lie within one another, with the stretch that they share. */
const sharedReaches: readonly { ids: readonly string[]; reach: Reach }[] = [
  {
    ids: ["sinuses-of-valsalva", "right-coronary-artery", "left-coronary-artery"],
    reach: [0.4, 0.5],
  },
  {
    ids: [
      "right-common-carotid-artery",
      "right-subclavian-artery",
      "left-vertebral-artery",
      "right-vertebral-artery",
      "aberrant-right-subclavian-artery",
      "mid-arch",
      "aortic-isthmus",
    ],
    reach: [1.5, 5.2],
  },
  { ids: ["at-diaphragm", "at-coeliac-origin", "coeliac-artery"], reach: [6.75, 7.1] },
  { ids: ["right-renal-artery", "left-renal-artery"], reach: [9.15, 9.3] },
];

/** Places that lie on no certain part of the vessel: an anastomosis is where the graft ends. */
const anywhere = new Set(["proximal-anastomosis", "distal-anastomosis", "circle-of-willis"]);

const reaches = new Map(sharedReaches.flatMap(({ ids, reach }) => ids.map((id) => [id, reach])));

function reachOf({ id, kind, position }: AorticPlace): Reach | null {
  if (anywhere.has(id)) return null;
  if (kind === "distance") return [4, 5.2];
  return reaches.get(id) ?? [position, position];
}

const edgeRanks = { "proximal edge": 0, centre: 1, "distal edge": 2 } as const;

/** A mark at a distance that comes before one that lies further up the vessel in everyone. */
export interface MarkDisorder {
  first: Marked;
  second: Marked;
}
interface Marked {
  distanceMm: number;
  mark: StationMark;
}

/**
 * The first pair of marks that stand in an order that no vessel has: the left subclavian artery before the left common
 * carotid artery, or the distal edge of an origin before its proximal edge. Null where there is none. The order of the
 * origins in a right arch, of the two renal arteries, and of places within one another is left open.
 */
export function markDisorder(stations: readonly Station[]): MarkDisorder | null {
  const marked = stations.flatMap(({ distanceMm, mark }): Marked[] =>
    mark === null ? [] : [{ distanceMm, mark }],
  );
  for (const [index, first] of marked.entries()) {
    const second = marked.slice(index + 1).find((later) => isDisorder(first, later));
    if (second) return { first, second };
  }
  return null;
}

function isDisorder(first: Marked, second: Marked): boolean {
  if (holds(second.distanceMm, "<=", first.distanceMm)) return false;
  if (first.mark.place.id === second.mark.place.id) {
    const [one, other] = [first.mark.edge, second.mark.edge];
    return one !== null && other !== null && edgeRanks[one] > edgeRanks[other];
  }
  const [upper, lower] = [reachOf(first.mark.place), reachOf(second.mark.place)];
  return upper !== null && lower !== null && upper[0] > lower[1];
}
