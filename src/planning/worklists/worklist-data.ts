import { readFileSync } from "node:fs";
import { z } from "zod";
import { archVariantIds } from "../../anatomy/arch-variants.ts";
import { type FindingId, findingStates } from "../../cases/vocabulary.ts";
import { parseOwnDataFile } from "../../data-file.ts";
import {
  edgeIds,
  lumenIds,
  pathIds,
  quantityIds,
  statisticIds,
} from "../../quantities/measured-quantity.ts";
import { sectionFields } from "../../site/sheet-fields.ts";

/** Cells of a case sheet that a worklist may ask for. */
export const caseFields = [
  "diagnosis",
  "onset_date",
  "prior_repair",
  "arch_variant",
  "aetiology",
  "birth_date",
] as const;

/** What a worklist may ask to be stated of an exam. */
export const examFields = ["modality", "gated"] as const;

/** Columns of a centreline sheet that are filled at a station. */
export const stationColumns = ["wall", ...sectionFields] as const;
export type StationColumn = (typeof stationColumns)[number];

const mark = z.strictObject({
  place: z.string(),
  edge: z.enum(["proximal edge", "distal edge"]).optional(),
});
const variants = z.array(z.enum(archVariantIds)).default([]);
const common = {
  /** Ids of `calculators` that can't do without it. */
  decides: z.array(z.string()).min(1),
  onlyIn: z.literal("dissection").optional(),
  onlyWith: variants,
  notWith: variants,
  unless: z.array(z.string()).default([]),
  note: z.string().optional(),
};

const item = z.discriminatedUnion("form", [
  z.strictObject({
    form: z.literal("measurements"),
    at: z.array(z.string()).min(1),
    write: z.array(z.string()).min(1),
    lumen: z.enum(lumenIds).default("whole"),
    edge: z.enum(edgeIds).optional(),
    ...common,
  }),
  z.strictObject({
    form: z.literal("findings"),
    /** Without it the finding may be anywhere. */
    at: z.array(z.string()).min(1).optional(),
    find: z.array(z.enum(Object.keys(findingStates) as FindingId[])).min(1),
    onlyIfSeen: z.literal(true).optional(),
    ...common,
  }),
  z.strictObject({ form: z.literal("mark"), marks: z.array(mark).min(1), ...common }),
  z.strictObject({
    form: z.literal("stretch"),
    stretch: z.string(),
    columns: z.string(),
    ...common,
  }),
  z.strictObject({ form: z.literal("case"), field: z.enum(caseFields), ...common }),
  z.strictObject({ form: z.literal("exam"), field: z.enum(examFields), ...common }),
]);

const group = z.strictObject({
  id: z.string(),
  label: z.string(),
  /** One group for each of these zones: `<zone>` in its words stands for the number. */
  zones: z.array(z.string()).default([]),
  notWithInZone: z.record(z.string(), z.array(z.enum(archVariantIds))).default({}),
  basis: z
    .array(z.strictObject({ what: z.string(), source: z.string(), confirmed: z.boolean() }))
    .min(1),
  items: z.array(item).min(1),
});

const schema = z.strictObject({
  calculators: z.record(z.string(), z.string()),
  quantities: z.record(
    z.string(),
    z.strictObject({
      quantity: z.enum(quantityIds),
      statistic: z.enum(statisticIds).optional(),
      path: z.enum(pathIds).optional(),
    }),
  ),
  columnSets: z.record(z.string(), z.array(z.enum(stationColumns)).min(1)),
  stretches: z.record(
    z.string(),
    z.strictObject({
      vessel: z.enum(["aorta", "right access path", "left access path"]).default("aorta"),
      lumen: z.enum(lumenIds).default("whole"),
      from: mark,
      to: mark,
      everyMm: z.number().positive(),
    }),
  ),
  groups: z.array(group),
  procedures: z.array(
    z.strictObject({ id: z.string(), label: z.string(), groups: z.array(z.string()).min(1) }),
  ),
});

/** What each procedure needs measured, from `worklists.yaml`. Lengths in mm. */
export const worklistData = parseOwnDataFile(
  readFileSync(new URL("worklists.yaml", import.meta.url), "utf8"),
  schema,
  "src/planning/worklists/worklists.yaml",
);

export type WorklistGroup = z.infer<typeof group>;
export type WorklistEntry = z.infer<typeof item>;
export type MarkEntry = z.infer<typeof mark>;
