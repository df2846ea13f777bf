const millisecondsPerDay = 86_400_000;

/** Whole days from one date (YYYY-MM-DD) to another. */
export function daysBetween(from: string, to: string): number {
  return (Date.parse(to) - Date.parse(from)) / millisecondsPerDay;
}
