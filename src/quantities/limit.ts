/** Comparison signs as sources print them. */
export type Operator = ">=" | ">" | "<=" | "<";

const relativeTolerance = 1e-9;

/**
 * Compares a value with a limit as printed. Values closer than 1e-9 relative count as equal, so that
 * (33 / 30 - 1) * 100, a little over 10 in binary, is 10.
 */
export function holds(value: number, operator: Operator, limit: number): boolean {
  const tolerance = relativeTolerance * Math.max(Math.abs(value), Math.abs(limit));
  const isEqual = Math.abs(value - limit) <= tolerance;
  if (operator === ">=") return isEqual || value > limit;
  if (operator === "<=") return isEqual || value < limit;
  return !isEqual && (operator === ">" ? value > limit : value < limit);
}

/** True where the interval from low to high holds the limit, its ends included. */
export function spans(low: number, high: number, limit: number): boolean {
  return holds(low, "<=", limit) && holds(high, ">=", limit);
}
