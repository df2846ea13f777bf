import type { ProfileRow } from "./profile-data.ts";

export type ProfileSide = "middle" | "right" | "left";

/** Names of the bands from the root downwards; the last two lie on the right and on the left. */
export const bandNames = ["root", "0", "1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11"];
/** Band in which the aorta has divided. */
export const firstIliacBand = 11;

/** A stretch without a measurement, in band positions. */
export interface ProfileGap {
  side: ProfileSide;
  from: number;
  to: number;
  /** "zones 6 to 9", "aortic root", "zone 10, left". */
  label: string;
}

/** The side of the body on which a place below the bifurcation lies. */
export function sideOf(placeId: string): ProfileSide {
  if (placeId.endsWith("-right") || placeId.startsWith("right-")) return "right";
  if (placeId.endsWith("-left") || placeId.startsWith("left-")) return "left";
  return "middle";
}

function gapLabel(side: ProfileSide, from: number, to: number): string {
  const first = bandNames[from] ?? "";
  const last = bandNames[to - 1] ?? "";
  const suffix = side === "middle" ? "" : `, ${side}`;
  if (first === "root") return to === 1 ? "aortic root" : `aortic root to zone ${last}`;
  return from === to - 1 ? `zone ${first}${suffix}` : `zones ${first} to ${last}${suffix}`;
}

/** A band counts as measured where a bar lies inside it; a bar on a border is in neither band but divides a gap. */
function gapsOf(side: ProfileSide, positions: number[], bands: number[]): ProfileGap[] {
  const isMeasured = (band: number): boolean =>
    positions.some((position) => position > band && position < band + 1);
  const open: { from: number; to: number }[] = [];
  for (const band of bands) {
    if (isMeasured(band)) continue;
    const last = open.at(-1);
    if (last?.to === band && !positions.includes(band)) last.to = band + 1;
    else open.push({ from: band, to: band + 1 });
  }
  return open.map(({ from, to }) => ({ side, from, to, label: gapLabel(side, from, to) }));
}

/** The stretches of the aorta and of both iliac sides that hold no bar. */
export function profileGaps(bars: readonly ProfileRow[]): ProfileGap[] {
  const positionsOn = (side: ProfileSide): number[] =>
    bars.filter(({ place }) => sideOf(place.id) === side).map(({ place }) => place.position);
  const bands = bandNames.map((_, band) => band);
  return [
    ...gapsOf("middle", positionsOn("middle"), bands.slice(0, firstIliacBand)),
    ...gapsOf("right", positionsOn("right"), bands.slice(firstIliacBand)),
    ...gapsOf("left", positionsOn("left"), bands.slice(firstIliacBand)),
  ];
}
