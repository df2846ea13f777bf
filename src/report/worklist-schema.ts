import { z } from "zod";
import type { MissingItem, Worklist } from "../planning/worklists/completeness.ts";
import type { WorkState } from "../planning/worklists/what-is-measured.ts";
import { isoDate } from "./schema-parts.ts";

const missingRow = z.strictObject({
  what: z
    .array(z.string())
    .min(1)
    .describe("What is asked for there, as far as it is equally far and of the same weight."),
  where: z.string(),
  form: z
    .enum(["measurements", "findings", "mark", "stretch", "case", "exam"])
    .describe(
      "Where it is written: a sheet, a mark or stations of a centreline, or the case sheet.",
    ),
  state: z.enum(["not measured", "out of date"]),
  date: isoDate.nullable().describe("Of the exam that has it, where it is out of date."),
  lacks: z
    .string()
    .nullable()
    .describe("Why what was found does not count; null where nothing was."),
  why: z.array(z.string()).describe("What can't be judged without it."),
  opens: z.number().int().describe("Checks that can't be judged without it."),
  opensAlone: z.number().int().describe("Those of them that lack nothing else."),
  used: z
    .array(z.string())
    .describe("Keys of the measurements, findings and stations that are out of date."),
});

/** What one procedure needs measured of a patient, and what of it is missing. */
export const worklistSchema = z
  .strictObject({
    procedure: z.string(),
    label: z.string(),
    measured: z.number().int(),
    missingItems: z.number().int(),
    notNeeded: z.number().int().describe("Items that this patient does not need."),
    missing: z.array(missingRow).describe("What would change most first."),
  })
  .describe("What one procedure needs measured; neither a choice nor a rank of procedures.");
export type PlanWorklist = z.infer<typeof worklistSchema>;

/** A worklist as a plan report holds it: what is missing, alike items of one place in one row; the rest as numbers. */
export function planWorklist({ procedure, label, items, missing }: Worklist): PlanWorklist {
  const count = (wanted: WorkState): number => items.filter(({ state }) => state === wanted).length;
  const rows = Map.groupBy(missing, (one) => JSON.stringify(sharedOf(one)));
  return {
    procedure,
    label,
    measured: count("measured"),
    missingItems: missing.length,
    notNeeded: count("not needed here"),
    missing: [...rows.values()].flatMap((group) => {
      const [first] = group;
      if (!first) return [];
      const what = group.map(({ item }) => item.asked);
      return [{ what, ...sharedOf(first), used: group.flatMap(({ used }) => used) }];
    }),
  };
}

/** What the items of one row have in common. */
function sharedOf({ item, state, date, lacks, why, opens, opensAlone }: MissingItem) {
  const missingState = state === "out of date" ? state : "not measured";
  const { where, form } = item;
  return { where, form, state: missingState, date, lacks, why, opens, opensAlone } as const;
}
