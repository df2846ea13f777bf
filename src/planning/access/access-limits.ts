import { readFileSync } from "node:fs";
import { z } from "zod";
import { parseOwnDataFile } from "../../data-file.ts";
import { checkedSource } from "../checked-source.ts";

const origin = { source: z.string(), confirmed: z.boolean() };

const schema = z.strictObject({
  ratios: z.array(
    z.strictObject({
      id: z.string(),
      of: z.enum(["diameter", "area"]),
      limit: z.number(),
      ...origin,
    }),
  ),
  teachingTable: z.strictObject({
    ...origin,
    rows: z.array(z.strictObject({ fromFr: z.number(), toFr: z.number(), leastMm: z.number() })),
  }),
  conduit: z.strictObject({ limitMm: z.number(), ...origin }),
  tortuosity: z.strictObject({ cutOffs: z.array(z.number()).min(1), ...origin }),
  angle: z.strictObject({ limitDeg: z.number(), ...origin }),
  calcium: z.strictObject(origin),
  obstacles: z.strictObject(origin),
  statements: z.array(z.strictObject({ id: z.string(), says: z.string(), ...origin })),
});

/** Published limits of the way in, from `access-limits.yaml`: ratios without unit, lengths in mm, angles in degrees. */
export const accessLimits = parseOwnDataFile(
  readFileSync(new URL("access-limits.yaml", import.meta.url), "utf8"),
  schema,
  "src/planning/access/access-limits.yaml",
);

export type RatioLimit = (typeof accessLimits.ratios)[number];
export type AccessStatement = (typeof accessLimits.statements)[number];

/** The source of a limit in words, with its mark where it was not seen. */
export const sourceWords = (origin: { source: string; confirmed: boolean }): string =>
  origin.source.startsWith("common practice") ? origin.source : checkedSource(origin);
