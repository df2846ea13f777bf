import { type AorticPlace, placeById } from "../anatomy/places.ts";
import { zonesAround } from "../anatomy/zones-around.ts";
import type { PriorRepair } from "./patient-case.ts";
import type { RepairKind } from "./vocabulary.ts";

/** What the aorta consists of at a place. An elephant trunk hangs free inside the native wall. */
export type WallKind =
  | "native"
  | Exclude<RepairKind, "bypass" | "valve">
  | "repaired, kind not stated";

/**
 * The wall of a place, or what would have to be known. `since` is the date of the repair as stated, null for a native
 * wall and where several repairs of one kind or none with a date made it; `words` are those of the sheet.
 */
export type Wall =
  | { kind: WallKind; since: string | null; words: string | null }
  | { unclear: string };

/** The day that a wall is asked for: a repair without a date has happened at present, and may be later than an exam. */
type Moment = "exam" | "present";

/**
 * The stretches that a place lies in or borders on: "root" (the annulus to the sinotubular junction, which is also on
 * the border of zone 0) and zones. Empty for a branch whose origin has no zone.
 */
export function stretchesAround(
  place: Pick<AorticPlace, "kind" | "zones" | "position" | "span">,
): readonly string[] {
  const { kind, zones, position, span } = place;
  const reachesRoot = span === null ? zones.length === 0 && position <= 1 : span[0] < 1;
  return kind !== "branch" && reachesRoot ? ["root", ...zonesAround(place)] : zonesAround(place);
}

/**
 * Whether a repair covers a stretch, or what would have to be known. Sources differ on whether zone 0 takes in the
 * root, and a repair of the root alone ends somewhere in zone 0: each leaves the other unclear.
 */
export function coverage(
  { words, zones }: PriorRepair,
  stretch: string,
  label: string,
): "yes" | "no" | { unclear: string } {
  if (zones === null) return { unclear: `which zones were repaired ("${words}")` };
  if (zones.includes(stretch)) return "yes";
  if (stretch === "root" && zones.includes("0")) {
    return { unclear: `whether the repair of zone 0 takes in the ${label}` };
  }
  if (stretch === "0" && zones.length === 1 && zones[0] === "root") {
    return { unclear: `whether the repair of the root takes in the place measured, ${label}` };
  }
  return "no";
}

/** Whether a repair covers a place or a part of it, or may. */
export function mayTouch(repair: PriorRepair, place: AorticPlace): boolean {
  return stretchesAround(place).some((stretch) => coverage(repair, stretch, place.label) !== "no");
}

/** Whether a repair was done by a day (YYYY-MM-DD); one on that day counts as done. */
export function timing(
  { date }: PriorRepair,
  day: string,
  moment: Moment,
): "done" | "later" | "unclear" {
  if (date === null) return moment === "present" ? "done" : "unclear";
  const sameLength = day.slice(0, date.length);
  if (date === sameLength) return date.length === day.length ? "done" : "unclear";
  return date < sameLength ? "done" : "later";
}

/** The kinds of a repair that change the wall of the aorta; empty where none is stated. */
export function wallKindsOf({ kinds }: PriorRepair): Exclude<RepairKind, "bypass" | "valve">[] {
  return kinds.filter((kind) => kind !== "bypass" && kind !== "valve");
}

function kindsLeftBy(repair: PriorRepair): WallKind[] {
  const kinds = wallKindsOf(repair);
  return kinds.length > 0 ? kinds : ["repaired, kind not stated"];
}

/** Whether one repair was surely after another. Dates compare up to the shorter one; without a date nothing is sure. */
function isAfter({ date }: PriorRepair, { date: other }: PriorRepair): boolean {
  if (date === null || other === null) return false;
  const length = Math.min(date.length, other.length);
  return date.slice(0, length) > other.slice(0, length);
}

const unique = (words: readonly string[]): string[] => [...new Set(words)].toSorted();
const quoted = (repairs: readonly PriorRepair[]): string[] =>
  unique(repairs.map(({ words }) => `"${words}"`));
const or = (words: readonly string[]): string => words.join(" or ");

