import { z } from "zod";
import { outcomes } from "../guidelines/rule.ts";

const isoDate = z.string().regex(/^\d{4}-\d{2}-\d{2}$/);
const severity = z.enum(["error", "warning", "note"]);
const outcome = z.enum(outcomes);

const source = z
  .strictObject({
    file: z.string(),
    sha256: z.string().nullable(),
    at: z.string().nullable(),
  })
  .describe(
    "Where a number stands in an input file: content item path, or record, line and column.",
  );

const message = z.strictObject({
  code: z.string(),
  severity,
  place: source.nullable(),
  data: z.record(z.string(), z.union([z.string(), z.number()])),
  text: z.string(),
  remedy: z.string(),
});

const place = z
  .strictObject({
    kind: z.enum(["zone", "level", "landmark", "range", "branch", "distance"]),
    id: z.string(),
    label: z.string(),
    zones: z.array(z.string()).describe("Zones it lies in; empty on a border and in the root."),
    position: z
      .number()
      .describe("Along the vessel in bands: root 0 to 1, zone n from n+1 to n+2."),
    span: z.tuple([z.number(), z.number()]).nullable().describe("First and last band of a range."),
  })
  .describe("A place on the aorta or a branch, by its anatomical name.");

const interval = z.strictObject({
  value: z.number(),
  low: z
    .number()
    .nullable()
    .describe("Lower end of the 95 % interval; null where no error is known."),
  high: z.number().nullable(),
  unit: z.string(),
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
  aetiology: z.string().nullable(),
  familyHistory: z.string().nullable(),
  priorRepair: z.string().nullable().describe("In the case sheet's words."),
  repairs: z
    .array(
      z.strictObject({
        words: z.string(),
        date: z.string().nullable().describe("YYYY, YYYY-MM or YYYY-MM-DD as stated."),
        zones: z.array(z.string()).nullable().describe("Null where the words name none."),
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
  statistic: z.enum(["maximum", "minimum", "mean", "unstated"]),
  lumen: z.enum(["whole", "true", "false", "unstated"]),
  edge: z.enum(["inner", "outer", "unstated"]),
  path: z.enum(["centreline", "inner-curve", "outer-curve", "unstated"]),
  value: z.number(),
  unit: z.string(),
  asWritten: z.string(),
  derivedFrom: z.array(z.string()),
  source,
  reader: z.string().nullable(),
  comment: z.string().nullable(),
});

const growthPoint = z.strictObject({
  exam: z.string(),
  date: isoDate,
  values: z
    .array(z.number())
    .describe("In mm; more than one where readings of the same exam differ."),
  measurements: z.array(z.string()),
  low: z.number().describe("Value minus 1.96 SD of one reading."),
  high: z.number(),
  edge: z.enum(["inner", "outer", "unstated"]),
  comparable: z.boolean().describe("With the last point of the series."),
  reasons: z.array(z.string()).describe("Why it is not comparable, or what is unstated about it."),
});

const growthInterval = z.strictObject({
  from: isoDate,
  to: isoDate,
  days: z.number().int(),
  change: interval,
  rate: interval
    .nullable()
    .describe("mm per year; null under the shortest interval that is annualised."),
});

const growthAnswer = z.strictObject({
  rule: z.string(),
  body: z.string(),
  year: z.number().int(),
  limitMmPerYear: z.number(),
  answer: z.enum(["exceeds", "does-not-exceed", "cannot-tell"]),
  outcome: outcome.describe("The criterion as it is written."),
  reason: z.string(),
});

const growth = z.strictObject({
  key: z.string(),
  place,
  quantity: z.string(),
  statistic: z.string(),
  lumen: z.string(),
  points: z.array(growthPoint),
  intervals: z.array(growthInterval),
  rate: interval.nullable().describe("mm per year over all comparable points."),
  rateMethod: z.string().describe("How the rate was fitted, or why there is none."),
  readingError: z.strictObject({
    lowSdMm: z.number(),
    highSdMm: z.number(),
    source: z.string(),
  }),
  comparability: z.array(z.string()),
  answers: z.array(growthAnswer),
  sentence: z.string().describe("Change, time, rate with interval and answer, in words."),
});

const assessment = z.strictObject({
  rule: z.string(),
  title: z.string(),
  source: z.strictObject({
    body: z.string(),
    year: z.number().int(),
    where: z.string(),
    doi: z.string().nullable(),
  }),
  recommendation: z
    .strictObject({
      class: z.string().nullable(),
      level: z.string().nullable(),
      confirmed: z.boolean(),
    })
    .nullable(),
  confirmed: z
    .boolean()
    .describe("False: the value is recalled and not confirmed against the source."),
  checkedAgainst: z.string().nullable(),
  outcome,
  about: place.nullable(),
  used: z.array(z.string()).describe("Keys of the measurements used."),
  value: interval.nullable(),
  spansLimit: z.boolean().describe("True where the 95 % interval of the value holds the limit."),
  limit: z.strictObject({
    operator: z.enum([">=", ">"]),
    value: z.number(),
    below: z.number().nullable(),
    unit: z.string(),
    printed: z.string(),
  }),
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

const landingCheck = z.strictObject({
  id: z.string(),
  label: z.string(),
  outcome,
  value: interval.nullable(),
  limit: z.string(),
  spansLimit: z.boolean(),
  source: z.string().describe("Where the limit comes from, and how it was checked."),
  used: z.array(z.string()),
  reason: z.string(),
});

const option = z.strictObject({
  zone: z.enum(["0", "1", "2", "3", "4"]),
  label: z.string(),
  soundLengths: z.array(
    z.strictObject({
      path: z.enum(["centreline", "inner-curve", "outer-curve", "unstated"]),
      valueMm: z.number(),
      measurement: z.string(),
    }),
  ),
  diameterRange: z
    .strictObject({
      lowMm: z.number(),
      highMm: z.number(),
      measurements: z.array(z.string()),
    })
    .nullable(),
  reference: z
    .strictObject({
      diameterMm: z.number(),
      method: z.string(),
      edge: z.string(),
      measurements: z.array(z.string()),
    })
    .nullable()
    .describe("The vessel diameter that oversizing is reckoned from."),
  oversizing: z
    .strictObject({
      situation: z.string(),
      lowPercent: z.number(),
      highPercent: z.number(),
      source: z.string(),
      graftLowMm: z.number(),
      graftHighMm: z.number(),
      surelyInsideLowMm: z
        .number()
        .describe("Inside the window over the whole reading error; may exceed the high end."),
      surelyInsideHighMm: z.number(),
      inventoryRows: z
        .array(z.strictObject({ id: z.string(), proximalMm: z.number() }))
        .nullable()
        .describe(
          "Rows of the site's inventory whose proximal diameter lies in the window; null without an inventory.",
        ),
    })
    .nullable(),
  branchesCovered: z.array(z.string()),
  movedFirst: z
    .array(z.string())
    .describe("What must be re-fed before these branches are covered."),
  checks: z.array(landingCheck),
  missing: z.array(z.string()),
  questions: z.array(z.strictObject({ text: z.string(), answeredBy: z.string() })),
});

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
    growth: z.array(growth),
    assessments: z.array(assessment),
    disagreements: z.array(disagreement),
    options: z.array(option),
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
