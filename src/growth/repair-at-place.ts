import type { AorticPlace } from "../anatomy/places.ts";
import type { PriorRepair } from "../cases/patient-case.ts";
import { mayTouch, wallKindsOf } from "../cases/wall.ts";

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
 * earlier first. A repair whose zones or date are not stated counts as one that stands between, and so does a repair of
 * zone 0 for the root and one of the root for zone 0: how far they reach is not stated. A bypass or a valve changes no
 * size of the aorta.
 */
export function repairBetween(
  place: AorticPlace,
  repairs: readonly PriorRepair[],
  fromDate: string,
  toDate: string,
): string | null {
  for (const repair of repairs) {
    if (!mayLieBetween(repair, fromDate, toDate)) continue;
    const { date, zones, words } = repair;
    if (zones === null) return `repair${dayOf(date)}, zones not stated: "${words}"`;
    if (!mayTouch(repair, place)) continue;
    return `${wallKindsOf(repair).join(" and ") || "repair"} at this place${dayOf(date)}`;
  }
  return null;
}
