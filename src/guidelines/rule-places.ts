import { type AorticPlace, placeById, type RegionId } from "../anatomy/places.ts";
import type { CaseFacts } from "../cases/patient-case.ts";
import type { Diagnosis } from "../cases/vocabulary.ts";
import type { Rule } from "./rule.ts";

/** A part of the aorta that a rule judges for itself; the largest size in it counts. */
export interface RulePart {
  label: string;
  /** The whole part, and the diagnosis of an aneurysm there; null where there is no such diagnosis. */
  range: AorticPlace | null;
  aneurysm: Diagnosis | null;
  holds: (place: AorticPlace) => boolean;
}

interface PartOfAorta {
  label: string;
  regions: readonly RegionId[];
  /** Places on a border that belong to it besides its regions. */
  borderIds?: readonly string[];
  rangeId?: string;
  aneurysm?: Diagnosis;
}

const coeliacBorder = ["at-coeliac-origin"];

/**
 * What a rule's region word takes in. The abdominal aorta begins at the coeliac artery, so it takes in the visceral
 * part; a thoraco-abdominal aneurysm is one aneurysm from the left subclavian to the bifurcation.
 */
const parts: Record<RegionId, PartOfAorta> = {
  root: {
    label: "aortic root",
    regions: ["root"],
    rangeId: "aortic-root",
    aneurysm: "root aneurysm",
  },
  ascending: {
    label: "ascending aorta",
    regions: ["ascending"],
    rangeId: "ascending-aorta",
    aneurysm: "ascending aneurysm",
  },
  arch: {
    label: "aortic arch",
    regions: ["arch"],
    rangeId: "aortic-arch",
    aneurysm: "arch aneurysm",
  },
  descending: {
    label: "descending thoracic aorta",
    regions: ["descending"],
    rangeId: "descending-thoracic-aorta",
    aneurysm: "descending thoracic aneurysm",
  },
  "thoraco-abdominal": {
    label: "thoraco-abdominal aorta",
    regions: ["descending", "thoraco-abdominal", "visceral", "abdominal"],
    borderIds: coeliacBorder,
    rangeId: "thoraco-abdominal-aorta",
    aneurysm: "thoraco-abdominal aneurysm",
  },
  visceral: { label: "visceral aorta", regions: ["visceral"] },
  abdominal: {
    label: "abdominal aorta",
    regions: ["visceral", "abdominal"],
    borderIds: coeliacBorder,
    rangeId: "abdominal-aorta",
    aneurysm: "abdominal aneurysm",
  },
  iliac: { label: "iliac arteries", regions: ["iliac"] },
};

/** The parts of the aorta that a rule judges: one for each region, and one for its single places together. */
export function partsOf(rule: Rule): RulePart[] {
  const { regions = [], ids = [] } = rule.places;
  const found = regions.map((region): RulePart => {
    const { label, regions: inside, borderIds = [], rangeId, aneurysm = null } = parts[region];
    const holds = (place: AorticPlace): boolean =>
      (place.region !== null && inside.includes(place.region)) || borderIds.includes(place.id);
    const range = rangeId === undefined ? null : placeById(rangeId);
    return { label, range, aneurysm, holds };
  });
  if (ids.length > 0) {
    const label = ids.map((id) => placeById(id).label).join(" or ");
    const holds = (place: AorticPlace): boolean => ids.includes(place.id);
    found.push({ label, range: null, aneurysm: null, holds });
  }
  return found;
}

/** Those parts of a rule in which the case sheet names an aneurysm; throws where there is none. */
export function partsWithAneurysm(rule: Rule, { diagnoses }: CaseFacts): RulePart[] {
  const found = partsOf(rule).filter(
    ({ aneurysm }) => aneurysm !== null && diagnoses?.includes(aneurysm),
  );
  if (found.length === 0) throw new Error("no aneurysm is stated in its places");
  return found;
}
