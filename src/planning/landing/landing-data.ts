import { readFileSync } from "node:fs";
import { z } from "zod";
import { archVariantIds } from "../../anatomy/arch-variants.ts";
import { parseOwnDataFile } from "../../data-file.ts";

export const landingZoneIds = ["0", "1", "2", "3", "4"] as const;

const schema = z.strictObject({
  zones: z.array(
    z.strictObject({
      zone: z.enum(landingZoneIds),
      label: z.string(),
      refeeding: z.array(
        z.strictObject({
          how: z.string(),
          branches: z.array(z.string()),
          notWith: z.array(z.enum(archVariantIds)).default([]),
        }),
      ),
      questions: z.array(
        z.strictObject({
          text: z.string(),
          answeredBy: z.string(),
          untilStated: z
            .enum(["arch", "what hangs on the left subclavian artery", "vertebral dominance"])
            .optional(),
        }),
      ),
    }),
  ),
});

const url = new URL("landing-zones.yaml", import.meta.url);

/** Candidate landing zones, from `landing-zones.yaml`. */
export const landingData = parseOwnDataFile(
  readFileSync(url, "utf8"),
  schema,
  "src/planning/landing/landing-zones.yaml",
);

export type LandingZone = (typeof landingData.zones)[number];