/** The wall of one stretch: that which the latest repair by the day left. */
function wallOfStretch(
  stretch: string,
  label: string,
  repairs: readonly PriorRepair[],
  day: string,
  moment: Moment,
): Wall {
  const met = repairs.flatMap((repair) => {
    const covers = coverage(repair, stretch, label);
    const when = timing(repair, day, moment);
    return covers === "no" || when === "later" ? [] : [{ repair, covers, when }];
  });
  const sure = met.filter(({ covers, when }) => covers === "yes" && when === "done");
  const last = met.filter(({ repair }) => !sure.some((other) => isAfter(other.repair, repair)));
  const lastRepairs = last.map(({ repair }) => repair);
  const outcomes = unique([
    ...lastRepairs.flatMap(kindsLeftBy),
    ...(sure.length === 0 ? ["native"] : []),
  ]) as WallKind[];
  const [kind] = outcomes;
  if (kind !== undefined && outcomes.length === 1) {
    if (kind === "native") return { kind, since: null, words: null };
    const dates = new Set(lastRepairs.map(({ date }) => date));
    const since = dates.size === 1 ? (lastRepairs[0]?.date ?? null) : null;
    return { kind, since, words: unique(lastRepairs.map(({ words }) => words)).join("; ") };
  }
  const [uncovered] = unique(
    last.flatMap(({ covers }) => (typeof covers === "object" ? covers.unclear : [])),
  );
  if (uncovered !== undefined) return { unclear: uncovered };
  const undated = last.filter(({ when }) => when === "unclear").map(({ repair }) => repair);
  if (undated.length > 0) {
    return { unclear: `whether ${or(quoted(undated))} was before or after ${day}` };
  }
  if (lastRepairs.length > 1) return { unclear: `which came last, ${or(quoted(lastRepairs))}` };
  return { unclear: `whether ${or(quoted(lastRepairs))} left ${or(outcomes)} at ${label}` };
}

/**
 * The wall of a place on a day (YYYY-MM-DD) by the repairs that the case sheet states; null where it states nothing.
 * The latest repair of a zone counts. A place on a border, or a range, has a wall only where all zones around it have
 * the same. A branch has the wall of the aorta at its origin, and a native one where that has no zone.
 */
export function wallAt(
  place: AorticPlace,
  repairs: readonly PriorRepair[] | null,
  day: string,
  moment: Moment = "exam",
): Wall {
  if (repairs === null) return { unclear: "prior repair (or none)" };
  const { label } = place;
  const walls = stretchesAround(place).map((stretch) =>
    wallOfStretch(stretch, label, repairs, day, moment),
  );
  const known = walls.filter((wall) => "kind" in wall);
  const unclear = walls.find((wall) => "unclear" in wall);
  if (unclear) return unclear;
  const [first, ...others] = known;
  if (!first) return { kind: "native", since: null, words: null };
  if (others.some(({ kind }) => kind !== first.kind)) {
    const kinds = or(unique(known.map(({ kind }) => kind)));
    return { unclear: `whether the repair takes in the place measured, ${label}: ${kinds}` };
  }
  const words = unique(known.flatMap(({ words }) => words ?? []));
  const isOne = known.every(({ since }) => since === first.since);
  return {
    kind: first.kind,
    since: isOne ? first.since : null,
    words: words.length > 0 ? words.join("; ") : null,
  };
}

const stretches: readonly [string, AorticPlace][] = [
  ["root", placeById("aortic-root")],
  ...[..."0123456789", "10-right", "10-left", "11-right", "11-left"].map(
    (zone): [string, AorticPlace] => [zone, placeById(`zone-${zone}`)],
  ),
];

/** The walls of the root and all zones on a day, along the vessel; `zone` is "root" or as in `PriorRepair.zones`. */
export function wallsAt(
  repairs: readonly PriorRepair[] | null,
  day: string,
  moment: Moment = "exam",
): { zone: string; label: string; wall: Wall }[] {
  return stretches.map(([zone, place]) => ({
    zone,
    label: place.label,
    wall: wallAt(place, repairs, day, moment),
  }));
}
