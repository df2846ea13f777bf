import type { AorticPlace } from "../anatomy/places.ts";
import type { PriorRepair } from "../cases/patient-case.ts";
import { coverage, stretchesAround } from "../cases/wall.ts";

/** Whether a place was repaired: no, yes, or what would have to be known. */
export type RepairState = "native" | "repaired" | { unclear: string };

/**
 * Whether the stated repairs cover a place. A place on a border is repaired when both sides are, a range when all of its
 * zones are; where only some are, and in the root beside a repaired zone 0, it is unclear. So is a place with an
 * elephant trunk: it hangs free in the native wall, which may be what was measured.
 */
export function repairState(place: AorticPlace, repairs: readonly PriorRepair[]): RepairState {
  const states = stretchesAround(place).map((stretch) => stateOf(stretch, place.label, repairs));
  const unclear = states.find((state) => typeof state === "object");
  if (unclear) return unclear;
  if (states.every((state) => state === "native")) return "native";
  if (states.every((state) => state === "repaired")) return "repaired";
  return { unclear: `whether the repair takes in the place measured, ${place.label}` };
}

function stateOf(stretch: string, label: string, repairs: readonly PriorRepair[]): RepairState {
  const covering = repairs.filter((repair) => coverage(repair, stretch, label) === "yes");
  if (covering.some(({ kinds }) => !kinds.includes("elephant trunk"))) return "repaired";
  if (covering.length > 0) {
    return { unclear: `whether the native wall around the elephant trunk was measured, ${label}` };
  }
  const states = repairs.map((repair) => coverage(repair, stretch, label));
  return states.find((state) => typeof state === "object") ?? "native";
}
