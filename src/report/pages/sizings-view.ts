import { formatList, notConfirmed } from "../format.ts";
import type { Plan } from "../plan.ts";
import { endRows, sharedSituation, sizedEnds, type SizedEndRow } from "./sizing-ends-view.ts";
import { alarmLines, type InventoryTable, inventoryTables } from "./sizing-inventory-view.ts";
import {
  overlapLines,
  pairViews,
  type SizingPairView,
  straightLimits,
} from "./sizing-pairs-view.ts";
import { numberedWindows, windowsView, type WindowsView } from "./sizing-windows-view.ts";
import { type TrueLumenView, trueLumenView } from "./true-lumen-view.ts";

type Sizings = Plan["sizings"];
type Question = Sizings[number]["sizing"]["questions"][number];

/** The sizing of all pairs of zones: what several share stands once. */
export interface SizingsView extends WindowsView {
  /** Why there is nothing below; null where there is. */
  sizingNone: string | null;
  /** What all ends lie in; null where they differ. */
  sizingSituation: string | null;
  sizingEnds: SizedEndRow[];
  /** Why there is no table of the inventory; null where there is one. */
  sizingNoInventory: string | null;
  sizingInventory: InventoryTable[];
  sizingPairs: SizingPairView[];
  /** Proximal zones without a distal end; null where there is none. */
  sizingAlone: string | null;
  /** Ratios of vessel diameters; empty where no taper is computed. */
  sizingStraight: string;
  /** Overlaps with their sources; empty where no pieces are counted. */
  sizingOverlaps: string;
  sizingTrueLumen: TrueLumenView | null;
  sizingAlarms: string[];
  sizingFacts: string[];
  sizingQuestions: Question[];
  sizingUnknown: string;
}

/** One section for all sizings of a plan. The order is that of the zones and of the inventory, and ranks nothing. */
export function sizingsView({ sizings }: Pick<Plan, "sizings">): SizingsView {
  const ends = sizedEnds(sizings);
  const windows = numberedWindows(ends);
  return {
    sizingNone:
      sizings.length === 0
        ? "No end could be sized: no candidate zone has sizes where a proximal end would lie."
        : null,
    sizingSituation: sharedSituation(ends),
    sizingEnds: endRows(ends),
    ...windowsView(ends),
    sizingNoInventory: noInventory(sizings),
    sizingInventory: inventoryTables(ends, windows),
    sizingPairs: pairViews(sizings, windows),
    sizingAlone: aloneWords(sizings),
    sizingStraight: straightLimits(sizings, windows).join("; "),
    sizingOverlaps: overlapLines(sizings).join("; "),
    sizingTrueLumen: trueLumenView(sizings),
    sizingAlarms: alarmLines(ends),
    sizingFacts: factLines(sizings),
    sizingQuestions: questionsOf(sizings),
    sizingUnknown: unknownOf(sizings),
  };
}

function noInventory([first]: Sizings): string | null {
  if (!first) return null;
  const { inventory } = first.sizing;
  if (inventory === null) return "The site names no inventory: no row was tested.";
  return inventory.rows.length === 0 ? "The inventory has no row." : null;
}

function aloneWords(sizings: Sizings): string | null {
  const zones = sizings.filter(({ toZone }) => toZone === null).map(({ fromZone }) => fromZone);
  if (zones.length === 0) return null;
  return `Without a distal end, sized at the proximal end alone: zone ${formatList(zones)}.`;
}

function factLines(sizings: Sizings): string[] {
  const facts = sizings.flatMap(({ sizing }) => [
    ...sizing.facts,
    ...(sizing.trueLumen?.facts ?? []),
  ]);
  const said = facts.map(
    ({ text, source, confirmed }) => `${text} (${source}${confirmed ? "" : `; ${notConfirmed}`})`,
  );
  return [...new Set(said)];
}

/** Each question once, with everything that raises it. */
function questionsOf(sizings: Sizings): Question[] {
  const questions = sizings.flatMap(({ sizing }) => sizing.questions);
  const alike = Map.groupBy(questions, ({ text, answeredBy }) => `${text}\n${answeredBy}`);
  return [...alike.values()].flatMap((same) => {
    const [first] = same;
    if (!first) return [];
    const raisedBy = [...new Set(same.map((question) => question.raisedBy))].join("; ");
    return [{ ...first, raisedBy }];
  });
}

/** Each missing thing once, with the pairs that it is missing for where it is not all. */
function unknownOf(sizings: Sizings): string {
  const missing = [...new Set(sizings.flatMap(({ sizing }) => sizing.missing))];
  const said = missing.map((what) => {
    const of = sizings.filter(({ sizing }) => sizing.missing.includes(what));
    return of.length === sizings.length ? what : `${what} [${pairsWords(of, sizings)}]`;
  });
  return said.length === 0 ? "nothing" : said.join("; ");
}

/** "from zone 2" where it is all pairs of that zone, "to zone 5" likewise, else "zone 2 to 5, zone 3 alone". */
function pairsWords(some: Sizings, all: Sizings): string {
  for (const [key, word] of [
    ["fromZone", "from"],
    ["toZone", "to"],
  ] as const) {
    const zones = [...new Set(some.map((one) => one[key]))].filter((zone) => zone !== null);
    const whole = all.filter((one) => zones.some((zone) => zone === one[key]));
    if (whole.length === some.length) return `${word} zone ${formatList(zones)}`;
  }
  return some
    .map(({ fromZone, toZone }) =>
      toZone === null ? `zone ${fromZone} alone` : `zone ${fromZone} to ${toZone}`,
    )
    .join(", ");
}
