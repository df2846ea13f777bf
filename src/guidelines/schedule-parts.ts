import type { AorticPlace, RegionId } from "../anatomy/places.ts";

/** Parts of the aorta that surveillance schedules speak of. */
export const partIds = [
  "root",
  "root or ascending",
  "thoracic",
  "arch or descending",
  "abdominal",
] as const;
export type PartId = (typeof partIds)[number];

interface AortaPart {
  label: string;
  regions: readonly RegionId[];
  /** Bands along the vessel, as `AorticPlace.position`. */
  span: readonly [number, number];
  /** As a stated repair names them. */
  zones: readonly string[];
}

/** The abdominal aorta begins at the coeliac artery, as for the size criteria. */
export const aortaParts: Record<PartId, AortaPart> = {
  root: { label: "aortic root", regions: ["root"], span: [0, 1], zones: ["root"] },
  "root or ascending": {
    label: "aortic root or ascending aorta",
    regions: ["root", "ascending"],
    span: [0, 2],
    zones: ["root", "0"],
  },
  thoracic: {
    label: "thoracic aorta",
    regions: ["root", "ascending", "arch", "descending"],
    span: [0, 7],
    zones: ["root", "0", "1", "2", "3", "4", "5"],
  },
  "arch or descending": {
    label: "arch or descending aorta",
    regions: ["arch", "descending"],
    span: [2, 7],
    zones: ["1", "2", "3", "4", "5"],
  },
  abdominal: {
    label: "abdominal aorta",
    regions: ["visceral", "abdominal"],
    span: [7, 11],
    zones: ["6", "7", "8", "9"],
  },
};

/**
 * Whether a number taken at a place shows that an exam saw the part. A range that reaches into the part does; a place
 * on its border does not: a chest CT ends at the coeliac artery. A branch shows nothing.
 */
export function showsPart(place: AorticPlace, id: PartId): boolean {
  const { regions, span } = aortaParts[id];
  if (place.kind === "branch") return false;
  if (place.region !== null && place.region !== "thoraco-abdominal") {
    return regions.includes(place.region);
  }
  const [start, end] = place.span ?? [place.position, place.position];
  return start < span[1] && span[0] < end;
}

/** Whether a diameter at a place is a size of the part; the coeliac border counts as abdominal, as for the size criteria. */
export function isSizeOfPart(place: AorticPlace, id: PartId): boolean {
  const isBorder = id === "abdominal" && place.id === "at-coeliac-origin";
  return isBorder || (place.region !== null && aortaParts[id].regions.includes(place.region));
}

/**
 * Whether a repair with these zones is one of the part. Our rule, not published: a thoracic repair that ends above the
 * renal arteries is none of the abdominal aorta; one that goes on into zone 8 or 9 is one of both.
 */
export function isRepairOfPart(zones: readonly string[], id: PartId): boolean {
  const touches = (part: PartId): boolean =>
    zones.some((zone) => aortaParts[part].zones.includes(zone));
  if (id !== "abdominal" || !touches("thoracic")) return touches(id);
  return zones.includes("8") || zones.includes("9");
}
