import type { AorticPlace } from "../anatomy/places.ts";
import type { Assessment } from "../guidelines/assessment.ts";
import { isAboveBand } from "../guidelines/size-limit.ts";

/** A diameter limit that concerns a place, and the criteria that print it. */
export interface SizeLimit {
  limitMm: number;
  /** Ids, sorted. */
  rules: string[];
  /** "ESC 2024", each once, sorted. */
  sources: string[];
}

/**
 * The diameter limits that a place may still reach, smallest first: those of the size criteria that were judged on this
 * place and are not met, or whose other conditions are not stated. Left out are criteria that are met or are not for the
 * patient, indices (their limit is no diameter), those that hold at any size or below a limit, bands whose upper end the
 * size has passed, and criteria that another place of the same part decides. `assessments` hold no growth criteria.
 */
export function sizeLimitsOfPlace(
  place: AorticPlace,
  assessments: readonly Assessment[],
): SizeLimit[] {
  const open = assessments.flatMap(({ about, outcome, limit, value, rule, source }) => {
    const mayBeReached = outcome === "not-met" || outcome === "not-assessable";
    if (about?.id !== place.id || !mayBeReached) return [];
    if (limit === null || limit.unit !== "mm" || limit.operator === "<") return [];
    if (isAboveBand(value?.value ?? 0, limit.below)) return [];
    return [{ limitMm: limit.value, rule, source: `${source.body} ${source.year}` }];
  });
  return [...Map.groupBy(open, ({ limitMm }) => limitMm)]
    .toSorted(([a], [b]) => a - b)
    .map(([limitMm, group]) => ({
      limitMm,
      rules: [...new Set(group.map(({ rule }) => rule))].toSorted(),
      sources: [...new Set(group.map(({ source }) => source))].toSorted(),
    }));
}
