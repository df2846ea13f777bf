/** A length for sentences: one decimal, with its unit. Only shown values are rounded, never compared ones. */
export function formatLength(valueMm: number): string {
  return `${valueMm.toFixed(1)} mm`;
}
