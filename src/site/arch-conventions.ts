import { z } from "zod";
import { type ArchVariantId, archVariantIds } from "../anatomy/arch-variants.ts";
import { placeTable } from "../anatomy/places.ts";

type Variant = Exclude<ArchVariantId, "usual">;
const variants = archVariantIds.filter((id): id is Variant => id !== "usual");

const branches = placeTable.map(({ place }) => place).filter(({ kind }) => kind === "branch");
const labels = new Map(branches.flatMap(({ id, label }) => [[id, label] as const, [label, label]]));

const branchSchema = z.enum([...labels.keys()]).transform((name) => labels.get(name) ?? name);
const zoneSchema = z.array(branchSchema);

const conventionSchema = z.strictObject({
  variant: z.enum(variants),
  branches: z
    .strictObject({
      "0": zoneSchema,
      "1": zoneSchema,
      "2": zoneSchema,
      "3": zoneSchema,
      "4": zoneSchema,
    })
    .superRefine((zones, context) => {
      const seen = new Set<string>();
      for (const [zone, names] of Object.entries(zones)) {
        for (const [index, name] of names.entries()) {
          if (seen.has(name)) {
            const message = `${name} stands twice; a branch leaves one zone`;
            context.addIssue({ code: "custom", path: [zone, index], message });
          }
          seen.add(name);
        }
      }
    }),
  date: z.iso.date("a date is written YYYY-MM-DD"),
  by: z.string().min(1),
});

/**
 * How the site divides an arch that is not the usual one: for each variant the branches that leave zones 0 to 4, all five
 * stated, a zone without a branch as an empty list. Branches are ids or labels of `places.yaml`, kept as labels. `by` is
 * the role of who decided (no name), `date` the day of the decision. One convention for a variant.
 */
export const archConventionsSchema = z
  .array(conventionSchema)
  .superRefine((conventions, context) => {
    const stated = conventions.map(({ variant }) => variant);
    for (const [index, variant] of stated.entries()) {
      if (stated.indexOf(variant) === index) continue;
      const message = "decided twice; write one convention for a variant";
      context.addIssue({ code: "custom", path: [index, "variant"], message });
    }
  })
  .default([]);
