import type { AorticPlace } from "./places.ts";

/**
 * Whether two names of a place can mean one place: the same one, a range and a part of it, or two ranges that overlap.
 * Used where a report names the place twice in different ways.
 */
export function canBeSamePlace(one: AorticPlace, other: AorticPlace): boolean {
  if (one.id === other.id) return true;
  if (one.kind === "branch" || other.kind === "branch") return false;
  if (!one.span && !other.span) return false;
  if (one.region !== null && one.region === other.region) return true;
  const [start, end] = one.span ?? [one.position, one.position];
  const [otherStart, otherEnd] = other.span ?? [other.position, other.position];
  if (one.span && other.span) return start < otherEnd && otherStart < end;
  return start <= otherEnd && otherStart <= end;
}
