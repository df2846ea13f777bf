import type { AorticPlace } from "../anatomy/places.ts";
import { zonesAround } from "../anatomy/zones-around.ts";
import type { PriorRepair } from "../cases/patient-case.ts";

/** Whether a place was repaired: no, yes, or what would have to be known. */
export type RepairState = "native" | "repaired" | { unclear: string };

/**
 * Whether the stated repairs cover a place. Repairs state zones: a place on a border is repaired when both zones are,
 * a range when all of its zones are; where only some are, and in the root beside a repaired zone 0, it is unclear.
 */
export function repairState(place: AorticPlace, repairs: readonly PriorRepair[]): RepairState {
  const unnamed = repairs.find(({ zones }) => zones === null);
  if (unnamed) return { unclear: `which zones were repaired ("${unnamed.words}")` };
  const repaired = new Set(repairs.flatMap(({ zones }) => zones ?? []));
  if (place.region === "root") {
    return repaired.has("0")
      ? { unclear: `whether the repair of zone 0 takes in the ${place.label}` }
      : "native";
  }
  const around = zonesAround(place);
  const covered = around.filter((zone) => repaired.has(zone));
  if (covered.length === 0) return "native";
  if (covered.length === around.length) return "repaired";
  return { unclear: `whether the repair takes in the place measured, ${place.label}` };
}
