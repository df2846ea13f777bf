import { type AorticPlace, placeById, type RegionId } from "../anatomy/places.ts";
import type { Rule } from "./rule.ts";

/** A part of the aorta that a rule judges for itself; the largest size in it counts. */
export interface RulePart {
  label: string;
  holds: (place: AorticPlace) => boolean;
}

interface PartOfAorta {
  label: string;
  regions: readonly RegionId[];
  /** Places on a border that belong to it besides its regions. */
  borderIds?: readonly string[];
}

const coeliacBorder = ["at-coeliac-origin"];

/**
 * What a rule's region word takes in. The abdominal aorta begins at the coeliac artery, so it takes in the visceral
 * part; a thoraco-abdominal aneurysm is one aneurysm from the left subclavian to the bifurcation.
 */
const parts: Record<RegionId, PartOfAorta> = {
  root: { label: "aortic root", regions: ["root"] },
  ascending: { label: "ascending aorta", regions: ["ascending"] },
  arch: { label: "aortic arch", regions: ["arch"] },
  descending: { label: "descending thoracic aorta", regions: ["descending"] },
  "thoraco-abdominal": {
    label: "thoraco-abdominal aorta",
    regions: ["descending", "thoraco-abdominal", "visceral", "abdominal"],
    borderIds: coeliacBorder,
  },
  visceral: { label: "visceral aorta", regions: ["visceral"] },
  abdominal: {
    label: "abdominal aorta",
    regions: ["visceral", "abdominal"],
    borderIds: coeliacBorder,
  },
  iliac: { label: "iliac arteries", regions: ["iliac"] },
};

/** The parts of the aorta that a rule judges: one for each region, and one for its single places together. */
export function partsOf(rule: Rule): RulePart[] {
  const { regions = [], ids = [] } = rule.places;
  const found = regions.map((region): RulePart => {
    const { label, regions: inside, borderIds = [] } = parts[region];
    const holds = (place: AorticPlace): boolean =>
      (place.region !== null && inside.includes(place.region)) || borderIds.includes(place.id);
    return { label, holds };
  });
  if (ids.length > 0) {
    const label = ids.map((id) => placeById(id).label).join(" or ");
    found.push({ label, holds: (place) => ids.includes(place.id) });
  }
  return found;
}
