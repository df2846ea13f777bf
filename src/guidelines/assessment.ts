import type { AorticPlace } from "../anatomy/places.ts";
import type { Outcome, Rule } from "./rule.ts";
import { checkedAgainst, isConfirmed } from "./rule-check.ts";

/** A number with its 95 % interval; both ends null where no reading error is known. */
export interface AssessedValue {
  value: number;
  low: number | null;
  high: number | null;
  unit: string;
}

/** What was found for one part of the aorta. */
export interface Finding {
  outcome: Outcome;
  /** The place whose size decided, or the part of which the case sheet states what a criterion without a size asks for; null where none. */
  about: AorticPlace | null;
  /** Keys of the measurements used. */
  used: string[];
  value: AssessedValue | null;
  /** True where the 95 % interval of the value holds the limit. */
  spansLimit: boolean;
  missing: string[];
  /** One sentence: why this outcome. */
  reason: string;
}

/** A published criterion applied to one part of the aorta of one patient. */
export interface Assessment extends Finding {
  rule: string;
  title: string;
  source: { body: string; year: number; where: string; doi: string | null };
  recommendation: { class: string | null; level: string | null; confirmed: boolean } | null;
  /** False: the value is recalled and not confirmed against the source. */
  confirmed: boolean;
  checkedAgainst: string | null;
  /** Null where the criterion holds at any size. */
  limit: {
    operator: ">=" | ">" | "<";
    value: number;
    below: number | null;
    unit: string;
    printed: string;
  } | null;
  says: string;
}

/** A finding without a size: what is missing, or why the rule does not ask. */
export function findingWithoutSize(
  outcome: Outcome,
  reason: string,
  missing: string[] = [],
): Finding {
  return { outcome, about: null, used: [], value: null, spansLimit: false, missing, reason };
}

/** Joins a rule's own words and source to what was found. */
export function assessmentOf(rule: Rule, finding: Finding): Assessment {
  const { id, title, source, recommendation, check, says } = rule;
  return {
    rule: id,
    title,
    source: { ...source, doi: source.doi ?? null },
    recommendation,
    confirmed: isConfirmed(rule),
    checkedAgainst: checkedAgainst(rule),
    ...finding,
    limit: limitOf(check),
    says,
  };
}

function limitOf(check: Rule["check"]): Assessment["limit"] {
  if (check.kind === "any-size") return null;
  const { operator, value, below = null, unit, printed } = check;
  return { operator, value, below, unit, printed };
}
