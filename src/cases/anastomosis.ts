import type { AorticPlace } from "../anatomy/places.ts";
import type { Message } from "../message.ts";
import { quantities } from "../quantities/measured-quantity.ts";
import { caseMessage } from "./messages.ts";
import type { CaseFacts, Exam, Measurement, PriorRepair } from "./patient-case.ts";
import type { RepairKind } from "./vocabulary.ts";
import { timing, wallKindsOf } from "./wall.ts";

type End = "proximal" | "distal";
const endOfPlace: ReadonlyMap<string, End> = new Map([
  ["proximal-anastomosis", "proximal"],
  ["distal-anastomosis", "distal"],
]);

/** Whether a place is an anastomosis, located or not. */
export const isAnastomosis = ({ id }: Pick<AorticPlace, "id">): boolean =>
  endOfPlace.has(id.split("+")[0] ?? "");

/** A located reading, the reading as it was where it is of no anastomosis, or null with the message why it is left out. */
type LocatedReading =
  | { measurement: Measurement; message: null }
  | { measurement: null; message: Message };

/**
 * Places a reading of an anastomosis on the end of the one repair that it can belong to: sewn, or of no stated kind,
 * with zones, and done by the exam (YYYY-MM-DD). The place lies on a border and has no zone; its id names the zones of
 * the repair, so that it is the same in all exams.
 */
export function locateAnastomosis(
  measurement: Measurement,
  repairs: readonly PriorRepair[] | null,
  examDate: string,
): LocatedReading {
  const { place, quantity, source } = measurement;
  const end = endOfPlace.get(place.id);
  if (end === undefined) return { measurement, message: null };
  const located = endOfOnlyRepair(end, repairs, examDate);
  if ("kind" in located) return { measurement: { ...measurement, place: located }, message: null };
  const data = {
    number: `${quantities[quantity].label} at ${place.label}`,
    date: examDate,
    why: located.why,
  };
  return { measurement: null, message: caseMessage("anastomosis-not-located", source, data) };
}

/** Locates all readings of anastomoses of a case; the other measurements stay as they are, and so does the order. */
export function locateAnastomoses(
  measurements: readonly Measurement[],
  { priorRepairs }: Pick<CaseFacts, "priorRepairs">,
  exams: readonly Exam[],
): { measurements: Measurement[]; messages: Message[] } {
  const dates = new Map(exams.map(({ key, imagingDate }) => [key, imagingDate]));
  const located = measurements.map((measurement) => {
    const date = dates.get(measurement.exam);
    if (date === undefined) throw new Error(`measurement ${measurement.key} names no exam`);
    return locateAnastomosis(measurement, priorRepairs, date);
  });
  return {
    measurements: located.flatMap(({ measurement }) => measurement ?? []),
    messages: located.flatMap(({ message }) => message ?? []),
  };
}

function endOfOnlyRepair(
  end: End,
  repairs: readonly PriorRepair[] | null,
  examDate: string,
): AorticPlace | { why: string } {
  if (repairs === null) return { why: "no prior repair is stated, nor that there was none" };
  const sewn = withoutTrunksOfGrafts(
    repairs.filter((repair) => mayBeSewn(repair) && timing(repair, examDate, "exam") !== "later"),
  );
  const [repair, ...others] = sewn;
  if (!repair) return { why: "no open repair of the aorta is stated before it" };
  if (others.length > 0) {
    const words = sewn.map((one) => `"${one.words}"`).toSorted();
    return { why: `it may belong to ${words.join(" or ")}` };
  }
  const { words, zones } = repair;
  if (timing(repair, examDate, "exam") === "unclear") {
    return { why: `it is not stated whether "${words}" was before it` };
  }
  if (zones === null) return { why: `the zones of "${words}" are not stated` };
  return endOf(end, repair, zones);
}

/** A stent graft is not sewn, and a bypass or valve alone has no zones of the aorta. */
function mayBeSewn(repair: PriorRepair): boolean {
  const kinds = wallKindsOf(repair);
  const isOnlyStentGraft = kinds.length > 0 && kinds.every((kind) => kind === "stent graft");
  return !isOnlyStentGraft && repair.zones?.length !== 0;
}

const isTrunk = (kind: RepairKind): boolean => kind.endsWith("elephant trunk");
const isTrunkOnly = (kinds: readonly RepairKind[]): boolean =>
  kinds.length > 0 && kinds.every(isTrunk);

/** Leaves out a trunk that is stated apart from the graft of the same day: it hangs from the end of that graft. */
function withoutTrunksOfGrafts(repairs: readonly PriorRepair[]): PriorRepair[] {
  const graftDates = new Set(
    repairs.filter(({ kinds }) => !kinds.some(isTrunk)).map(({ date }) => date),
  );
  return repairs.filter(
    ({ kinds, date }) => !(date !== null && graftDates.has(date) && isTrunkOnly(kinds)),
  );
}

/** Position along the vessel at which a stretch begins; the root is 0 and zone n is n + 1. */
const startOf = (zone: string): number => (zone === "root" ? 0 : Number.parseInt(zone, 10) + 1);

function endOf(
  end: End,
  repair: PriorRepair,
  zones: readonly string[],
): AorticPlace | { why: string } {
  const { words, date } = repair;
  const along = zones.toSorted((a, b) => startOf(a) - startOf(b));
  const starts = along.map(startOf);
  const [first = "", last = ""] = [along[0], along.at(-1)];
  const isOneStretch = starts.every((start, index) => start - (starts[index - 1] ?? start) <= 1);
  if (!isOneStretch) return { why: `the zones of "${words}" are apart from each other` };
  const [start, endStart] = [startOf(first), startOf(last)];
  const outermost = end === "proximal" ? start : endStart;
  const isOnBothSides = (at: number): boolean => starts.filter((one) => one === at).length > 1;
  if (isOnBothSides(outermost)) return { why: `"${words}" has this end on both sides` };
  const lastZone = isOnBothSides(endStart) ? `${endStart - 1}` : last;
  const kinds = wallKindsOf(repair);
  if (kinds.includes("stent graft"))
    return { why: `which end of "${words}" is sewn is not stated` };
  if (end === "distal" && kinds.some(isTrunk)) {
    return { why: `the zones of "${words}" end with the trunk, not with the suture` };
  }
  const kind = kinds.join(" and ") || "repair";
  return {
    id: `${end}-anastomosis+${first}-${lastZone}`,
    kind: "landmark",
    label: `${end} anastomosis of the ${kind} of ${zoneWords(first, lastZone)} (${date})`,
    zones: [],
    region: null,
    position: end === "proximal" ? outermost : outermost + 1,
    span: null,
    variant: null,
  };
}

/** "zone 3", "zones 0 to 2", "the root", "the root to zone 1", "zones 9 to 10 left". */
function zoneWords(first: string, last: string): string {
  const [from, to] = [first.replace("-", " "), last.replace("-", " ")];
  if (first === "root") return last === "root" ? "the root" : `the root to zone ${to}`;
  return first === last ? `zone ${from}` : `zones ${from} to ${to}`;
}
