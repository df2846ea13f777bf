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
] as const;
export type Diagnosis = (typeof diagnoses)[number];

/** Causes of aortic disease that a case sheet may state. */
export const aetiologies = [
  "degenerative",
  "bicuspid valve",
  "Marfan",
  "Loeys-Dietz TGFBR1",
  "Loeys-Dietz TGFBR2",
  "Loeys-Dietz SMAD3",
  "Loeys-Dietz TGFB2",
  "Loeys-Dietz TGFB3",
  "Turner",
  "heritable, no gene found",
  "vascular Ehlers-Danlos",
  "ACTA2",
] as const;

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
