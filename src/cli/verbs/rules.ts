import type { HiddenRule } from "../../guidelines/apply-rule-decisions.ts";
import { rulesDigest } from "../../guidelines/load-rules.ts";
import { loadSchedules } from "../../guidelines/load-schedules.ts";
import type { Rule } from "../../guidelines/rule.ts";
import { checkedAgainst, isConfirmed } from "../../guidelines/rule-check.ts";
import { checkText } from "../../guidelines/size-limit.ts";
import { configOption, siteConfig } from "../inputs.ts";
import { rulesInForce } from "../rules-in-force.ts";
import { CannotStart, type Terminal, type Verb } from "../verb.ts";

/** The criteria in force, those that no one has confirmed first, and those that the site hides. */
export const rules: Verb = {
  name: "rules",
  describe: "the published criteria in force, with their sources and the site's decisions",
  positionals: [{ name: "id", describe: "one criterion in full", required: false }],
  options: { config: configOption },
  example: "aortic-packet rules --config site.yaml",
  run: async (args, terminal) => {
    const { rules: inForce, hidden } = rulesInForce(siteConfig(args));
    const id = args.optionalText("id");
    if (id === null) {
      if (args.json) {
        const list = {
          digest: printedDigest(inForce),
          rules: inForce,
          hidden: hidden.map(hiddenRow),
        };
        terminal.print(JSON.stringify(list, null, 2));
      } else printList(inForce, hidden, terminal);
      return 0;
    }
    const off = hidden.find(({ rule }) => rule.id === id) ?? null;
    const rule = off?.rule ?? inForce.find((one) => one.id === id);
    if (!rule) throw new CannotStart(`no criterion ${id}; "aortic-packet rules" lists them`);
    if (args.json) {
      terminal.print(JSON.stringify(off === null ? rule : hiddenRow(off), null, 2));
    } else printOne(rule, off, terminal);
    return 0;
  },
};

/** The digest that a run with these criteria prints on its pages. */
const printedDigest = (inForce: readonly Rule[]): string =>
  rulesDigest([...inForce, ...loadSchedules()]);

/** A hidden criterion as JSON: the rule as it ships, and who hid it, when and why. */
const hiddenRow = ({ rule, decision: { by, date, reason } }: HiddenRule) => ({
  ...rule,
  hidden: { by, date, reason },
});

function printList(
  inForce: readonly Rule[],
  hidden: readonly HiddenRule[],
  terminal: Terminal,
): void {
  const groups: [string, Rule[]][] = [
    ["not confirmed against the source", inForce.filter((rule) => !isConfirmed(rule))],
    ["compared by the site", inForce.filter(({ checked }) => checked.how === "site")],
    ["confirmed against the source", inForce.filter(({ checked }) => checked.how === "seen")],
  ];
  const off = hidden.length === 0 ? "" : `, ${hidden.length} hidden by the site`;
  terminal.print(`${inForce.length} criteria${off}`);
  terminal.print(
    `digest with the surveillance schedules, as pages print it: ${printedDigest(inForce)}`,
  );
  for (const [heading, rules] of groups) {
    if (rules.length === 0) continue;
    terminal.print(`\n${heading} (${rules.length}):`);
    for (const rule of rules) terminal.print(line(rule));
  }
  if (hidden.length === 0) return;
  terminal.print(`\nhidden by the site, not evaluated (${hidden.length}):`);
  for (const one of hidden) terminal.print(`${line(one.rule)}; ${hiddenWords(one)}`);
}

function line({ id, source, check, checked }: Rule): string {
  const words = `  ${id}: ${checkText(check)} (${source.body} ${source.year}, ${source.where})`;
  if (checked.how !== "site") return words;
  const was = checked.was === null ? "" : ` (was ${checked.was})`;
  return `${words}; ${checked.decision} by ${checked.by} on ${checked.date}${was}`;
}

const hiddenWords = ({ decision: { by, date, reason } }: HiddenRule): string =>
  `hidden by ${by} on ${date}: ${reason}`;

function printOne(rule: Rule, off: HiddenRule | null, terminal: Terminal): void {
  const { source, recommendation, check, says } = rule;
  terminal.print(rule.title);
  if (off !== null) terminal.print(`${hiddenWords(off)}; it is not evaluated`);
  terminal.print(
    `source: ${source.body} ${source.year}, ${source.where}${source.doi ? `, doi ${source.doi}` : ""}`,
  );
  if (recommendation) {
    const { class: strength, level, confirmed } = recommendation;
    const mark = confirmed ? "" : " (not confirmed against the source)";
    terminal.print(`class ${strength ?? "not given"}, level ${level ?? "not given"}${mark}`);
  }
  terminal.print(`limit: ${fullLimit(check)}`);
  terminal.print(`population: ${JSON.stringify(rule.population)}`);
  terminal.print(`says: ${says}`);
  const against = checkedAgainst(rule);
  terminal.print(
    against === null
      ? "from memory: not confirmed against the source"
      : `checked against: ${against}`,
  );
}

/** "diameter >= 50 and below 55 mm, printed as 5.0 to 5.4 cm". */
function fullLimit(check: Rule["check"]): string {
  if (check.kind === "any-size") return checkText(check);
  const end = check.below === undefined ? "" : ` and below ${check.below}`;
  const period = check.periodMonths === undefined ? "" : ` in ${check.periodMonths} months`;
  return `${check.kind} ${check.operator} ${check.value}${end} ${check.unit}${period}, printed as ${check.printed}`;
}
