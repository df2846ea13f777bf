import { nearestWord } from "../data-file.ts";
import type { Message } from "../message.ts";
import { holds, spans } from "../quantities/limit.ts";
import type { CorrectDecision, HideDecision, RuleDecision } from "../site/rule-decisions.ts";
import { guidelineMessage } from "./messages.ts";
import { printedLimit } from "./printed-limit.ts";
import { hasLimit, type LimitCheck, type Rule, type SiteCheck } from "./rule.ts";
import { checkedAgainst, isConfirmed } from "./rule-check.ts";
import { checkText } from "./size-limit.ts";

/** A criterion that the site does not use. */
export interface HiddenRule {
  rule: Rule;
  decision: HideDecision;
}

/** The criteria as a site uses them. */
export interface RulesInForce {
  rules: Rule[];
  hidden: HiddenRule[];
  /** Decisions that can't be followed; their criteria stay as they ship. */
  messages: Message[];
}

/**
 * Follows the site's decisions: a confirmed criterion says who compared it and when, a corrected one also what it was,
 * a hidden one leaves. A decision about a criterion that does not exist, and a correction that contradicts itself, is a
 * message with its line. Rules keep their order.
 */
export function applyRuleDecisions(
  rules: readonly Rule[],
  decisions: readonly RuleDecision[],
): RulesInForce {
  const known = new Set(rules.map(({ id }) => id));
  const messages = decisions.flatMap((decision) =>
    known.has(decision.rule) ? [] : [unknownRule(decision, known)],
  );
  const decisionOf = new Map(decisions.map((decision) => [decision.rule, decision]));
  const inForce: Rule[] = [];
  const hidden: HiddenRule[] = [];
  for (const rule of rules) {
    const decision = decisionOf.get(rule.id);
    if (decision === undefined) inForce.push(rule);
    else if (decision.decision === "hide") hidden.push({ rule, decision });
    else if (decision.decision === "confirm") inForce.push(confirmedRule(rule, decision));
    else {
      const fault = correctionFault(rule, decision);
      inForce.push(fault === null ? correctedRule(rule, decision) : rule);
      if (fault !== null) messages.push(fault);
    }
  }
  return { rules: inForce, hidden, messages };
}

function unknownRule({ rule, place }: RuleDecision, known: Iterable<string>): Message {
  const nearest = nearestWord(rule, known);
  const hint = nearest === null ? "" : `; did you mean ${nearest}?`;
  return guidelineMessage("rule-decision-without-rule", place, { rule, hint });
}

type Comparison = Exclude<RuleDecision, HideDecision>;

function siteCheck(
  rule: Rule,
  { against, by, date }: Comparison,
  result: Pick<SiteCheck, "decision" | "was">,
): SiteCheck {
  const before = checkedAgainst(rule);
  return {
    how: "site",
    against: before === null ? against : `${before}; ${against}`,
    by,
    date,
    ...result,
  };
}

/** A class or level that the rule does not know stays unknown. */
const withClassConfirmed = (recommendation: Rule["recommendation"]): Rule["recommendation"] =>
  recommendation && {
    ...recommendation,
    confirmed: (recommendation.class ?? recommendation.level) !== null,
  };

function confirmedRule(rule: Rule, decision: Comparison): Rule {
  return {
    ...rule,
    recommendation: withClassConfirmed(rule.recommendation),
    checked: siteCheck(rule, decision, { decision: "confirmed", was: null }),
  };
}

/** The limit as corrected. A new value without an upper end is an open limit, whatever the rule was. */
function correctedCheck(
  { below: formerBelow, ...check }: LimitCheck,
  { operator, value, below, printed }: CorrectDecision,
): LimitCheck {
  const end = value === undefined ? (below ?? formerBelow) : below;
  return {
    ...check,
    operator: operator ?? check.operator,
    value: value ?? check.value,
    printed: printed ?? check.printed,
    ...(end === undefined ? {} : { below: end }),
  };
}

function correctionFault(rule: Rule, decision: CorrectDecision): Message | null {
  if (!hasLimit(rule) || (rule.check.operator === "<" && changesShape(decision))) {
    if (!correctsLimit(decision)) return null;
    const kept = hasLimit(rule) ? "class, level, value and printed" : "class and level";
    const data = { rule: rule.id, limit: checkText(rule.check), kept };
    return guidelineMessage("rule-correction-not-possible", decision.place, data);
  }
  const { value, unit, below, printed } = correctedCheck(rule.check, decision);
  const data = { rule: rule.id, value, unit };
  const stated = printedLimit(printed, unit);
  if (decision.printed !== undefined && (stated === null || !spans(value, value, stated))) {
    return guidelineMessage("rule-correction-not-as-printed", decision.place, { ...data, printed });
  }
  if (below !== undefined && !holds(below, ">", value)) {
    return guidelineMessage("rule-correction-empty-band", decision.place, { ...data, below });
  }
  return null;
}

function correctedRule(rule: Rule, decision: CorrectDecision): Rule {
  const check = hasLimit(rule) ? correctedCheck(rule.check, decision) : rule.check;
  return {
    ...rule,
    title: correctsLimit(decision)
      ? `${rule.title} (corrected by the site: ${checkText(check)})`
      : rule.title,
    recommendation: correctedRecommendation(rule, decision),
    check,
    checked: siteCheck(rule, decision, {
      decision: "corrected",
      was: formerWords(rule, decision),
    }),
  };
}

const correctsLimit = ({ operator, value, below }: CorrectDecision): boolean =>
  [operator, value, below].some((corrected) => corrected !== undefined);

/** A limit "<" stays one, without a band. */
const changesShape = ({ operator, below }: CorrectDecision): boolean =>
  operator !== undefined || below !== undefined;

function correctedRecommendation(
  { recommendation }: Rule,
  { class: strength, level }: CorrectDecision,
): Rule["recommendation"] {
  if (recommendation === null && strength === undefined && level === undefined) return null;
  return withClassConfirmed({
    class: strength ?? recommendation?.class ?? null,
    level: level ?? recommendation?.level ?? null,
    confirmed: true,
  });
}

/** What the correction replaces: ">= 5.5 cm from memory, class 1 from memory". */
function formerWords(rule: Rule, decision: CorrectDecision): string {
  const { recommendation, check } = rule;
  const origin = (isRecalled: boolean): string => (isRecalled ? " from memory" : "");
  const recommended = (name: "class" | "level"): string[] => {
    if (decision[name] === undefined) return [];
    const former = recommendation?.[name] ?? null;
    return [
      former === null
        ? `${name} not given`
        : `${name} ${former}${origin(recommendation?.confirmed === false)}`,
    ];
  };
  const limit = correctsLimit(decision) ? [`${checkText(check)}${origin(!isConfirmed(rule))}`] : [];
  return [...limit, ...recommended("class"), ...recommended("level")].join(", ");
}
