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
