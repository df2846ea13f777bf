import { z } from "zod";

const keys = z.array(z.string()).describe("Keys of measurements and findings.");
const sides = z.enum(["left", "right"]);
const type = z.enum(["A", "B", "I"]).nullable();
const verdict = z.enum(["agrees", "contradicts", "not contradicted"]);

const notation = z
  .strictObject({
    type: z.enum(["A", "B", "I"]),
    proximal: z.number().int().nullable(),
    distal: z.number().int().nullable(),
    side: z.enum(["left", "right", "both sides"]).nullable(),
  })
  .describe("Type by entry tear and extent in zones, after the 2020 reporting standard.");

const extentEnd = z
  .strictObject({
    zone: z.number().int(),
    isExact: z.boolean().describe("False: at least to this zone, the next one is not known."),
  })
  .nullable();

const extent = z.strictObject({
  exam: z.string(),
  date: z.string(),
  zones: z
    .array(
      z.strictObject({
        zone: z.string(),
        state: z.enum(["dissected", "not dissected", "contradictory"]),
        because: z.array(z.string()),
        used: keys,
      }),
    )
    .describe("A zone that is not listed is unknown."),
  loose: z
    .array(
      z.strictObject({
        state: z.enum(["dissected", "not dissected"]),
        zones: z.array(z.string()),
        isUpstream: z.boolean(),
        because: z.string(),
        used: keys,
      }),
    )
    .describe("What was seen at a place that stands for no single zone."),
  entry: z.strictObject({
    state: z.enum(["seen", "not found", "contradictory", "not stated"]),
    tears: z.array(z.strictObject({ label: z.string(), zones: z.array(z.string()), used: keys })),
    notFoundAt: z.array(z.string()),
    used: keys,
  }),
  type,
  typeBecause: z.string(),
  typeConfirmed: z.boolean(),
  proximal: extentEnd,
  distal: extentEnd,
  distalSides: z.array(sides),
  words: z.string(),
  notes: z.array(z.string()),
  used: keys,
});

const seen = {
  place: z.string(),
  zones: z.array(z.string()),
  exam: z.string(),
  date: z.string(),
  used: keys,
};

const malperfusionState = z.enum(["clinical", "on imaging only", "absent", "not stated"]);

/** What a plan report says of a dissection. */
export const dissectionSchema = z
  .strictObject({
    stated: z.strictObject({
      words: z.string().nullable(),
      notation: notation.nullable(),
      formatted: z.string().nullable(),
      problem: z.string().nullable(),
      diagnoses: z.array(z.string()),
      onsetDate: z.string().nullable(),
    }),
    exams: z.array(z.strictObject({ key: z.string(), date: z.string() })),
    derived: extent.nullable().describe("From the last exam that shows something of it."),
    comparison: z
      .strictObject({
        verdict,
        reasons: z.array(z.string()),
        open: z.array(z.string()),
        used: keys,
      })
      .nullable(),
    diagnoses: z.array(
      z.strictObject({
        diagnosis: z.string(),
        byTear: type,
        byInvolvement: z.enum(["A", "B", "non-A-non-B"]).nullable(),
        verdict,
        sentence: z.string(),
      }),
    ),
    schemes: z.array(
      z.strictObject({
        scheme: z.enum(["SVS/STS 2020", "Stanford", "TEM", "DeBakey"]),
        value: z.string().nullable(),
        because: z.string(),
        source: z.string(),
        confirmed: z.boolean(),
        basis: z.string(),
        used: keys,
      }),
    ),
    bands: z.array(
      z.strictObject({
        exam: z.string().nullable().describe("Null for the as-of date."),
        date: z.string(),
        days: z.number().int().nullable(),
        bands: z.array(
          z.strictObject({
            scheme: z.string(),
            band: z.enum(["hyperacute or acute", "acute", "subacute", "chronic"]).nullable(),
            because: z.string(),
            source: z.string(),
            confirmed: z.boolean(),
          }),
        ),
      }),
    ),
    falseLumen: z.array(z.strictObject({ ...seen, state: z.string() })),
    branches: z.array(
      z.strictObject({ ...seen, fedBy: z.string(), territory: z.string().nullable() }),
    ),
    tears: z.array(
      z.strictObject({
        ...seen,
        kind: z.enum(["entry tear", "re-entry tear"]),
        state: z.string(),
      }),
    ),
    malperfusion: z.array(
      z.strictObject({
        territory: z.string(),
        state: z.union([malperfusionState, z.literal("sources differ")]),
        sources: z.array(
          z.strictObject({
            by: z.enum(["case sheet", "finding"]),
            state: malperfusionState,
            place: z.string().nullable(),
            exam: z.string().nullable(),
            date: z.string().nullable(),
            used: keys,
          }),
        ),
      }),
    ),
    statements: z.array(
      z.strictObject({
        fact: z.string(),
        says: z.enum(["complicated", "high risk"]),
        body: z.string(),
        source: z.string(),
        confirmed: z.boolean(),
        timing: z.string(),
        used: keys,
      }),
    ),
    missing: z.array(z.string()),
  })
  .describe("What is stated, seen and derived of a dissection.");
