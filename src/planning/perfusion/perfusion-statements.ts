import { readFileSync } from "node:fs";
import { z } from "zod";
import { archVariantIds } from "../../anatomy/arch-variants.ts";
import { parseOwnDataFile } from "../../data-file.ts";

const origin = { source: z.string(), confirmed: z.boolean() };

const schema = z.strictObject({
  statements: z.array(
    z.strictObject({
      id: z.string(),
      about: z.enum(["cord", "brain", "gut"]),
      variant: z.enum(archVariantIds).optional(),
      says: z.string(),
      against: z.array(z.string()),
      ...origin,
    }),
  ),
  coverageLimits: z.array(z.strictObject({ id: z.string(), overMm: z.number(), ...origin })),
  coeliacLimit: z.strictObject({ id: z.string(), withinMm: z.number(), ...origin }),
  siteDefault: z.strictObject({ fromMm: z.number(), ...origin }),
});

/** Published statements and limits on perfusion, from `perfusion-statements.yaml`. Lengths in mm. */
export const perfusionData = parseOwnDataFile(
  readFileSync(new URL("perfusion-statements.yaml", import.meta.url), "utf8"),
  schema,
  "src/planning/perfusion/perfusion-statements.yaml",
);

export type PerfusionStatement = (typeof perfusionData.statements)[number];
