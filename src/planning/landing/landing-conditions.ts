import { readFileSync } from "node:fs";
import { z } from "zod";
import { findingStates, stationWalls } from "../../cases/vocabulary.ts";
import { parseOwnDataFile } from "../../data-file.ts";
import { landingConditionKinds, type PlanningSettings } from "../../site/planning-settings.ts";
import type { LandingSegment } from "./landing-segment.ts";

const operator = z.enum([">=", ">", "<", "<="]);
const ends = z.array(z.enum(["proximal", "distal"])).min(1);
const zones = z.array(z.enum(["0", "1", "2", "3", "4", "5"])).optional();

const schema = z.strictObject({
  conditions: z.array(
    z.strictObject({
      id: z.string(),
      kind: z.enum(landingConditionKinds),
      label: z.string(),
      measure: z.enum([
        "diameter",
        "widening",
        "bulge",
        "change",
        "thrombus-arc",
        "thrombus-thickness",
        "calcium-arc",
        "turn",
      ]),
      operator,
      limit: z.number(),
      unit: z.enum(["mm", "deg", "%"]),
      withinMm: z.number().positive().optional(),
      ends,
      zones,
      wall: z.literal("native").optional(),
      widest: z.boolean(),
      source: z.string(),
      confirmed: z.boolean(),
    }),
  ),
  walls: z.strictObject({
    id: z.string(),
    label: z.string(),
    unsound: z.array(z.enum(stationWalls)),
    source: z.string(),
    practice: z.boolean(),
  }),
  seals: z.array(
    z.strictObject({
      id: z.string(),
      label: z.string(),
      ends,
      zones,
      surface: z.literal("graft").optional(),
      operator,
      limit: z.number(),
      archTypes: z.array(z.enum(findingStates["arch type"])).optional(),
      source: z.string(),
      confirmed: z.boolean(),
    }),
  ),
});

/** Conditions of a landing stretch and the lengths asked of it, from `landing-conditions.yaml`. */
export const landingConditions = parseOwnDataFile(
  readFileSync(new URL("landing-conditions.yaml", import.meta.url), "utf8"),
  schema,
  "src/planning/landing/landing-conditions.yaml",
);

export type StretchCondition = (typeof landingConditions.conditions)[number];
export type SealLength = (typeof landingConditions.seals)[number];

/** The conditions in force for one end. */
export interface ConditionSet {
  which: LandingSegment["conditions"];
  conditions: readonly StretchCondition[];
  /** False where the site leaves the wall out. */
  judgesWall: boolean;
  /** Kinds that the site leaves out, each a sentence. */
  leftOut: string[];
}

/** The strictest or the widest published conditions of one end, less those that the site leaves out. */
export function conditionSet(
  which: LandingSegment["conditions"],
  end: LandingSegment["end"],
  { leaveOut }: Pick<PlanningSettings, "leaveOut">,
): ConditionSet {
  const isLeftOut = (kind: string): boolean => leaveOut.some(({ condition }) => condition === kind);
  return {
    which,
    conditions: landingConditions.conditions.filter(
      (row) =>
        row.ends.includes(end) &&
        (which === "strictest published" || row.widest) &&
        !isLeftOut(row.kind),
    ),
    judgesWall: !isLeftOut("wall"),
    leftOut: leaveOut.map(
      ({ condition, reason, by, date }) =>
        `The site does not judge ${condition} (${by}, ${date}): ${reason}`,
    ),
  };
}
