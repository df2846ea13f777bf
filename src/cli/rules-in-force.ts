import { applyRuleDecisions, type RulesInForce } from "../guidelines/apply-rule-decisions.ts";
import { loadRules } from "../guidelines/load-rules.ts";
import { formatPlace } from "../message.ts";
import type { SiteConfig } from "../site/site-config.ts";
import { CannotStart } from "./verb.ts";

/** The criteria as the site uses them. A decision that can't be followed is told with its line. */
export function rulesInForce({ rules: decisions }: SiteConfig): Omit<RulesInForce, "messages"> {
  const { messages, ...inForce } = applyRuleDecisions(loadRules(), decisions);
  if (messages.length === 0) return inForce;
  const lines = messages.map(
    ({ place, text }) => `  ${place ? `${formatPlace(place)}: ` : ""}${text}`,
  );
  throw new CannotStart(`the site file can't be used:\n${lines.join("\n")}`);
}
