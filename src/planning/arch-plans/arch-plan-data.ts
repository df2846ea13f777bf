import { readFileSync } from "node:fs";
import { z } from "zod";
import { archVariantIds } from "../../anatomy/arch-variants.ts";
import { parseOwnDataFile } from "../../data-file.ts";
import { landingZoneIds } from "../landing/landing-data.ts";

const text = z.string().min(1);
const zones = z.array(z.enum(landingZoneIds)).min(1);

/** Checks that a plan or a line of re-feeding may ask for; `plan-requirements.ts` evaluates them. */
const requirementIds = [
  "independent-right-carotid-inflow",
  "right-carotid-donor",
  "left-carotid-donor",
  "transposition-room",
  "left-subclavian-supplies",
  "left-vertebral-not-dominant",
  "right-axillary-inflow",
  "zone-1-gap-20",
  "zone-1-gap-25",
  "native-ascending",
  "ascending-under-37",
  "landing-over-30",
  "ascending-not-dissected",
  "ascending-graft",
  "ascending-graft-measured",
  "graft-length-25",
  "graft-length-30",
  "trunk-present",
  "first-stage-chest",
  "first-stage-axillary-inflow",
  "distal-length-20",
  "descending-diameter-known",
  "true-lumen-known",
  "no-earlier-arch-operation",
  "no-earlier-descending-operation",
] as const;
export type RequirementId = (typeof requirementIds)[number];
const requirements = z.array(z.enum(requirementIds));

const planIds = [
  "stent-graft-zone-4",
  "stent-graft-zone-3",
  "stent-graft-zone-2",
  "stent-graft-zone-1",
  "stent-graft-zone-0",
  "hybrid-type-1",
  "hybrid-type-2",
  "hybrid-type-3",
  "elephant-trunk",
  "frozen-elephant-trunk",
  "open-arch-repair",
  "open-descending-repair",
] as const;

const published = { text, source: text, confirmed: z.boolean() };

const plansSchema = z.strictObject({
  plans: z.array(
    z.strictObject({
      id: z.enum(planIds),
      label: text,
      proximalZone: z.enum(landingZoneIds).nullable(),
      branches: z.enum(["covered", "rebuilt", "untouched"]),
      group: z.enum(["stent graft", "hybrid", "open"]),
      requires: requirements,
      questions: z.array(z.strictObject({ text, raisedBy: text, answeredBy: text })),
    }),
  ),
  limits: z.array(
    z.strictObject({
      id: z.enum(requirementIds),
      label: text,
      operator: z.enum([">=", ">", "<=", "<"]),
      valueMm: z.number().positive(),
      source: text,
      confirmed: z.boolean(),
    }),
  ),
  facts: z.array(
    z.strictObject({ id: text, plans: z.array(z.enum(planIds)).min(1), ...published }),
  ),
});

const revascularisationSchema = z.strictObject({
  refeeding: z.array(
    z.strictObject({
      branch: text,
      zones,
      how: text,
      source: text,
      notWith: z.array(z.enum(archVariantIds)),
      requires: requirements,
    }),
  ),
  advice: z.array(
    z.strictObject({
      id: text,
      body: text,
      year: z.number().int(),
      zones,
      strength: text.nullable(),
      ...published,
    }),
  ),
  evidence: z.array(z.strictObject({ id: text, zones, ...published })),
});

const load = <T>(file: string, schema: z.ZodType<T>): T =>
  parseOwnDataFile(
    readFileSync(new URL(file, import.meta.url), "utf8"),
    schema,
    `src/planning/${file}`,
  );

/** Ways of dealing with the proximal end, their published limits (mm) and facts, from `arch-plans.yaml`. */
export const archPlanData = load("arch-plans.yaml", plansSchema);

/** Lines of re-feeding, published advice and evidence on the left subclavian artery, from `revascularisation.yaml`. */
export const revascularisation = load("revascularisation.yaml", revascularisationSchema);

export type PlanRow = (typeof archPlanData.plans)[number];
export type RefeedingLine = (typeof revascularisation.refeeding)[number];

/** The published limit of a requirement; throws for one that has none. */
export function limitOf(id: RequirementId): (typeof archPlanData.limits)[number] {
  const row = archPlanData.limits.find((limit) => limit.id === id);
  if (!row) throw new Error(`no limit ${id} in arch-plans.yaml`);
  return row;
}
