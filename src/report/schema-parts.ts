import { z } from "zod";
import { outcomes } from "../guidelines/rule.ts";

export const isoDate = z.string().regex(/^\d{4}-\d{2}-\d{2}$/);
export const outcome = z.enum(outcomes);

export const source = z
  .strictObject({
    file: z.string(),
    sha256: z.string().nullable(),
    at: z.string().nullable(),
  })
  .describe(
    "Where a number stands in an input file: content item path, or record, line and column.",
  );

export const place = z
  .strictObject({
    kind: z.enum(["zone", "level", "landmark", "range", "branch", "distance"]),
    id: z.string(),
    label: z.string(),
    zones: z.array(z.string()).describe("Zones it lies in; empty on a border and in the root."),
    position: z
      .number()
      .describe("Along the vessel in bands: root 0 to 1, zone n from n+1 to n+2."),
    span: z.tuple([z.number(), z.number()]).nullable().describe("First and last band of a range."),
  })
  .describe("A place on the aorta or a branch, by its anatomical name.");

export const interval = z.strictObject({
  value: z.number(),
  low: z
    .number()
    .nullable()
    .describe("Lower end of the 95 % interval; null where no error is known."),
  high: z.number().nullable(),
  unit: z.string(),
});

export const citation = z.strictObject({
  body: z.string(),
  year: z.number().int(),
  where: z.string(),
  doi: z.string().nullable(),
});

export const recommendation = z
  .strictObject({
    class: z.string().nullable(),
    level: z.string().nullable(),
    confirmed: z.boolean(),
  })
  .nullable();
