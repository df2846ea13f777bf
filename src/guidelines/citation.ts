import { z } from "zod";

const text = z.string().min(1);

/** The printed source of a rule or a schedule. */
export const citation = z.strictObject({
  body: text,
  year: z.number().int(),
  /** Section, table or page. */
  where: text,
  doi: text.optional(),
});

/** How strongly the source says it. */
export const recommendation = z.strictObject({
  class: z.string().nullable(),
  level: z.string().nullable(),
  /** False where class or level is recalled although the rest was compared. */
  confirmed: z.boolean(),
});
