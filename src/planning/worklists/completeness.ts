import {
  type MeasuredCase,
  type Progress,
  progressReader,
  type WorklistBasis,
} from "./what-is-measured.ts";
import { calculatorLabel, type Procedure, type WorkItem } from "./worklists.ts";

/** Something that is not measured or not stated, and what waits for it. */
export interface Missing {
  what: string;
  decides: string[];
}

/** A result and what it lacks. `isNear` says that everything else it needs is there. */
export interface WaitingResult {
  name: string;
  missing: readonly string[];
  isNear: boolean;
}

/**
 * Collects what is missing over all results. First comes what a result waits for that has its size already,
 * then what most results wait for. Equal ones keep the order in which they were met.
 */
export function missingOf(results: readonly WaitingResult[]): Missing[] {
  const waiting = new Map<string, { names: Set<string>; near: number }>();
  for (const { name, missing, isNear } of results) {
    for (const what of missing) {
      const entry = waiting.get(what) ?? { names: new Set(), near: 0 };
      entry.names.add(name);
      if (isNear) entry.near += 1;
      waiting.set(what, entry);
    }
  }
  return [...waiting]
    .toSorted(([, a], [, b]) => b.near - a.near || b.names.size - a.names.size)
    .map(([what, { names }]) => ({ what, decides: [...names] }));
}

/** One item of a worklist with how far it is done for one patient. */
interface WorklistItem extends Progress {
  item: WorkItem;
  /** The whole item in words: "largest diameter, inner edge: zone 2". */
  what: string;
  /** Labels of the calculators of this procedure that can't do without it. */
  why: string[];
}

/** An item that is not measured or out of date, with what it holds up. */
export interface MissingItem extends WorklistItem {
  /** Checks that can't be judged without it. */
  opens: number;
  /** Those of them that lack nothing else. */
  opensAlone: number;
}

/** What one procedure needs of one patient. */
export interface Worklist {
  procedure: string;
  label: string;
  /** In the order of the worklist. */
  items: WorklistItem[];
  /** What would change most first. */
  missing: MissingItem[];
}

/** Checks of a procedure that are not assessable, by the id of their calculator. */
type OpenChecks = Readonly<Record<string, number>>;

const noOpenChecks = (): OpenChecks => ({});

/** What worklists stand on besides the case. */
interface CompletenessBasis extends WorklistBasis {
  /** A calculator that it does not name counts as one check. */
  openChecksOf?: (procedure: string) => OpenChecks;
}

/** What one procedure needs measured of a patient. */
export const worklistOf = (
  procedure: Procedure,
  measured: MeasuredCase,
  { openChecksOf = noOpenChecks, ...basis }: CompletenessBasis,
): Worklist =>
  worklistBy(procedure, {
    progressOf: progressReader(measured, basis),
    openChecks: openChecksOf(procedure.id),
  });

/** The same of several procedures, in the order given; what they share is looked up once. */
export function worklistsOf(
  asked: readonly Procedure[],
  measured: MeasuredCase,
  { openChecksOf = noOpenChecks, ...basis }: CompletenessBasis,
): Worklist[] {
  const progressOf = progressReader(measured, basis);
  return asked.map((procedure) =>
    worklistBy(procedure, { progressOf, openChecks: openChecksOf(procedure.id) }),
  );
}

/**
 * What one procedure needs measured. A calculator waits as long as one of the items that it can't do without is
 * missing: neither measured nor superfluous, or out of date. It stands for as many checks as `openChecks` says, and for
 * one where that says nothing. The missing items are in this order: first by the number of checks of those calculators
 * that lack this item and nothing else; then by the number of checks of all calculators that lack it; equal ones in the
 * order of the worklist.
 */
function worklistBy(
  { id, label, items: asked }: Procedure,
  { progressOf, openChecks }: { progressOf: (item: WorkItem) => Progress; openChecks: OpenChecks },
): Worklist {
  const own = asked.map((item) => ({ item, progress: progressOf(item) }));
  const done = new Set(
    own.flatMap(({ item, progress }) => (progress.state === "measured" ? [item.id] : [])),
  );
  const items = own.map(({ item, progress }): WorklistItem => ({
    ...(isSuperfluous(item, progress, done) ? superfluous(item) : progress),
    item,
    what: `${item.asked}: ${item.where}`,
    why: item.decides.map(calculatorLabel),
  }));
  const lacking = items.filter(({ state }) => state === "not measured" || state === "out of date");
  const lackedBy = Map.groupBy(
    lacking.flatMap(({ item }) => item.decides),
    (calculator) => calculator,
  );
  const checksOf = (calculators: readonly string[]): number =>
    calculators.reduce((sum, calculator) => sum + (openChecks[calculator] ?? 1), 0);
  const missing = lacking.map((entry): MissingItem => ({
    ...entry,
    opens: checksOf(entry.item.decides),
    opensAlone: checksOf(
      entry.item.decides.filter((calculator) => lackedBy.get(calculator)?.length === 1),
    ),
  }));
  return {
    procedure: id,
    label,
    items,
    missing: missing.toSorted((a, b) => b.opensAlone - a.opensAlone || b.opens - a.opens),
  };
}

/** What stations show better need not be written for a whole zone; where it is written, it counts as measured. */
const isSuperfluous = ({ unless }: WorkItem, { state }: Progress, done: ReadonlySet<string>) =>
  state !== "measured" && unless.length > 0 && unless.every((id) => done.has(id));

const superfluous = ({ unless }: WorkItem): Progress => ({
  state: "not needed here",
  date: null,
  used: [],
  lacks: `measured at stations: ${unless.join("; ")}`,
});
