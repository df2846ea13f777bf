import { z } from "zod";
import { findingStates, type FindingId } from "../cases/vocabulary.ts";
import {
  edgeIds,
  lumenIds,
  pathIds,
  phaseIds,
  planeIds,
  statisticIds,
} from "../quantities/measured-quantity.ts";
import { surveillanceSchema } from "./surveillance-schema.ts";
import { growthSchema } from "./growth-schema.ts";
import { planningShape } from "./planning-schema.ts";
import {
  citation,
  interval,
  isoDate,
  outcome,
  place,
  recommendation,
  source,
} from "./schema-parts.ts";
import { dissectionSchema } from "./dissection-schema.ts";

const severity = z.enum(["error", "warning", "note"]);

const message = z.strictObject({
  code: z.string(),
  severity,
  place: source.nullable(),
  data: z.record(z.string(), z.union([z.string(), z.number()])),
  text: z.string(),
  remedy: z.string(),
});

const patient = z.strictObject({
  key: z.string().describe("Digest of issuer and patient ID; names the output folder."),
  id: z.string(),
  issuer: z.string().nullable(),
  name: z.string().nullable(),
  birthDate: isoDate.nullable(),
  ageYears: z.number().int().nullable().describe("At the as-of date."),
  sex: z.enum(["F", "M", "O"]).nullable(),
  heightCm: z.number().nullable(),
  weightKg: z.number().nullable(),
  diagnosis: z.string().nullable(),
  onsetDate: isoDate.nullable(),
  symptoms: z.string().nullable().describe("In the case sheet's words."),
  aetiology: z.string().nullable(),
  familyHistory: z.string().nullable(),
  priorRepair: z.string().nullable().describe("In the case sheet's words."),
  repairs: z
    .array(
      z.strictObject({
        words: z.string(),
        date: z.string().nullable().describe("YYYY, YYYY-MM or YYYY-MM-DD as stated."),
        zones: z.array(z.string()).nullable().describe("Null where the words name none."),
        kinds: z.array(z.string()).describe("What was done; empty where the words do not say."),
      }),
    )
    .nullable()
    .describe("Null where the case sheet says nothing; empty where it says that there was none."),
  considered: z.string().nullable(),
  question: z.string().nullable(),
});

const exam = z.strictObject({
  key: z.string(),
  studyUid: z.string().nullable(),
  imagingDate: isoDate,
  imagingDateOrigin: z.string(),
  modality: z.string().nullable(),
  gated: z.boolean().nullable(),
  reportState: z.array(z.string()),
});

const measurement = z.strictObject({
  key: z.string(),
  exam: z.string(),
  place,
  placeOrigin: z.string(),
  quantity: z.string(),
  quantityLabel: z.string(),
  statistic: z.enum(statisticIds),
  lumen: z.enum(lumenIds),
  edge: z.enum(edgeIds),
  path: z.enum(pathIds),
  plane: z.enum(planeIds),
  phase: z.enum(phaseIds),
  value: z.number(),
  unit: z.string(),
  asWritten: z.string(),
  derivedFrom: z.array(z.string()),
  source,
  reader: z.string().nullable(),
  comment: z.string().nullable(),
});

const finding = z
  .strictObject({
    key: z.string(),
    exam: z.string(),
    place,
    finding: z.enum(Object.keys(findingStates) as FindingId[]),
    state: z.string(),
    source,
    reader: z.string().nullable(),
    comment: z.string().nullable(),
  })
  .describe("Something seen at a place that is no number.");

const derived = z
  .strictObject({
    key: z.string(),
    exam: z.string(),
    place,
    lumen: z.enum(lumenIds),
    edge: z.enum(edgeIds),
    plane: z.enum(planeIds),
    phase: z.enum(phaseIds),
    kind: z.string(),
    value: z.number(),
    unit: z.string(),
    low: z.number().describe("Over the rounding of the numbers that it was computed from."),
    high: z.number(),
    derivedFrom: z.array(z.string()).describe("Keys of measurements."),
    how: z.string(),
  })
  .describe("A quantity computed from measurements of one section.");

const archZone = z
  .strictObject({ from: z.string(), to: z.string(), branches: z.array(z.string()) })
  .nullable();

