import { z } from "zod";

const decided = { by: z.string().min(1), date: z.iso.date("a date is written YYYY-MM-DD") };

/** Conditions of a landing zone by their kind. */
export const landingConditionKinds = [
  "diameter",
  "taper",
  "thrombus",
  "calcium",
  "angulation",
  "wall",
] as const;

/** What a site states about the planning of repairs. Every default is common practice without a source, and printed as such. */
export const planningSchema = z
  .strictObject({
    /** Conditions that this site does not judge a landing zone by. */
    leaveOut: z
      .array(
        z.strictObject({
          condition: z.enum(landingConditionKinds),
          reason: z.string().min(1),
          ...decided,
        }),
      )
      .default([]),
    /** How far the C-arm turns to either side and tilts to head and foot, in degrees. */
    cArm: z
      .strictObject({
        primaryDeg: z.number().positive().max(180).default(90),
        secondaryDeg: z.number().positive().max(90).default(45),
      })
      .prefault({}),
    /** How patients lie in this site's scanners where a file does not say: DICOM patient position such as HFS. */
    scanPosition: z
      .strictObject({ position: z.enum(["HFS", "FFS", "HFP", "FFP"]), ...decided })
      .nullable()
      .default(null),
    /** Least overlap of two pieces of graft, in mm. */
    overlapMm: z.number().positive().default(50),
    /** Outer sheath over least lumen diameter on the way, from which on it is marked. */
    sheathRatio: z.number().positive().default(1.05),
    /** Covered length of the aorta from which on it is marked, in mm. */
    coverageMm: z.number().positive().default(205),
  })
  .prefault({});
export type PlanningSettings = z.infer<typeof planningSchema>;
