import { readFileSync } from "node:fs";
import { z } from "zod";
import { archVariantIds } from "../anatomy/arch-variants.ts";
import { parseOwnDataFile } from "../data-file.ts";

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
          untilStated: z.boolean().default(false),
        }),
      ),
    }),
  ),
  conditions: z.array(
    z.strictObject({
      id: z.string(),
      label: z.string(),
      zones: z.array(z.enum(landingZoneIds)),
      quantity: z.enum(["sound-length", "diameter"]),
      operator: z.enum([">=", ">", "<", "<="]),
      value: z.number(),
      wall: z.literal("native").optional(),
      source: z.string(),
      confirmed: z.boolean(),
    }),
  ),
  oversizing: z.array(
    z.strictObject({
      id: z.enum(["aneurysm", "acute-dissection", "chronic-dissection"]),
      label: z.string(),
      lowPercent: z.number(),
      highPercent: z.number(),
      source: z.string(),
    }),
  ),
});

const url = new URL("landing-zones.yaml", import.meta.url);

/** Candidate landing zones, published conditions and oversizing windows, from `landing-zones.yaml`. Lengths in mm. */
export const landingData = parseOwnDataFile(
  readFileSync(url, "utf8"),
  schema,
  "src/planning/landing-zones.yaml",
);

export type LandingZone = (typeof landingData.zones)[number];
export type LandingCondition = (typeof landingData.conditions)[number];
export type OversizingWindow = (typeof landingData.oversizing)[number];
