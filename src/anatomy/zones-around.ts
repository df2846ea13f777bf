import type { AorticPlace } from "./places.ts";

/**
 * The zones that a place lies in; for a place on a border the zones on both sides, for a range all zones that it
 * reaches into. Empty in the root, which has no zone, and for a branch whose origin has none.
 */
export function zonesAround(
  place: Pick<AorticPlace, "kind" | "position" | "span" | "zones">,
): readonly string[] {
  const { kind, position, span, zones } = place;
  if (zones.length > 0 || kind === "branch") return zones;
  // Zone n is the band from n + 1 to n + 2.
  const touches = (zone: number): boolean =>
    span === null
      ? zone + 1 <= position && position <= zone + 2
      : zone + 1 < span[1] && span[0] < zone + 2;
  const aortic = Array.from({ length: 10 }, (_, zone) => zone).filter(touches);
  const iliac = touches(10) ? ["10-left", "10-right"] : [];
  // More than 2 cm beyond the left subclavian it may be zone 4 or zone 5: the border is a vertebral level.
  const furtherOn = kind === "distance" && position > 5 ? ["5"] : [];
  return [...aortic.map(String), ...iliac, ...furtherOn];
}
