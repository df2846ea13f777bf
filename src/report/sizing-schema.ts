import { z } from "zod";
import { conventions } from "../planning/sizing/sizing-references.ts";
import { edgeIds, lumenIds } from "../quantities/measured-quantity.ts";
import { interval, outcome } from "./schema-parts.ts";

const keys = z.array(z.string()).describe("Keys of measurements and stations.");
const end = z.enum(["proximal", "distal"]);
const missMm = z
  .number()
  .describe("Below 0 too small, above 0 too large; 0 inside or at a limit that is not included.");

const check = z
  .strictObject({
    id: z.string(),
    label: z.string(),
    outcome,
    value: interval.nullable(),
    limit: z.string(),
    spansLimit: z.boolean(),
    source: z.string(),
    used: keys,
    missing: z.array(z.string()),
    reason: z.string(),
  })
  .describe("One condition laid beside a number.");

const conventionDiameter = z.strictObject({
  convention: z.enum(conventions),
  diameterMm: z.number(),
  isEstimated: z.boolean().describe("Reckoned from the two axes as those of an ellipse."),
});

const sectionFields = {
  place: z.string(),
  distanceMm: z.number().nullable().describe("Along the centreline."),
  lumen: z.enum(lumenIds),
  edge: z.enum(edgeIds),
  used: keys,
  errorMm: z.number().describe("Half the 95 % interval of a diameter."),
  diameters: z.array(conventionDiameter),
  spreadMm: z.number().nullable().describe("Largest less smallest convention, the largest aside."),
  why: z.string().nullable().describe("Why the section has no reference diameter."),
};

const cited = { source: z.string(), confirmed: z.boolean() };
const fact = z.strictObject({ text: z.string(), ...cited });

const window = z.strictObject({
  id: z.string(),
  ends: z.array(end),
  lowPercent: z
    .number()
    .nullable()
    .describe("Null where the source prints no lower end; 0 is taken."),
  highPercent: z.number(),
  highOperator: z.enum(["<=", "<"]),
  printed: z.string(),
  ...cited,
});

const graftInterval = z
  .strictObject({
    graftLowMm: z.number(),
    graftHighMm: z.number(),
    surelyInsideLowMm: z
      .number()
      .describe("Inside the window over the whole reading error; none where low is over high."),
    surelyInsideHighMm: z.number(),
  })
  .describe("Nominal graft diameters in mm.");

const sizingEnd = z.strictObject({
  end,
  situations: z.array(z.strictObject({ id: z.string(), label: z.string() })),
  lumen: z.enum(["whole", "true"]).describe("Which lumen the reference is of."),
  sections: z.array(z.strictObject({ ...sectionFields, reference: conventionDiameter.nullable() })),
  reference: z
    .strictObject({ ...sectionFields, reference: conventionDiameter })
    .nullable()
    .describe("The section of the largest reference diameter."),
  spread: z
    .strictObject({ mm: z.number(), graftMm: z.number(), points: z.number() })
    .nullable()
    .describe("How far the conventions differ, in mm and in points of oversizing of one graft."),
  windows: z.array(z.strictObject({ window, interval: graftInterval.nullable() })),
  missing: z.array(z.string()),
});

const range = z.strictObject({ lowMm: z.number(), highMm: z.number() });

const taper = z.strictObject({
  proximalWindow: z.string(),
  distalWindow: z.string(),
  neededMm: range.describe("Proximal less distal graft diameter."),
  straightMm: range.nullable().describe("Diameters of a straight graft inside both windows."),
  straight: check,
});

const graftPieces = z
  .strictObject({
    pieces: z.number().int(),
    mostCoverMm: z.number(),
    overlapIfExactMm: z.number().nullable(),
  })
  .nullable();

const pieces = z.strictObject({
  coveredLengthMm: z.number(),
  overlapMm: z.number(),
  overlapSource: z.string(),
  least: graftPieces,
  most: graftPieces,
  why: z.string().nullable(),
});

const rowAtEnd = z.strictObject({
  graftMm: z.number(),
  oversizing: z
    .strictObject({ value: z.number(), low: z.number(), high: z.number().nullable() })
    .nullable()
    .describe("In per cent, against the reference and over its reading error."),
  alarms: z.array(z.string()),
  windows: z.array(
    z.strictObject({
      window: z.string(),
      outcome: z.enum(["met", "not-met"]),
      missMm,
      spansLimit: z.boolean(),
    }),
  ),
});

const pair = { proximal: z.string().nullable(), distal: z.string().nullable() };

const inventory = z.strictObject({
  rows: z
    .array(
      z.strictObject({
        id: z.string(),
        coveredLengthMm: z.number(),
        proximal: rowAtEnd,
        distal: rowAtEnd,
        both: z.array(z.strictObject({ ...pair, outcome, spansLimit: z.boolean() })),
        onePiece: outcome.describe("Whether one of it covers the length."),
      }),
    )
    .describe("In the order of the inventory: nothing is ranked."),
  answers: z.array(
    z.strictObject({
      ...pair,
      fits: z.array(z.string()),
      ends: z.array(
        z.strictObject({
          end,
          inside: z.array(z.string()),
          nearest: z.array(z.strictObject({ id: z.string(), missMm })),
        }),
      ),
      sentence: z.string(),
    }),
  ),
});

const percent = z.number().nullable();

const trueLumen = z.strictObject({
  rows: z.array(
    z.strictObject({
      id: z.string(),
      distalMm: z.number(),
      byPerimeter: percent,
      byArea: percent,
      areaRatioPercent: percent.describe("Of cross-sections: never laid beside a window."),
      wholeAorta: percent,
      check,
    }),
  ),
  taper: z
    .strictObject({
      convention: z.enum(["perimeter", "area"]),
      proximalMm: z.number(),
      distalMm: z.number(),
      percent: z.number(),
      low: z.number().nullable(),
      high: z.number().nullable(),
    })
    .nullable(),
  taperChecks: z.array(check),
  beforeDissection: z
    .array(
      z.strictObject({
        place: z.string(),
        meanCircumferenceMm: z.number(),
        circumferenceMm: z.number(),
        diameterMm: z.number(),
        source: z.string(),
        used: keys,
      }),
    )
    .describe("The size before the dissection by one published equation; shown only."),
  facts: z.array(fact),
  missing: z.array(z.string()),
});

/** What a graft with its ends in two landing stretches is sized by. */
export const sizingSchema = z
  .strictObject({
    proximal: sizingEnd,
    distal: sizingEnd,
    tapers: z.array(taper),
    coverage: z.strictObject({ leastMm: z.number(), mostMm: z.number() }).nullable(),
    overlapMm: z.number(),
    pieces: z.array(pieces),
    inventory: inventory.nullable().describe("Null where the site names none."),
    piecePairs: z
      .array(
        z.strictObject({
          proximalRow: z.string(),
          distalRow: z.string(),
          jointPercent: z.number(),
          mostCoverMm: z.number(),
        }),
      )
      .nullable()
      .describe("Two rows, the proximal piece inside the distal one: a question, not a choice."),
    trueLumen: trueLumen.nullable(),
    alarms: z
      .array(
        z.strictObject({ id: z.string(), abovePercent: z.number(), says: z.string(), ...cited }),
      )
      .describe("Oversizing that some source warns of; the rows name those that they are above."),
    facts: z.array(fact),
    questions: z.array(
      z.strictObject({ text: z.string(), raisedBy: z.string(), answeredBy: z.string() }),
    ),
    missing: z.array(z.string()),
  })
  .describe("Sizing of a graft: it computes and compares, and chooses nothing.");

export type PlanSizing = z.infer<typeof sizingSchema>;
