import type { Plan } from "../plan.ts";
import { bandNames, type ProfileSide } from "./profile-gaps.ts";
import type { ProfileLayout } from "./profile-layout.ts";
import { line } from "./svg.ts";

/** A repaired stretch of the vessel, in band positions. */
export interface RepairedBand {
  side: ProfileSide;
  from: number;
  to: number;
}

const halfWidthPt = 9;
const hatchStepPt = 5;

/** The zones that the case sheet says were repaired, as bands; neighbours are joined. */
export function repairedBands({ patient }: Pick<Plan, "patient">): RepairedBand[] {
  const zones = new Set(patient.repairs?.flatMap((repair) => repair.zones ?? []));
  const bands: RepairedBand[] = [];
  for (const side of ["middle", "right", "left"] as const) {
    for (const [band, name] of bandNames.entries()) {
      if (!zones.has(side === "middle" ? name : `${name}-${side}`)) continue;
      const last = bands.at(-1);
      if (last?.side === side && last.to === band) last.to = band + 1;
      else bands.push({ side, from: band, to: band + 1 });
    }
  }
  return bands;
}

/** "zones 3 to 5", "zone 10, left". */
export function repairedLabel({ side, from, to }: RepairedBand): string {
  const names = [bandNames[from], bandNames[to - 1]];
  const zones = names[0] === names[1] ? `zone ${names[0]}` : `zones ${names[0]} to ${names[1]}`;
  return side === "middle" ? zones : `${zones}, ${side}`;
}

/** Oblique strokes over each repaired stretch, behind the bars. */
export function drawRepairs(bands: readonly RepairedBand[], { axis, y }: ProfileLayout): string {
  const strokes = bands.flatMap(({ side, from, to }) => {
    const [x, top, bottom] = [axis[side], y(from), y(to)];
    const count = Math.floor((bottom - top) / hatchStepPt);
    return Array.from({ length: count }, (_, index) => {
      const at = top + (index + 1) * hatchStepPt;
      return line(
        [
          [x - halfWidthPt, at],
          [x + halfWidthPt, at - hatchStepPt],
        ],
        "repair",
      );
    });
  });
  return strokes.join("");
}
