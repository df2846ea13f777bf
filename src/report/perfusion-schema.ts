import { z } from "zod";
import { planningCheckSchema, questionSchema } from "./access-schema.ts";

const keys = z.array(z.string()).describe("Keys of measurements, findings and stations.");
const missing = z.array(z.string()).describe("What is missing, by name.");
const zone = z.enum(["0", "1", "2", "3", "4"]);
const stopped = z
  .string()
  .nullable()
  .describe("Why the zone has no meaning in this arch; null where it has one.");
const triState = z.boolean().nullable();

const fact = z.strictObject({
  id: z.string(),
  label: z.string(),
  words: z.string(),
  used: keys,
  missing,
});

const cordZone = z.strictObject({
  zone,
  stopped,
  lengthMm: z
    .strictObject({ leastMm: z.number().nullable(), mostMm: z.number(), how: z.string() })
    .nullable()
    .describe("Covered length; without its least where only the most is known."),
  sharePercent: z
    .strictObject({ low: z.number().nullable(), high: z.number() })
    .nullable()
    .describe("Covered length over the length from the left subclavian to the coeliac artery."),
  aboveCoeliacMm: z
    .strictObject({ lowMm: z.number(), highMm: z.number() })
    .nullable()
    .describe("What is left above the coeliac artery; negative past it."),
  coversSubclavian: triState.describe("Null where it is not known."),
  subclavianRefedBy: z
    .array(z.string())
    .describe("Usual re-feeding; no sheet says what is planned."),
  supplies: z
    .array(
      z.strictObject({
        supply: z.enum(["left subclavian", "intercostal", "lumbar", "internal iliac"]),
        state: z.enum(["open", "part closed", "closed", "unknown"]),
        words: z.string(),
        used: keys,
        missing,
      }),
    )
    .describe("The four supplies of the cord, each for itself; they are not added up."),
  checks: z.array(planningCheckSchema),
  used: keys,
  missing,
});

const brainZone = z.strictObject({
  zone,
  stopped,
  supplies: z.array(
    z.strictObject({
      territory: z.string(),
      inflows: z.array(
        z.strictObject({
          artery: z.string(),
          isCovered: triState.describe("Null where it is not known."),
          isOpen: triState.describe("Whether it carries blood now; null where it is not known."),
          words: z.string(),
          used: keys,
          missing,
        }),
      ),
      check: planningCheckSchema,
    }),
  ),
  refeeding: z.array(z.string()).describe("Usual re-feeding of what is covered."),
  notRefed: z.array(z.string()).describe("Covered branches that no usual re-feeding names."),
  missing,
});

/** Perfusion of cord, brain, kidneys, gut and legs in a plan report. No score. */
export const perfusionSchema = z
  .strictObject({
    assumes: z.string().nullable().describe("What is taken for granted about the arch."),
    cord: z.strictObject({ zones: z.array(cordZone), facts: z.array(fact) }),
    brain: z.strictObject({ zones: z.array(brainZone), facts: z.array(fact) }),
    organs: z
      .array(
        z.strictObject({
          branch: z.string(),
          organ: z.string(),
          fedBy: z.string(),
          isFalseLumenOnly: z.boolean(),
          patency: z.string(),
          malperfusion: z.string(),
          used: keys,
          missing,
        }),
      )
      .describe("By branch in a dissection; empty where the case speaks of none."),
    statements: z.array(
      z.strictObject({
        id: z.string(),
        about: z.enum(["cord", "brain", "gut"]),
        variant: z.string().optional().describe("The arch that it speaks of."),
        says: z.string(),
        against: z.array(z.string()).describe("Ids of statements that found otherwise."),
        source: z.string(),
        confirmed: z.boolean().describe("False where the source was not seen."),
      }),
    ),
    questions: z.array(questionSchema),
    missing,
  })
  .describe("Facts on perfusion under a landing in each candidate zone.");
