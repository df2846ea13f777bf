import { firstIndex } from "../../geometry/first-index.ts";

/** A place on the line in mm with the least and the greatest that it may be. */
export interface Spread {
  at: number;
  low: number;
  high: number;
}

/** How a section is judged: as written, and over its whole reading error. */
export type SectionState = "surely sound" | "sound" | "unsound" | "surely unsound";

/** Where a stretch may begin and how far it may go; all in the direction in which it runs. */
export interface StretchReach {
  /** Border at which the zone begins. */
  from: Spread;
  /** Border at which it ends; null where that is not known: the stretch then begins at `from` or not at all. */
  to: Spread | null;
  /** Where every stretch ends; null where that is not known: `high` then ends with the sections. */
  bound: Spread | null;
}

/** A stretch with the indices of the first and last section in it; `last` < `first` where none lies in it. */
export interface Stretch {
  startMm: number;
  endMm: number;
  first: number;
  last: number;
}

export interface StretchSamples {
  /** Along the line, growing. */
  atMm: readonly number[];
  states: readonly SectionState[];
  /**
   * Whether sections `first` to `index` can't be one stretch although those to `index` - 1 can. Of a stretch that is
   * whole every part is.
   */
  isBrokenAt: (first: number, index: number) => boolean;
}

/**
 * The longest stretch that begins in the zone. `value` runs between sections that are sound as written; `low` between
 * those that are sound over their whole reading error; `high` from and up to sections that are unsound over their
 * whole reading error, or to the borders. Null where there is none. low <= value <= high in length.
 */
export function soundStretches(
  samples: StretchSamples,
  { from, to, bound }: StretchReach,
): Record<"value" | "low" | "high", Stretch | null> {
  const { states } = samples;
  const isSound = (index: number): boolean => states[index]?.endsWith("unsound") === false;
  const isSurelySound = (index: number): boolean => states[index] === "surely sound";
  return {
    value: longestBetween(samples, isSound, {
      from: from.at,
      to: to?.at ?? from.at,
      bound: bound?.at ?? Infinity,
    }),
    low: longestBetween(samples, isSurelySound, {
      from: from.high,
      to: to?.low ?? from.high,
      bound: bound?.low ?? Infinity,
    }),
    high: longestPossible(samples, {
      from: from.low,
      to: to?.high ?? Infinity,
      bound: bound?.high ?? Infinity,
    }),
  };
}

interface Borders {
  from: number;
  to: number;
  bound: number;
}

/** A place on the far border belongs to the next zone; a zone without length is its near border. */
const isBefore = (start: number, to: number, from: number): boolean =>
  start < to || (start === from && from === to);

const longer = (one: Stretch | null, other: Stretch): Stretch =>
  one !== null && one.endMm - one.startMm >= other.endMm - other.startMm ? one : other;

/**
 * The last section of the stretch from each section on, without regard to borders: sections that are sound and not
 * broken. A stretch stays whole when it begins later, so that the ends never go back. `first` - 1 where there is none.
 */
function lastOf(
  { atMm, isBrokenAt }: StretchSamples,
  isSound: (index: number) => boolean,
  bound: number,
): (first: number) => number {
  let reached = -1;
  return (first) => {
    reached = Math.max(reached, first - 1);
    while (reached + 1 < atMm.length) {
      const next = reached + 1;
      const isPast = next > first && (atMm[next - 1] ?? 0) > bound;
      if (isPast || !isSound(next) || (next > first && isBrokenAt(first, next))) break;
      reached = next;
    }
    return reached;
  };
}

const indexFrom = (atMm: readonly number[], mm: number): number =>
  firstIndex(atMm.length, (index) => (atMm[index] ?? mm) >= mm);

/** Between sections that are sound; a border inside a gap cuts it where both its sections are. */
function longestBetween(
  samples: StretchSamples,
  isSound: (index: number) => boolean,
  { from, to, bound }: Borders,
): Stretch | null {
  const { atMm, isBrokenAt } = samples;
  const lastFrom = lastOf(samples, isSound, bound);
  let longest: Stretch | null = null;
  for (let first = indexFrom(atMm, from); first < atMm.length; first++) {
    const [before, place = from] = [atMm[first - 1], atMm[first]];
    const isCut = before !== undefined && before < from && from < place && isSound(first - 1);
    const start = isCut && !isBrokenAt(first - 1, first) ? from : place;
    if (!isBefore(start, to, from) || start > bound) break;
    if (!isSound(first)) continue;
    const reached = lastFrom(first);
    const reachedMm = atMm[reached] ?? place;
    const last = reachedMm > bound ? reached - 1 : reached;
    longest = longer(longest, { startMm: start, endMm: Math.min(reachedMm, bound), first, last });
  }
  return longest;
}

/** Between sections that surely fail, which themselves lie outside. */
function longestPossible(samples: StretchSamples, { from, to, bound }: Borders): Stretch | null {
  const { atMm, states } = samples;
  const lastFrom = lastOf(samples, (index) => states[index] !== "surely unsound", bound);
  const beyond = Number.isFinite(bound) ? bound : (atMm.at(-1) ?? from);
  let longest: Stretch | null = null;
  for (let first = indexFrom(atMm, from); first < atMm.length; first++) {
    const start = Math.max(from, atMm[first - 1] ?? from);
    if (!isBefore(start, to, from) || start > bound) break;
    const last = lastFrom(first);
    const end = Math.min(atMm[last + 1] ?? beyond, bound);
    if (end >= start) longest = longer(longest, { startMm: start, endMm: end, first, last });
  }
  return longest;
}