const arch = z.strictObject({
  variants: z
    .array(z.string())
    .nullable()
    .describe("Empty: the usual arch. Null: not stated, or contradictory."),
  stated: z.array(
    z.strictObject({
      by: z.enum(["case sheet", "readings", "findings"]),
      variant: z.string(),
      used: z.array(z.string()),
    }),
  ),
  conflict: z.string().nullable(),
  zones: z
    .record(z.enum(["0", "1", "2", "3", "4"]), archZone)
    .describe(
      "Borders and branches; null where the zone map does not define a zone for this arch.",
    ),
  undefinedBecause: z.string().nullable(),
  source: z.string(),
});

const wall = z
  .strictObject({
    zone: z.string(),
    label: z.string(),
    kind: z.string().nullable().describe("Null where it is unclear."),
    since: z.string().nullable(),
    words: z.string().nullable(),
    unclear: z.string().nullable().describe("What would have to be known."),
  })
  .describe("What the wall of a stretch is at the as-of date: native, or what replaced it.");

const assessment = z.strictObject({
  rule: z.string(),
  title: z.string(),
  source: citation,
  recommendation,
  confirmed: z
    .boolean()
    .describe("False: the value is recalled and not confirmed against the source."),
  checkedAgainst: z.string().nullable(),
  outcome,
  about: place.nullable(),
  used: z.array(z.string()).describe("Keys of the measurements used."),
  value: interval.nullable(),
  spansLimit: z.boolean().describe("True where the 95 % interval of the value holds the limit."),
  limit: z
    .strictObject({
      operator: z.enum([">=", ">", "<"]),
      value: z.number(),
      below: z.number().nullable(),
      unit: z.string(),
      printed: z.string(),
    })
    .nullable()
    .describe("Null where the criterion holds at any size."),
  missing: z.array(z.string()),
  reason: z.string().describe("One sentence: why this outcome."),
  says: z.string().describe("What the source says of a patient who meets it."),
});

const disagreement = z.strictObject({
  about: place,
  statements: z.array(
    z.strictObject({
      rule: z.string(),
      body: z.string(),
      year: z.number().int(),
      outcome,
      limit: z.string(),
    }),
  ),
  sentence: z.string(),
});

const hiddenRule = z
  .strictObject({
    rule: z.string(),
    title: z.string(),
    body: z.string(),
    year: z.number().int(),
    by: z.string().describe("Role of who decided."),
    date: isoDate,
    reason: z.string(),
  })
  .describe("A criterion that the site file hides: it is not evaluated.");

const missing = z.strictObject({
  what: z.string(),
  decides: z.array(z.string()).describe("What can't be judged without it."),
});

const prompt = z.strictObject({
  text: z.string(),
  raisedBy: z.string(),
  answeredBy: z.string(),
});

/** The plan report: everything that is printed about one patient. */
export const planSchema = z
  .strictObject({
    schema: z.literal("aortic-packet/plan/1"),
    asOf: isoDate,
    software: z.strictObject({
      name: z.literal("aortic-packet"),
      version: z.string(),
      rulesDigest: z.string(),
    }),
    preferredGuideline: z
      .string()
      .nullable()
      .describe("Body that the site prefers: it stands first among equals, and the others stay."),
    patient,
    exams: z.array(exam),
    measurements: z.array(measurement),
    derived: z.array(derived),
    findings: z.array(finding),
    arch,
    walls: z.array(wall),
    dissection: dissectionSchema.nullable().describe("Null where nothing speaks of one."),
    growth: z.array(growthSchema),
    assessments: z.array(assessment),
    disagreements: z.array(disagreement),
    hiddenRules: z.array(hiddenRule),
    surveillance: surveillanceSchema,
    ...planningShape,
    missing: z.array(missing),
    prompts: z.array(prompt),
    messages: z.array(message),
    cautions: z.array(z.string()),
  })
  .describe(
    "Plan report of aortic-packet. Lengths in mm, areas in mm2, volumes in mL, angles in degrees.",
  );

export type Plan = z.infer<typeof planSchema>;
export type PlanMeasurement = Plan["measurements"][number];
export type PlanPlace = PlanMeasurement["place"];
export type PlanGrowth = Plan["growth"][number];
export type PlanAssessment = Plan["assessments"][number];
export type PlanOption = Plan["options"][number];

/** The JSON Schema of the plan report; `plan.schema.json` beside this file is its published copy. */
export function planJsonSchema(): Record<string, unknown> {
  return { $id: "aortic-packet/plan/1", ...z.toJSONSchema(planSchema) };
}
