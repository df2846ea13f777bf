import { z } from "zod";
import { regionIds } from "../anatomy/places.ts";

/** What a rule compares. The list is closed: a new kind of check is code, a new limit is data. */
export const checkKinds = [
  /** A diameter in one of the places against a limit in mm. */
  "diameter",
  /** Diameter over body surface area, cm/m2. */
  "aortic-size-index",
  /** Diameter over height, cm/m. */
  "aortic-height-index",
  /** Cross-sectional area over height, cm2/m. */
  "area-height-ratio",
  /** Change of a diameter between two exams over about one period. */
  "growth-over-period",
  /** The same in two periods that follow each other. */
  "growth-in-two-periods",
] as const;

/** Words of a case sheet that select a population. The words are listed in `vocabulary.ts`. */
const population = z.strictObject({
  /** Any of these; absent means that the rule does not ask. */
  diagnosis: z.array(z.string()).optional(),
  aetiology: z.array(z.string()).optional(),
  sex: z.array(z.enum(["F", "M"])).optional(),
  ageYears: z
    .strictObject({ atLeast: z.number().optional(), below: z.number().optional() })
    .optional(),
  /** Operations that the meeting considers; the rule applies only when one of them is planned. */
  considered: z.array(z.string()).optional(),
  /** Facts that no case sheet column holds; each makes the rule not assessable until someone answers it. */
  statements: z.array(z.string()).optional(),
});

export const ruleSchema = z.strictObject({
  id: z.string(),
  title: z.string(),
  source: z.strictObject({
    body: z.string(),
    year: z.number().int(),
    /** Section, table or page. */
    where: z.string(),
    doi: z.string().optional(),
  }),
  recommendation: z
    .strictObject({
      class: z.string().nullable(),
      level: z.string().nullable(),
      /** False where class or level is recalled although the limit was compared. */
      confirmed: z.boolean(),
    })
    .nullable(),
  population,
  places: z.strictObject({
    regions: z.array(z.enum(regionIds)).optional(),
    ids: z.array(z.string()).optional(),
  }),
  check: z.strictObject({
    kind: z.enum(checkKinds),
    operator: z.enum([">=", ">"]),
    /** In mm, cm/m2, cm/m, cm2/m, or mm per period. */
    value: z.number(),
    unit: z.enum(["mm", "cm/m2", "cm/m", "cm2/m"]),
    /** Upper bound of a printed band such as 5.0 to 5.4 cm; absent for an open limit. */
    below: z.number().optional(),
    /** Length of the period of a growth rule in months. */
    periodMonths: z.number().optional(),
    /** As the source prints it. */
    printed: z.string(),
  }),
  /** What the source says about a patient who meets it, in our words; never an instruction. */
  says: z.string(),
  checked: z.discriminatedUnion("how", [
    z.strictObject({ how: z.literal("seen"), against: z.string() }),
    z.strictObject({ how: z.literal("from-memory") }),
  ]),
});

/** One published criterion. Source of every value: the file's own `source` and `checked`. */
export type Rule = z.infer<typeof ruleSchema>;
export type CheckKind = (typeof checkKinds)[number];

/** Outcomes of a criterion. There is no score. */
export const outcomes = [
  "met",
  "not-met",
  "not-applicable",
  "not-assessable",
  "rule-failed",
] as const;
export type Outcome = (typeof outcomes)[number];
