import { z } from "zod";
import { type RegionId, regionIds } from "../anatomy/places.ts";
import type { EdgeId } from "../quantities/measured-quantity.ts";

const readingErrorSchema = z.strictObject({
  sdMm: z.number().positive().max(10),
  source: z.string().min(1),
  appliesTo: z
    .strictObject({
      modality: z.string().min(1).optional(),
      gated: z.boolean().optional(),
      edge: z.enum(["inner", "outer"]).optional(),
      region: z.enum(regionIds).optional(),
    })
    .default({}),
});

/** The site's reading errors; no two may apply to the same method. */
export const readingErrorsSchema = z.array(readingErrorSchema).superRefine((errors, context) => {
  const keys = errors.map(({ appliesTo: { modality, gated, edge, region } }) =>
    JSON.stringify([modality?.toUpperCase(), gated, edge, region]),
  );
  for (const [index, key] of keys.entries()) {
    if (keys.indexOf(key) === index) continue;
    const message = "another reading error stands above for the same method";
    context.addIssue({ code: "custom", path: [index, "appliesTo"], message });
  }
});

/** Standard deviation of one diameter reading in mm, where the number comes from, and what it holds for. */
export type SiteReadingError = z.infer<typeof readingErrorSchema>;

/** How a diameter was read, as far as it is stated. */
export interface ReadingMethod {
  modality: string | null;
  gated: boolean | null;
  edge: EdgeId;
  region: RegionId | null;
}

/**
 * The site's reading error for a method: the one that names most of the method and contradicts none of it, of
 * equally precise ones the larger. What is not stated of a method is never taken to apply. Null where none applies.
 */
export function readingErrorFor(
  errors: readonly SiteReadingError[],
  method: ReadingMethod,
): SiteReadingError | null {
  const [best] = errors
    .filter(({ appliesTo }) => applies(appliesTo, method))
    .toSorted((a, b) => precisionOf(b) - precisionOf(a) || b.sdMm - a.sdMm);
  return best ?? null;
}

/** The site's reading error for readings of any method, or null. */
export function generalReadingError(errors: readonly SiteReadingError[]): SiteReadingError | null {
  return errors.find((error) => precisionOf(error) === 0) ?? null;
}

function applies(
  { modality, gated, edge, region }: SiteReadingError["appliesTo"],
  method: ReadingMethod,
): boolean {
  return (
    (modality === undefined || modality.toUpperCase() === method.modality?.toUpperCase()) &&
    (gated === undefined || gated === method.gated) &&
    (edge === undefined || edge === method.edge) &&
    (region === undefined || region === method.region)
  );
}

const precisionOf = ({ appliesTo }: SiteReadingError): number =>
  Object.values(appliesTo).filter((value) => value !== undefined).length;
