import type { Exam, Finding } from "../cases/patient-case.ts";
import { type FindingId, findingStates } from "../cases/vocabulary.ts";

type StateOf<Id extends FindingId> = (typeof findingStates)[Id][number];

/** What the last exam that speaks of a finding at a place says. */
export interface LatestFinding<Id extends FindingId = FindingId> {
  /** Null where no exam speaks of it, and where the last one that does states several. */
  state: StateOf<Id> | null;
  /** All states of that exam. */
  states: StateOf<Id>[];
  /** YYYY-MM-DD; null where no exam speaks of it. */
  date: string | null;
  /** Keys of findings. */
  used: string[];
}

/** As much of a case as it takes to look a finding up; exams by imaging date, earliest first. */
interface FindingsOfCase {
  exams: readonly Pick<Exam, "key" | "imagingDate">[];
  findings: readonly (Pick<Finding, "key" | "exam" | "finding" | "state"> & {
    place: { id: string };
  })[];
}

/** A finding at one place (an id of places.yaml) by the last exam up to `asOf` (YYYY-MM-DD) that states it. */
export function latestFinding<Id extends FindingId>(
  { exams, findings }: FindingsOfCase,
  asOf: string,
  finding: Id,
  placeId: string,
): LatestFinding<Id> {
  const own = findings.filter((one) => one.finding === finding && one.place.id === placeId);
  const last = exams.findLast(
    ({ key, imagingDate }) => imagingDate <= asOf && own.some(({ exam }) => exam === key),
  );
  const stated = own.filter(({ exam }) => exam === last?.key);
  const known = findingStates[finding] as readonly StateOf<Id>[];
  const states = known.filter((one) => stated.some(({ state }) => state === one));
  return {
    state: states.length === 1 ? (states[0] ?? null) : null,
    states,
    date: last?.imagingDate ?? null,
    used: stated.map(({ key }) => key),
  };
}

/** For a cell: "patent, 2026-01-12"; "not stated"; "patent or occluded: readers differ, 2026-01-12". */
export function findingWords({ state, states, date }: LatestFinding): string {
  if (state !== null) return `${state}, ${date}`;
  return states.length === 0 ? "not stated" : `${states.join(" or ")}: readers differ, ${date}`;
}

/** Within a sentence: "patent on 2026-01-12"; "not stated"; "patent or occluded on 2026-01-12 (readers differ)". */
export function findingPhrase({ states, date }: LatestFinding): string {
  if (states.length === 0) return "not stated";
  const differ = states.length > 1 ? " (readers differ)" : "";
  return `${states.join(" or ")} on ${date}${differ}`;
}

/** What would have to be known of a finding that has no one state. */
export const findingNeeded = (what: string, { states }: LatestFinding): string =>
  states.length > 1 ? `${what} (readers differ)` : what;
