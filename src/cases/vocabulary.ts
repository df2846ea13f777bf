import { archVariantIds } from "../anatomy/arch-variants.ts";

/** Diagnoses that a case sheet may state. Words of the trade; a row may state several, separated by semicolons. */
export const diagnoses = [
  "aneurysm",
  "root aneurysm",
  "ascending aneurysm",
  "arch aneurysm",
  "descending thoracic aneurysm",
  "thoraco-abdominal aneurysm",
  "abdominal aneurysm",
  "type A dissection",
  "type B dissection",
  "intramural haematoma",
  "penetrating ulcer",
  "pseudoaneurysm",
  "coarctation",
  "blunt traumatic injury",
] as const;
export type Diagnosis = (typeof diagnoses)[number];

/** Diagnoses of an aneurysm; the first does not say of which part. */
export const aneurysms: ReadonlySet<string> = new Set<Diagnosis>([
  "aneurysm",
  "root aneurysm",
  "ascending aneurysm",
  "arch aneurysm",
  "descending thoracic aneurysm",
  "thoraco-abdominal aneurysm",
  "abdominal aneurysm",
]);

/** Symptoms put down to the aorta that a case sheet may state. A rupture is none: the criteria speak of an intact aorta. */
export const symptomWords = [
  "pain attributable to the aorta",
  "recurrent chest pain without other cause",
  "compression",
  "hoarseness",
  "dysphagia",
  "embolism",
  "malperfusion",
] as const;

/** What may have happened in the family, as far as criteria ask for it. */
export const familyEventIds = [
  "aortic dissection",
  "aortic aneurysm",
  "sudden death",
  "aortic event",
] as const;
export type FamilyEvent = (typeof familyEventIds)[number];

/** Causes of aortic disease that a case sheet may state. */
export const aetiologies = [
  "degenerative",
  "bicuspid valve",
  "Marfan",
  "Loeys-Dietz TGFBR1",
  "Loeys-Dietz TGFBR2",
  "Loeys-Dietz SMAD2",
  "Loeys-Dietz SMAD3",
  "Loeys-Dietz TGFB2",
  "Loeys-Dietz TGFB3",
  "Turner",
  "heritable, no gene found",
  "vascular Ehlers-Danlos",
  "ACTA2",
  "PRKG1",
  "MYH11",
  "MYLK",
  "LOX",
] as const;

const notHeritable: ReadonlySet<string> = new Set<(typeof aetiologies)[number]>([
  "degenerative",
  "bicuspid valve",
]);

/** Whether a cause that a case sheet states is an inherited or inborn disorder of the wall. */
export const isHeritable = (aetiology: string): boolean => !notHeritable.has(aetiology);

/** Operations that a meeting may consider, as far as criteria ask for them. */
export const consideredOperations = [
  "aortic valve surgery",
  "other cardiac surgery",
  "ascending repair",
  "arch repair",
  "descending repair",
  "thoraco-abdominal repair",
  "abdominal repair",
] as const;

/** Diagnoses in which a diameter must say which lumen it is of. */
export const dissections: ReadonlySet<string> = new Set<Diagnosis>([
  "type A dissection",
  "type B dissection",
]);

/** What can be seen at a place besides its size, and the states that each can have. */
export const findingStates = {
  dissection: ["present", "absent"],
  "false lumen": ["patent", "partly thrombosed", "completely thrombosed"],
  "entry tear": ["present", "not found"],
  "re-entry tear": ["present"],
  "fed by": ["true lumen", "false lumen", "both lumens", "neither lumen"],
  malperfusion: ["clinical", "on imaging only", "absent"],
  patency: ["patent", "narrowed", "occluded", "absent"],
  dominance: ["dominant", "equal to the other", "hypoplastic", "not joined to the basilar artery"],
  "circle of Willis": ["complete", "incomplete"],
  supplies: ["coronary bypass graft", "dialysis access", "neither"],
  "wall calcium": ["absent", "part of the circumference", "circumferential"],
  "wall thrombus": ["absent", "present"],
  "access repair": ["stent", "bypass graft", "absent"],
  "arch variant": archVariantIds,
  "arch type": ["I", "II", "III"],
} as const;
export type FindingId = keyof typeof findingStates;

/** Repairs that a case sheet may name. A bypass or a valve replaces no zone of the aorta. */
export const repairKinds = [
  "graft",
  "stent graft",
  "elephant trunk",
  "frozen elephant trunk",
  "bypass",
  "valve",
] as const;
export type RepairKind = (typeof repairKinds)[number];

/** What the wall of the aorta can be at a station of a centreline. */
export const stationWalls = [
  "native",
  "graft",
  "stent graft",
  "dissected",
  "intramural haematoma",
  "penetrating ulcer",
] as const;
export type StationWall = (typeof stationWalls)[number];
