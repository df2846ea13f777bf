import { sentenceCase } from "../../quantities/sentence-case.ts";
import { formatError, formatList } from "../format.ts";
import { outcomeMark, type OutcomeMark } from "../outcome-mark.ts";
import type { Plan } from "../plan.ts";

export type ArchPlan = Plan["archPlans"][number];
type Requirement = ArchPlan["requirements"][number];
export type NoteOf = (source: string) => number;

/** Something that stands beside several ways, said once. */
interface Shared<Row> {
  row: Row;
  /** "C to G", "A, D". */
  ways: string;
}

/** Conditions that came out alike. */
export interface ArchConditionGroup {
  mark: OutcomeMark;
  rows: ArchConditionRow[];
}

/** A condition that ways ask for; the same outcome on the same grounds stands once. */
interface ArchConditionRow {
  number: number;
  label: string;
  note: number;
  /** What was found, with its unit and error; what is unknown. */
  found: string;
  ways: string;
}

/** Letters of the ways by their places in the order: runs of three or more as "C to G". */
function waysWords(places: readonly number[]): string {
  const runs: number[][] = [];
  for (const place of places) {
    const run = runs.at(-1);
    if (run?.at(-1) === place - 1) run.push(place);
    else runs.push([place]);
  }
  return runs
    .flatMap((run) => {
      const letters = run.map(wayLetter);
      return letters.length < 3 ? letters : [`${letters[0]} to ${letters.at(-1)}`];
    })
    .join(", ");
}

/** A for the first way. */
export function wayLetter(place: number): string {
  return String.fromCodePoint("A".charCodeAt(0) + place);
}

/** Each different row once, in the order of first standing, with the ways that it stands beside. */
export function sharedRows<Row>(
  plans: readonly ArchPlan[],
  rowsOf: (plan: ArchPlan) => readonly Row[],
): Shared<Row>[] {
  const found = new Map<string, { row: Row; places: Set<number> }>();
  plans.forEach((plan, place) => {
    for (const row of rowsOf(plan)) {
      const key = JSON.stringify(row);
      const held = found.get(key) ?? { row, places: new Set() };
      found.set(key, held);
      held.places.add(place);
    }
  });
  return [...found.values()].map(({ row, places }) => ({ row, ways: waysWords([...places]) }));
}

const outcomeOrder = ["not-met", "rule-failed", "not-assessable", "met", "not-applicable"] as const;

/** What the page says of a requirement; the limit stands in the label. */
const printedOf = ({
  label,
  outcome,
  reason,
  value,
  spansLimit,
  source,
  missing,
}: Requirement) => ({
  label,
  outcome,
  reason,
  value,
  spansLimit,
  source,
  missing,
});

/** Words that tell no more than the list of what is missing. */
const saysOnlyMissing = (reason: string): boolean =>
  reason.split("; ").every((part) => /^(nothing is stated|not marked)|not stated\.?$/i.test(part));

function foundWords({ reason, value, spansLimit, missing }: ReturnType<typeof printedOf>): string {
  const error = value === null ? "" : formatError(value, value.unit);
  const said = reason.toLowerCase();
  const unsaid = missing.filter((item) => !said.includes(item.toLowerCase()));
  const unknown = unsaid.length === 0 ? "" : `Unknown: ${unsaid.join("; ")}.`;
  if (unknown !== "" && saysOnlyMissing(reason)) return `Unknown: ${missing.join("; ")}.`;
  return [
    error === "" ? reason : `${reason.replace(/\.$/, "")} ${error}.`,
    spansLimit ? "The interval holds the limit." : "",
    unknown,
  ]
    .filter(Boolean)
    .join(" ");
}

/** The conditions of all ways by outcome, those not met first, and the numbers of those of one way. */
export function archConditions(
  plans: readonly ArchPlan[],
  noteOf: NoteOf,
): { groups: ArchConditionGroup[]; outcomesOf: (plan: ArchPlan) => ArchOutcomes[] } {
  const shared = sharedRows(plans, ({ requirements }) => requirements.map(printedOf));
  const numbers = new Map<string, number>();
  const groups = outcomeOrder.flatMap((outcome) => {
    const rows = shared
      .filter(({ row }) => row.outcome === outcome)
      .map(({ row, ways }) => {
        const number = numbers.size + 1;
        numbers.set(JSON.stringify(row), number);
        const note = noteOf(row.source);
        return { number, label: sentenceCase(row.label), note, found: foundWords(row), ways };
      });
    return rows.length === 0 ? [] : [{ mark: outcomeMark(outcome), rows }];
  });
  const outcomesOf = ({ requirements }: ArchPlan): ArchOutcomes[] =>
    outcomeOrder.flatMap((outcome) => {
      const named = requirements
        .filter((requirement) => requirement.outcome === outcome)
        .flatMap((requirement) => numbers.get(JSON.stringify(printedOf(requirement))) ?? []);
      const sorted = named.toSorted((a, b) => a - b).join(", ");
      return named.length === 0 ? [] : [{ mark: outcomeMark(outcome), numbers: sorted }];
    });
  return { groups, outcomesOf };
}

/** The conditions of one way that came out alike, by their numbers. */
export interface ArchOutcomes {
  mark: OutcomeMark;
  numbers: string;
}

/** Branches that are re-fed in the same manner in one sentence; a source in brackets at the end becomes a number. */
export function refeedingSentences(
  lines: readonly string[],
  noteOf: NoteOf,
): { text: string; note: number | null }[] {
  const parsed = lines.map((line) => {
    const [, text = line, source = null] = /^(.*) \(([^()]*)\)$/.exec(line) ?? [];
    const comma = text.indexOf(", ");
    return comma < 0
      ? { branch: text, how: "", source }
      : { branch: text.slice(0, comma), how: text.slice(comma), source };
  });
  const alike = Map.groupBy(parsed, ({ branch, how, source }) =>
    how === "" ? branch : `${how}\n${source}`,
  );
  return [...alike.values()].map((rows) => ({
    text: sentenceCase(`${formatList(rows.map(({ branch }) => branch))}${rows[0]?.how ?? ""}`),
    note: rows[0]?.source ? noteOf(rows[0].source) : null,
  }));
}
