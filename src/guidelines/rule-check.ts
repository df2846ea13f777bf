import type { Rule } from "./rule.ts";

/** True where someone compared the limit with its source; false where it is recalled. */
export function isConfirmed({ checked }: Pick<Rule, "checked">): boolean {
  return checked.how !== "from-memory";
}

/**
 * What the limit was compared with, and where the site did it: by which role, when, and what stood there before a
 * correction. Null for a limit from memory.
 */
export function checkedAgainst({ checked }: Pick<Rule, "checked">): string | null {
  if (checked.how === "from-memory") return null;
  if (checked.how === "seen") return checked.against;
  const { against, decision, by, date, was } = checked;
  const before = was === null ? "" : ` (was ${was})`;
  return `${against}, ${decision} by ${by} on ${date}${before}`;
}
