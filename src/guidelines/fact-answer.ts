import { aneurysms } from "../cases/vocabulary.ts";

/**
 * What one fact of a case says of a population: `excludes` with the reason, or `missing` with the names of what would
 * have to be known; null where it fits or is not asked.
 */
export type FactAnswer = { excludes: string } | { missing: string[] } | null;

/** Whether one of the wanted words of a fact is stated; `stated` null: nothing is stated. */
export function anyOf(
  fact: string,
  wanted: readonly string[] | undefined,
  stated: readonly string[] | null,
): FactAnswer {
  if (wanted === undefined) return null;
  if (stated === null) return { missing: [fact] };
  if (wanted.some((word) => stated.includes(word))) return null;
  return { excludes: `it asks for ${fact} ${wanted.join(" or ")}, stated is ${listed(stated)}` };
}

/** The same for a diagnosis. A bare "aneurysm" may be the one asked for: where it is then is missing. */
export function anyDiagnosisOf(
  wanted: readonly string[] | undefined,
  stated: readonly string[] | null,
): FactAnswer {
  const answer = anyOf("diagnosis", wanted, stated);
  const isOpen = stated?.includes("aneurysm") && wanted?.some((word) => aneurysms.has(word));
  return answer !== null && isOpen
    ? { missing: ["which part of the aorta the aneurysm is in"] }
    : answer;
}

/** "none", or the words with commas. */
export const listed = (words: readonly string[]): string =>
  words.length === 0 ? "none" : words.join(", ");
