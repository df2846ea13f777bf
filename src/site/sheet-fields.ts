const personFields = ["issuer", "name", "birth_date", "sex"] as const;
const examFields = [...personFields, "gated", "modality", "reader", "comment"] as const;

/** What a case sheet says of a patient besides who it is. */
export const caseFactFields = [
  "height_cm",
  "weight_kg",
  "diagnosis",
  "onset_date",
  "symptoms",
  "dissection",
  "malperfusion",
  "arch_variant",
  "aetiology",
  "family_history",
  "prior_repair",
  "considered",
  "question",
] as const;

/** What a column of a sheet can hold, by kind of sheet. A long sheet has one row a measurement; a wide one, one row an exam; a finding sheet, one row a finding. */
export const sheetFields = {
  "long sheet": {
    required: ["patient_id", "exam_date", "place", "quantity", "value"],
    optional: ["unit", "statistic", "lumen", "edge", "plane", "phase", ...examFields],
  },
  "wide sheet": {
    required: ["patient_id", "exam_date"],
    optional: ["plane", "phase", ...examFields],
  },
  "finding sheet": {
    required: ["patient_id", "exam_date", "place", "finding", "state"],
    optional: examFields,
  },
  "case sheet": {
    required: ["patient_id"],
    optional: [...personFields, ...caseFactFields],
  },
  "meeting list": {
    required: ["order", "patient_id"],
    optional: ["presenter_role", "question"],
  },
  "graft inventory": {
    required: ["id", "proximal_mm", "distal_mm", "covered_length_mm", "sheath_outer_mm"],
    optional: [],
  },
} as const;

export type SheetKind = keyof typeof sheetFields;
export type SheetField = (typeof sheetFields)[SheetKind]["required" | "optional"][number];

const fieldLists = Object.values(sheetFields);

/** All fields of all kinds, each once. */
export const allSheetFields: readonly SheetField[] = [
  ...new Set(fieldLists.flatMap(({ required, optional }) => [...required, ...optional])),
];

/** The fields of one kind of sheet. */
export function fieldsOf(kind: SheetKind): {
  required: readonly SheetField[];
  optional: readonly SheetField[];
} {
  return sheetFields[kind];
}
