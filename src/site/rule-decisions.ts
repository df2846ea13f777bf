import { z } from "zod";
import type { ParsedDataFile } from "../data-file.ts";
import type { SourcePlace } from "../message.ts";

const text = z.string().min(1);
const shared = { rule: text, date: z.iso.date("a date is written YYYY-MM-DD"), by: text };

const correctSchema = z
  .strictObject({
    ...shared,
    decision: z.literal("correct"),
    against: text,
    operator: z.enum([">=", ">"]).optional(),
    value: z.number().positive().optional(),
    below: z.number().positive().optional(),
    printed: text.optional(),
    class: text.optional(),
    level: text.optional(),
  })
  .refine(
    ({ operator, value, below, class: strength, level }) =>
      [operator, value, below, strength, level].some((corrected) => corrected !== undefined),
    "say what is corrected: operator, value, below, class or level",
  )
  .refine(
    ({ value, below, printed }) =>
      (value !== undefined || below !== undefined) === (printed !== undefined),
    { path: ["printed"], message: "a corrected limit needs value and printed, both of them" },
  );

const knownDecision = z.looseObject({ decision: z.enum(["confirm", "correct", "hide"]) });

/** The word of the decision is looked at first, so that a misspelt one is told as such. */
const decisionSchema = knownDecision.pipe(
  z.discriminatedUnion("decision", [
    z.strictObject({ ...shared, decision: z.literal("confirm"), against: text }),
    correctSchema,
    z.strictObject({ ...shared, decision: z.literal("hide"), reason: text }),
  ]),
);

/**
 * The site's decisions about published criteria, by rule id, one for a rule:
 * - `confirm`: limit, class and level were compared with the printed source `against` and stand there so.
 * - `correct`: the source prints something else. `value` and `below` (upper end of a band) are in the unit of the
 *   criterion, `printed` is the limit as the source writes it.
 * - `hide`: the site does not use the criterion, for `reason`.
 * `by` is the role of who decided (no name), `date` the day of the decision.
 */
export const ruleDecisionsSchema = z
  .array(decisionSchema)
  .superRefine((decisions, context) => {
    const stated = decisions.map(({ rule }) => rule);
    for (const [index, rule] of stated.entries()) {
      if (stated.indexOf(rule) === index) continue;
      const message = "decided twice; write one decision for a criterion";
      context.addIssue({ code: "custom", path: [index, "rule"], message });
    }
  })
  .default([]);

/** A decision with the line of the site file where it names its criterion. */
export type RuleDecision = z.infer<typeof decisionSchema> & { place: SourcePlace };
export type HideDecision = Extract<RuleDecision, { decision: "hide" }>;
export type CorrectDecision = Extract<RuleDecision, { decision: "correct" }>;

/** Adds to each decision where its criterion stands in the site file. */
export function placedDecisions(
  decisions: z.infer<typeof ruleDecisionsSchema>,
  file: string,
  lineOf: ParsedDataFile<unknown>["lineOf"],
): RuleDecision[] {
  return decisions.map((decision, index) => ({
    ...decision,
    place: { file, sha256: null, at: `line ${lineOf(["rules", index, "rule"])}` },
  }));
}
