import type { Outcome } from "../../guidelines/rule.ts";
import { sentenceCase } from "../../quantities/sentence-case.ts";
import { formatValue } from "../format.ts";
import { outcomeMark, type OutcomeMark } from "../outcome-mark.ts";

/** What the matrix needs of a condition laid beside numbers. */
export interface GlanceCheck {
  id: string;
  label: string;
  outcome: Outcome;
  value: { value: number; unit: string } | null;
  spansLimit: boolean;
  /** Where its limit comes from; tells conditions of the same words apart. */
  source: string;
}

/** One column: a candidate zone with all that is judged of it, by group. */
export interface GlanceColumn {
  heading: string;
  /** Why the zone has no meaning in this arch; null where it has one. */
  stopped: string | null;
  groups: { title: string; checks: readonly GlanceCheck[] }[];
}

/** One cell: its mark, its word, and the value judged. Null where the condition is none of this zone. */
export type GlanceCell = { mark: OutcomeMark; value: string } | null;

export interface GlanceView {
  columns: string[];
  groups: { title: string; rows: { label: string; cells: GlanceCell[] }[] }[];
}

const words: Record<Outcome, string> = {
  met: "holds",
  "not-met": "fails",
  "not-assessable": "unknown",
  "not-applicable": "not for this",
  "rule-failed": "failed",
};

/**
 * All conditions of all zones in one table: a row for each condition, a column for each zone, in the order in which
 * they come. Nothing is summed up and no zone goes before another.
 */
export function glanceView(columns: readonly GlanceColumn[]): GlanceView {
  const titles = [...new Set(columns.flatMap(({ groups }) => groups.map(({ title }) => title)))];
  const groups = titles.map((title) => {
    const lists = columns.map(
      (column) => column.groups.find((group) => group.title === title)?.checks ?? [],
    );
    const conditions = [...new Map(lists.flat().map((check) => [check.id, check])).values()];
    return {
      title,
      rows: conditions.map(({ id, label, source }) => ({
        label: sentenceCase(
          conditions.filter((other) => other.label === label).length > 1
            ? `${label} (${source.split(/[,:(]/)[0]?.trim()})`
            : label,
        ),
        cells: columns.map(({ stopped }, index) => {
          const check = lists[index]?.find((one) => one.id === id);
          return check ? cell(check) : stopped === null ? null : unknownCell;
        }),
      })),
    };
  });
  return { columns: columns.map(({ heading }) => heading), groups };
}

function cell({ outcome, value, spansLimit }: GlanceCheck): GlanceCell {
  const reach = spansLimit ? " ±" : "";
  return {
    mark: { ...outcomeMark(outcome), word: words[outcome] },
    value: value === null ? "" : `${formatValue(value.value, value.unit)}${reach}`,
  };
}

const unknownCell: GlanceCell = {
  mark: { ...outcomeMark("not-assessable"), word: words["not-assessable"] },
  value: "",
};
