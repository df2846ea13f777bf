import { sentenceCase } from "../../quantities/sentence-case.ts";
import { formatList, notConfirmed } from "../format.ts";
import {
  archConditions,
  type ArchConditionGroup,
  type ArchOutcomes,
  type ArchPlan,
  type NoteOf,
  refeedingSentences,
  sharedRows,
  wayLetter,
} from "./arch-plan-rows.ts";

type Advice = ArchPlan["advice"][number];
type Fact = ArchPlan["facts"][number];

/** Ways in a row that cover and re-feed the same branches. */
interface ArchWayGroup {
  covers: string;
  refeeding: { text: string; note: number | null }[];
  /** The letter names the way in all that follows. */
  ways: { letter: string; label: string; outcomes: ArchOutcomes[] }[];
}

interface ArchAdviceRow {
  who: string;
  text: string;
  strength: string;
  /** Against the source: "yes", "no". */
  confirmed: string;
  note: number;
}

/** What is said of all ways, each thing once. `note` numbers stand for the list of sources. */
interface ArchPlansView {
  archWays: ArchWayGroup[];
  archConditions: ArchConditionGroup[];
  /** What is unknown and stands beside no condition. */
  archUnknown: { ways: string; text: string }[];
  archQuestions: { ways: string; text: string; raisedBy: string; answeredBy: string }[];
  archAdvice: { ways: string; rows: ArchAdviceRow[] }[];
  archPublished: { ways: string; facts: { text: string; note: number }[] }[];
  archPlanPatientFacts: { text: string; source: string }[];
  /** Why branches may not be known. */
  archPlanAssumptions: string[];
  archPlanSources: { note: number; text: string }[];
}

function coversWords({ proximalZone, covers, coversUnknown }: ArchPlan): string {
  if (proximalZone === null) return "no branch by a fabric that lands in the arch";
  const known = formatList(covers) || "no arch branch";
  return coversUnknown === null ? known : `${known}, as far as the arch is known (see above)`;
}

function wayGroups(
  plans: readonly ArchPlan[],
  noteOf: NoteOf,
): (Omit<ArchWayGroup, "ways"> & { places: number[] })[] {
  const keyOf = (plan: ArchPlan) => JSON.stringify([coversWords(plan), plan.refeeding]);
  const starts = plans.flatMap((plan, place) => {
    const before = plans[place - 1];
    return before && keyOf(before) === keyOf(plan) ? [] : [place];
  });
  return starts.flatMap((start, index) => {
    const own = plans.slice(start, starts[index + 1]);
    return own.slice(0, 1).map((first) => ({
      covers: sentenceCase(coversWords(first)),
      refeeding: refeedingSentences(first.refeeding, noteOf),
      places: own.map((_, offset) => start + offset),
    }));
  });
}

/** A source that says so itself needs no second word. */
const saysSo = /recalled|without a source/;

function factWords({ text, confirmed, source }: Fact): string {
  return confirmed || saysSo.test(source) ? text : `${text} (${notConfirmed})`;
}

const adviceRow = (advice: Advice, noteOf: NoteOf): ArchAdviceRow => ({
  who: `${advice.body} ${advice.year}`,
  text: advice.text,
  strength: advice.strength ?? "not shown",
  confirmed: advice.confirmed ? "yes" : "no",
  note: noteOf(advice.source),
});

/** Rows that stand beside the same ways together. */
function byWays<Row>(rows: readonly { row: Row; ways: string }[]): { ways: string; rows: Row[] }[] {
  return [...Map.groupBy(rows, ({ ways }) => ways)].map(([ways, held]) => ({
    ways,
    rows: held.map(({ row }) => row),
  }));
}

/** What no condition names as missing. */
const unknownBeside = ({ missing, requirements }: ArchPlan): string[] => {
  const named = new Set(requirements.flatMap((requirement) => requirement.missing));
  return missing.filter((item) => !named.has(item));
};

/** The plans in the order given, which says nothing of merit. */
export function archPlansView(plans: readonly ArchPlan[]): ArchPlansView {
  const notes = new Map<string, number>();
  const noteOf = (source: string): number => {
    const note = notes.get(source) ?? notes.size + 1;
    notes.set(source, note);
    return note;
  };
  const ways = wayGroups(plans, noteOf);
  const { groups, outcomesOf } = archConditions(plans, noteOf);
  const archAdvice = byWays(sharedRows(plans, ({ advice }) => advice)).map((group) => ({
    ways: group.ways,
    rows: group.rows.map((row) => adviceRow(row, noteOf)),
  }));
  const published = byWays(
    sharedRows(plans, ({ facts }) => facts.filter(({ of }) => of === "publication")),
  );
  const archPublished = published.map((group) => ({
    ways: group.ways,
    facts: group.rows.map((fact) => ({ text: factWords(fact), note: noteOf(fact.source) })),
  }));
  return {
    archWays: ways.map(({ covers, refeeding, places }) => ({
      covers,
      refeeding: refeeding.map((line, index) => ({ ...line, lead: index === 0 ? "Re-fed: " : "" })),
      ways: places.flatMap((place) =>
        plans.slice(place, place + 1).map((plan) => ({
          letter: wayLetter(place),
          label: sentenceCase(plan.label),
          outcomes: outcomesOf(plan),
        })),
      ),
    })),
    archConditions: groups,
    archUnknown: sharedRows(plans, unknownBeside).map(({ row, ways }) => ({ ways, text: row })),
    archQuestions: sharedRows(plans, ({ questions }) => questions).map(({ row, ways }) => ({
      ways,
      text: row.text,
      raisedBy: row.raisedBy.replace(/\.$/, ""),
      answeredBy: row.answeredBy,
    })),
    archAdvice,
    archPublished,
    archPlanPatientFacts: (plans[0]?.facts ?? [])
      .filter(({ of }) => of === "patient")
      .map(({ text, source }) => ({ text, source })),
    archPlanAssumptions: [...new Set(plans.flatMap(({ coversUnknown }) => coversUnknown ?? []))],
    archPlanSources: [...notes].map(([text, note]) => ({ note, text })),
  };
}
