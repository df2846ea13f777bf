import { type AorticPlace, placeById } from "../anatomy/places.ts";
import type { Centreline, StationMark } from "./patient-case.ts";

const lastZone = 9;

/** The zone that begins at a mark: beyond the distal edge of an arch branch the next one. */
function zoneFrom({ place, edge }: StationMark): AorticPlace {
  if (place.kind !== "branch" && place.region !== null) return place;
  const [zone = String(Math.max(Math.floor(place.position) - 1, 0))] = place.zones;
  const isBeyond = place.kind === "branch" && edge === "distal edge" && Number(zone) < 3;
  return placeById(`zone-${Math.min(Number(zone) + (isBeyond ? 1 : 0), lastZone)}`);
}

/**
 * About where the stations of a centreline lie, by key, as far as the reading error depends on it: from the last mark
 * before each; in zone 0 before the first. An access path is taken as the common iliac artery of its side.
 */
export function stationPlaces({ vessel, stations }: Centreline): Map<string, AorticPlace> {
  const places = new Map<string, AorticPlace>();
  let here = placeById(vessel.startsWith("left") ? "zone-10-left" : "zone-10-right");
  if (vessel === "aorta") here = placeById("zone-0");
  for (const { key, mark } of stations) {
    if (vessel === "aorta" && mark !== null) here = zoneFrom(mark);
    places.set(key, here);
  }
  return places;
}
