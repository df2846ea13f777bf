const personFields = ["issuer", "name", "birth_date", "sex"] as const;
const examFields = [...personFields, "gated", "modality", "reader", "comment"] as const;

/** What a centreline sheet measures at a section, and where the section lies in space. */
export const sectionFields = [
  "max_diameter_mm",
  "min_diameter_mm",
  "perimeter_mm",
  "area_mm2",
  "thrombus_arc_deg",
  "thrombus_mm",
  "calcium_arc_deg",
  "x_mm",
  "y_mm",
  "z_mm",
  "axes",
  "patient_position",
] as const;

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

/** What a column of a sheet can hold, by kind of sheet. A long sheet has one row a measurement; a wide one, one row an exam; a finding sheet, one row a finding; a centreline sheet, one row a section at a distance along a vessel. */
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
  "centreline sheet": {
    required: ["patient_id", "exam_date", "distance_mm"],
    optional: [
      "vessel",
      "mark",
      "mark_edge",
      "wall",
      "lumen",
      "edge",
      ...sectionFields,
      ...examFields,
    ],
  },
  "case sheet": {
    required: ["patient_id"],
    optional: [...personFields, ...caseFactFields],
  },
  "meeting list": {
    required: ["order", "patient_id"],
    optional: ["presenter_role", "question", "depth"],
  },
  "graft inventory": {
    required: ["id", "proximal_mm", "distal_mm", "covered_length_mm"],
    optional: ["sheath_outer_mm", "sheath_outer_fr"],
  },
} as const;

export type SheetKind = keyof typeof sheetFields;
export type SheetField = (typeof sheetFields)[SheetKind]["required" | "optional"][number];

/** Fields that hold a number in a unit of their own. */
export const unitOfField: Readonly<Partial<Record<SheetField, string>>> = {
  height_cm: "cm",
  weight_kg: "kg",
  distance_mm: "mm",
  max_diameter_mm: "mm",
  min_diameter_mm: "mm",
  perimeter_mm: "mm",
  area_mm2: "mm2",
  thrombus_arc_deg: "deg",
  thrombus_mm: "mm",
  calcium_arc_deg: "deg",
  x_mm: "mm",
  y_mm: "mm",
  z_mm: "mm",
};

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
