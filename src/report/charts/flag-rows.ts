/** A name that stands to the right of an upright line: where the line is, and where the name ends, in points. */
export interface Flag {
  at: number;
  until: number;
}

/**
 * The row of each name, 0 the lowest, so that no name covers another and no line, which runs down from its own name,
 * crosses one: a name that reaches over lines further right stands above the names of all of them.
 */
export function flagRows(flags: readonly Flag[]): number[] {
  const rows: number[] = flags.map(() => 0);
  const fromRight = flags
    .map((flag, index) => ({ ...flag, index }))
    .toSorted((one, other) => other.at - one.at || other.index - one.index);
  for (const [order, { until, index }] of fromRight.entries()) {
    const reached = fromRight.slice(0, order).filter(({ at }) => at < until);
    rows[index] = Math.max(-1, ...reached.map((other) => rows[other.index] ?? 0)) + 1;
  }
  return rows;
}
