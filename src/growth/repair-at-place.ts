import type { AorticPlace } from "../anatomy/places.ts";
import { zonesAround } from "../anatomy/zones-around.ts";
import type { PriorRepair } from "../cases/patient-case.ts";

/** Zones of which a repair may change the size of the place. Sources differ on whether zone 0 takes in the root, so a repair of zone 0 counts there too. */
function zonesTouched(place: AorticPlace): readonly string[] {
  const isUpstreamOfZones = place.kind !== "branch" && place.position < 1;
  return isUpstreamOfZones ? ["0"] : zonesAround(place);
}

/** True where the repair may lie between the two days; a repair without a date may lie anywhere, one on the day of an exam before or after it. */
function mayLieBetween({ date }: PriorRepair, fromDate: string, toDate: string): boolean {
  if (date === null) return true;
  return fromDate.slice(0, date.length) <= date && date <= toDate.slice(0, date.length);
}

function dayOf(date: string | null): string {
  if (date === null) return ", date not stated";
  return date.length === 10 ? ` on ${date}` : ` in ${date}, day not stated`;
}

/**
 * Why two sizes of a place are not comparable because of an operation there, or null. Dates are YYYY-MM-DD,
 * earlier first. A repair whose zones or date are not stated counts as one that stands between.
 */
export function repairBetween(
  place: AorticPlace,
  repairs: readonly PriorRepair[],
  fromDate: string,
  toDate: string,
): string | null {
  const touched = zonesTouched(place);
  for (const repair of repairs) {
    if (!mayLieBetween(repair, fromDate, toDate)) continue;
    const { date, zones, words } = repair;
    if (zones === null) return `repair${dayOf(date)}, zones not stated: "${words}"`;
    if (zones.some((zone) => touched.includes(zone))) return `repair at this place${dayOf(date)}`;
  }
  return null;
}
