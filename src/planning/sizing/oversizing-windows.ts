import { readFileSync } from "node:fs";
import { z } from "zod";
import { parseOwnDataFile } from "../../data-file.ts";

const situationIds = [
  "aneurysm",
  "acute-dissection",
  "chronic-dissection",
  "true-lumen-end",
  "acute-haematoma",
  "blunt-trauma",
  "surgical-graft",
  "stent-graft",
] as const;
export type SituationId = (typeof situationIds)[number];

/** The two ends of a graft: the proximal one lies nearer to the heart along the aorta. */
export const graftEnds = ["proximal", "distal"] as const;
export type GraftEnd = (typeof graftEnds)[number];

const cited = { source: z.string().min(1), confirmed: z.boolean() };
const ofSituations = z.array(z.enum(situationIds)).min(1);

const window = z.strictObject({
  id: z.string().min(1),
  ends: z.array(z.enum(graftEnds)).min(1),
  lowPercent: z.number().nullable(),
  highPercent: z.number(),
  highOperator: z.enum(["<=", "<"]),
  printed: z.string().min(1),
  ...cited,
});

const schema = z.strictObject({
  situations: z
    .array(
      z.strictObject({
        id: z.enum(situationIds),
        label: z.string().min(1),
        windows: z.array(window).min(1),
      }),
    )
    .min(1),
  alarms: z.array(
    z.strictObject({ id: z.string(), abovePercent: z.number(), says: z.string(), ...cited }),
  ),
  facts: z.array(
    z.strictObject({ id: z.string(), of: ofSituations, text: z.string().min(1), ...cited }),
  ),
  questions: z.array(
    z.strictObject({
      id: z.string(),
      of: ofSituations,
      text: z.string().min(1),
      answeredBy: z.string().min(1),
    }),
  ),
  heritable: z.strictObject({
    text: z.string().min(1),
    answeredBy: z.string().min(1),
  }),
});

const url = new URL("oversizing-windows.yaml", import.meta.url);

/** Published and customary oversizing windows in per cent, with what else is said of each situation. */
export const oversizingData = parseOwnDataFile(
  readFileSync(url, "utf8"),
  schema,
  "src/planning/sizing/oversizing-windows.yaml",
);

export type OversizingAlarm = (typeof oversizingData.alarms)[number];
export type OversizingSituation = (typeof oversizingData.situations)[number];

/** A window of one situation. Its upper end belongs to it where `highOperator` is "<=". */
export type SizingWindow = OversizingSituation["windows"][number];

/** The row of a situation. */
export function oversizingSituation(id: SituationId): OversizingSituation {
  const found = oversizingData.situations.find((row) => row.id === id);
  if (!found) throw new Error(`oversizing-windows.yaml has no situation ${id}`);
  return found;
}
