import { loadRules, rulesDigest } from "../../guidelines/load-rules.ts";
import type { Rule } from "../../guidelines/rule.ts";
import { CannotStart, type Terminal, type Verb } from "../verb.ts";

/** The criteria in force, those that no one has confirmed first. */
export const rules: Verb = {
  name: "rules",
  describe: "the published criteria in force, with their sources",
  positionals: [{ name: "id", describe: "one criterion in full", required: false }],
  options: {},
  example: "aortic-packet rules",
  run: async (args, terminal) => {
    const all = loadRules();
    const id = args.optionalText("id");
    if (id === null) {
      if (args.json) terminal.print(JSON.stringify(all, null, 2));
      else printList(all, terminal);
      return 0;
    }
    const rule = all.find((one) => one.id === id);
    if (!rule) throw new CannotStart(`no criterion ${id}; "aortic-packet rules" lists them`);
    if (args.json) terminal.print(JSON.stringify(rule, null, 2));
    else printOne(rule, terminal);
    return 0;
  },
};

function printList(all: readonly Rule[], terminal: Terminal): void {
  const unconfirmed = all.filter(({ checked }) => checked.how === "from-memory");
  const confirmed = all.filter(({ checked }) => checked.how === "seen");
  terminal.print(`${all.length} criteria, digest ${rulesDigest(all)}`);
  terminal.print(`\nnot confirmed against the source (${unconfirmed.length}):`);
  for (const rule of unconfirmed) terminal.print(line(rule));
  terminal.print(`\nconfirmed against the source (${confirmed.length}):`);
  for (const rule of confirmed) terminal.print(line(rule));
}

const line = ({ id, source, check }: Rule): string =>
  `  ${id}: ${check.operator} ${check.printed} (${source.body} ${source.year}, ${source.where})`;

function printOne(rule: Rule, terminal: Terminal): void {
  const { source, recommendation, check, checked, says } = rule;
  terminal.print(rule.title);
  terminal.print(
    `source: ${source.body} ${source.year}, ${source.where}${source.doi ? `, doi ${source.doi}` : ""}`,
  );
  if (recommendation) {
    const { class: strength, level, confirmed } = recommendation;
    const mark = confirmed ? "" : " (not confirmed against the source)";
    terminal.print(`class ${strength ?? "not given"}, level ${level ?? "not given"}${mark}`);
  }
  terminal.print(
    `limit: ${check.kind} ${check.operator} ${check.value} ${check.unit}, printed as ${check.printed}`,
  );
  terminal.print(`population: ${JSON.stringify(rule.population)}`);
  terminal.print(`says: ${says}`);
  terminal.print(
    checked.how === "seen"
      ? `checked against: ${checked.against}`
      : "from memory: not confirmed against the source",
  );
}
