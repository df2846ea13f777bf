import { sentenceCase } from "../../quantities/sentence-case.ts";
import type { PlanWorklist } from "../worklist-schema.ts";
import { examOf, itemsWords, placesWords, stateWords } from "./worklist-words.ts";

type MissingRow = PlanWorklist["missing"][number];

/** What the procedures lack, for a page: one table over all of them. */
export interface WorklistView {
  /** "Zone 2 (stent graft from zone 2): 31 of 54 items measured, 12 not needed here." */
  counts: string[];
  /** The exam that the states are of, where it is one; else null. */
  exam: string | null;
  rows: {
    what: string;
    where: string;
    state: string;
    /** Checks that wait, over the procedures. */
    opens: number;
    /** Those of them that lack nothing else. */
    opensAlone: number;
    procedures: string;
  }[];
  /** Of the items that the rows leave out, and how to print them; null where the rows hold all. */
  more: string | null;
}

/** More rows than this would bury the page; a blank sheet has them all. */
const mostRows = 12;

/** An item at a place, with all procedures that lack it. */
interface Wanted extends Pick<MissingRow, "where" | "state" | "date" | "lacks"> {
  what: string;
  opens: number;
  opensAlone: number;
  procedures: string[];
}

/** Alike items together: several things at one place, or one set of things at several places. */
interface Joined extends Omit<Wanted, "what" | "where"> {
  whats: string[];
  wheres: string[];
}

function wantedItems(worklists: readonly PlanWorklist[]): Wanted[] {
  const wanted = new Map<string, Wanted>();
  for (const { procedure, missing } of worklists) {
    for (const { what: whats, where, form, state, date, lacks, opens, opensAlone } of missing) {
      for (const what of whats) {
        const key = JSON.stringify([what, where, form, state, date, lacks]);
        const met = wanted.get(key) ?? {
          what,
          where,
          state,
          date,
          lacks,
          opens: 0,
          opensAlone: 0,
          procedures: [],
        };
        met.opens += opens;
        met.opensAlone += opensAlone;
        met.procedures.push(procedure);
        wanted.set(key, met);
      }
    }
  }
  return [...wanted.values()].toSorted((one, other) =>
    one.opensAlone === other.opensAlone
      ? other.opens - one.opens
      : other.opensAlone - one.opensAlone,
  );
}

function joinedRows(items: readonly Wanted[]): Joined[] {
  const alike = ({
    state,
    date,
    lacks,
    opens,
    opensAlone,
    procedures,
  }: Omit<Wanted, "what" | "where">) =>
    JSON.stringify([state, date, lacks, opens, opensAlone, procedures]);
  const byPlace = [...Map.groupBy(items, (one) => `${one.where} ${alike(one)}`).values()].flatMap(
    (own): Joined[] => {
      const [first] = own;
      return first ? [{ ...first, whats: own.map(({ what }) => what), wheres: [first.where] }] : [];
    },
  );
  const byThing = Map.groupBy(byPlace, (one) => JSON.stringify(one.whats) + alike(one));
  return [...byThing.values()].flatMap((own): Joined[] => {
    const [first] = own;
    return first ? [{ ...first, wheres: own.flatMap(({ wheres }) => wheres) }] : [];
  });
}

/** "zones 2, 3, 4, access", or, where that is shorter, "all but open descending". */
function procedureWords(own: readonly string[], all: readonly string[]): string {
  const others = all.filter((id) => !own.includes(id));
  if (all.length > 1 && others.length === 0) return "all";
  const [named, rest] = [listed(own), `all but ${listed(others)}`];
  return rest.length < named.length ? rest : named;
}

/** Ids of procedures, the zones together. */
function listed(own: readonly string[]): string {
  const zones = own.flatMap((id) => /^zone (.+)$/.exec(id)?.[1] ?? []);
  const rest = own.filter((id) => !id.startsWith("zone "));
  const head = zones.length === 0 ? [] : [`zone${zones.length > 1 ? "s" : ""} ${zones.join(", ")}`];
  return [...head, ...rest].join(", ");
}

function moreWords(
  left: readonly Joined[],
  worklists: readonly PlanWorklist[],
  patientId: string,
): string | null {
  const items = left.reduce((sum, { whats, wheres }) => sum + whats.length * wheres.length, 0);
  if (items === 0) return null;
  const lacking = new Set(left.flatMap(({ procedures }) => procedures));
  const ids = worklists.flatMap(({ procedure }) =>
    lacking.has(procedure) ? [`"${procedure}"`] : [],
  );
  const [first = "", ...others] = ids;
  const instead = others.length === 0 ? "" : `; likewise for ${others.join(", ")}`;
  return `${items} more items; all of one procedure on a blank sheet: aortic-packet sheet --patient "${patientId}" --for ${first}${instead}.`;
}

/** What all procedures lack, each item once; first what most checks lack as the last thing, then what most checks lack. Null where no procedure is asked for. */
export function worklistViews(
  worklists: readonly PlanWorklist[],
  patientId: string,
): WorklistView | null {
  if (worklists.length === 0) return null;
  const joined = joinedRows(wantedItems(worklists));
  const shown = joined.slice(0, mostRows);
  const exams = new Set(shown.flatMap(({ lacks }) => examOf(lacks) ?? []));
  const exam = exams.size === 1 ? ([...exams][0] ?? null) : null;
  const ids = worklists.map(({ procedure }) => procedure);
  return {
    counts: worklists.map(
      ({ procedure, label, measured, missingItems, notNeeded }) =>
        `${sentenceCase(procedure)}${label === procedure ? "" : ` (${label})`}: ${measured} of ${measured + missingItems} items measured, ${notNeeded} not needed here.`,
    ),
    exam,
    rows: shown.map((row) => ({
      what: sentenceCase(itemsWords(row.whats)),
      where: placesWords(row.wheres),
      state: stateWords(row, exam),
      opens: row.opens,
      opensAlone: row.opensAlone,
      procedures: procedureWords(row.procedures, ids),
    })),
    more: moreWords(joined.slice(mostRows), worklists, patientId),
  };
}
