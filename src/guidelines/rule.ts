import { z } from "zod";
import { placeTable, regionIds } from "../anatomy/places.ts";
import { aetiologies, consideredOperations, diagnoses, symptomWords } from "../cases/vocabulary.ts";
import { citation, recommendation } from "./citation.ts";

/** What a rule compares with a limit. The list is closed: a new kind of check is code, a new limit is data. */
const limitKinds = [
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

const limitUnits = ["mm", "cm/m2", "cm/m", "cm2/m"] as const;
export type LimitUnit = (typeof limitUnits)[number];

const text = z.string().min(1);
const placeIds = new Set(placeTable.map(({ place }) => place.id));

/** The unit of each kind; growth is mm per period. */
const unitOfKind: Record<LimitKind, LimitUnit> = {
  diameter: "mm",
  "aortic-size-index": "cm/m2",
  "aortic-height-index": "cm/m",
  "area-height-ratio": "cm2/m",
  "growth-over-period": "mm",
  "growth-in-two-periods": "mm",
};

/** The kinds that look at change between exams. */
const growthKinds: ReadonlySet<LimitKind> = new Set([
  "growth-over-period",
  "growth-in-two-periods",
]);

/** The patients a criterion speaks of, in the words of the case sheet (`src/cases/vocabulary.ts`). What is absent is not asked. */
const population = z.strictObject({
  /** Any of these. */
  diagnosis: z.array(z.enum(diagnoses)).optional(),
  /** None of these: the source's recommendation does not speak of such a patient. */
  diagnosisNot: z.array(z.enum(diagnoses)).optional(),
  aetiology: z.array(z.enum(aetiologies)).optional(),
  sex: z.array(z.enum(["F", "M"])).optional(),
  ageYears: z
    .strictObject({ atLeast: z.number().optional(), below: z.number().optional() })
    .optional(),
  /** More than this many days since the onset date: 90 for "chronic". */
  daysSinceOnsetAbove: z.number().int().optional(),
  /** The rule applies only when one of these is planned. */
  considered: z.array(z.enum(consideredOperations)).optional(),
  /** Symptoms from the part that the rule speaks of: whichever, or any of these. */
  symptoms: z.union([z.literal("any"), z.array(z.enum(symptomWords)).min(1)]).optional(),
  /** Further facts that must all be true. Those that `statement-answers.ts` does not know are open until someone answers them. */
  statements: z.array(text).optional(),
  /** Such facts of which any one is enough. */
  statementsAnyOf: z.array(text).min(2).optional(),
});

const limitCheck = z
  .strictObject({
    kind: z.enum(limitKinds),
    /** "<" is the limit of a criterion for sizes that are not there yet. */
    operator: z.enum([">=", ">", "<"]),
    /** In mm, cm/m2, cm/m, cm2/m, or mm per period. */
    value: z.number().positive(),
    unit: z.enum(limitUnits),
    /** Upper bound of a printed band such as 5.0 to 5.4 cm; absent for an open limit. */
    below: z.number().optional(),
    /** Length of the period of a growth rule in months. */
    periodMonths: z.number().positive().optional(),
    /** The limit as the source prints it, without its operator. */
    printed: text,
  })
  .refine(({ kind, unit }) => unit === unitOfKind[kind], {
    path: ["unit"],
    message: "not the unit of this kind of check",
  })
  .refine(({ kind, periodMonths }) => growthKinds.has(kind) === (periodMonths !== undefined), {
    path: ["periodMonths"],
    message: "a growth check states its period, another check has none",
  })
  .refine(
    ({ kind, operator, below }) => operator !== "<" || (kind === "diameter" && below === undefined),
    {
      path: ["operator"],
      message: "only a diameter without a band is compared from above",
    },
  );

/** A criterion that holds at any size: nothing is measured. */
const anySizeCheck = z.strictObject({ kind: z.literal("any-size") });

/** True for a check that a normal aorta would meet. */
const isOfAneurysmAlone = (check: z.infer<typeof limitCheck | typeof anySizeCheck>): boolean =>
  check.kind === "any-size" || check.operator === "<";

export const ruleSchema = z
  .strictObject({
    id: text,
    title: text,
    source: citation,
    recommendation: recommendation.nullable(),
    population,
    /** Where the size is taken: parts of the aorta, each judged for itself, or single places. */
    places: z
      .strictObject({
        regions: z.array(z.enum(regionIds)).min(1).optional(),
        ids: z.array(z.string().refine((id) => placeIds.has(id), "no such place")).optional(),
      })
      .refine(({ regions, ids }) => (regions ?? ids) !== undefined, "names no place"),
    check: z.discriminatedUnion("kind", [limitCheck, anySizeCheck]),
    /** What the source says about a patient who meets it, in our words; never an instruction. */
    says: text,
    checked: z.discriminatedUnion("how", [
      z.strictObject({ how: z.literal("seen"), against: text }),
      z.strictObject({ how: z.literal("from-memory") }),
    ]),
  })
  .refine(
    ({ check, population }) => !isOfAneurysmAlone(check) || population.diagnosis !== undefined,
    {
      path: ["population"],
      message: "a check that small sizes meet asks for a diagnosis",
    },
  );

type RuleFile = z.infer<typeof ruleSchema>;

/** A comparison with the printed source that the site made itself; no rule file holds one. */
export interface SiteCheck {
  how: "site";
  decision: "confirmed" | "corrected";
  /** The printed source, and what the rule file was compared with before. */
  against: string;
  /** Role, no name. */
  by: string;
  /** YYYY-MM-DD. */
  date: string;
  /** What stood there before a correction, with its origin: ">= 5.5 cm, from memory"; null where nothing was corrected. */
  was: string | null;
}

/** One published criterion. Source of every value: the file's own `source` and `checked`, or the site that compared it. */
export type Rule = Omit<RuleFile, "checked"> & { checked: RuleFile["checked"] | SiteCheck };
export type LimitKind = (typeof limitKinds)[number];
export type LimitCheck = Exclude<Rule["check"], { kind: "any-size" }>;
/** A rule that compares something with a limit. */
export type LimitRule = Rule & { check: LimitCheck };

/** True for a criterion on change between exams. */
export function isGrowthRule(rule: Rule): rule is LimitRule {
  return hasLimit(rule) && growthKinds.has(rule.check.kind);
}

/** False for a criterion that holds at any size. */
export function hasLimit(rule: Rule): rule is LimitRule {
  return rule.check.kind !== "any-size";
}

/** Outcomes of a criterion. There is no score. */
export const outcomes = [
  "met",
  "not-met",
  "not-applicable",
  "not-assessable",
  "rule-failed",
] as const;
export type Outcome = (typeof outcomes)[number];
