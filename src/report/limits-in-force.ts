import type { Plan, PlanAssessment } from "./plan.ts";
import { formatLimit } from "./format.ts";

/** A published size limit that was compared with the diameter at a place. */
export interface LimitInForce {
  valueMm: number;
  /** Who prints it, oldest first. */
  sources: { body: string; year: number; confirmed: boolean }[];
}

const wasCompared = ({ outcome }: PlanAssessment): boolean =>
  outcome === "met" || outcome === "not-met";

/** Rules that speak of growth: their limit is mm in a period, not a size. */
function growthRules(plan: Plan): Set<string> {
  return new Set(plan.growth.flatMap(({ answers }) => answers.map(({ rule }) => rule)));
}

/** The size limits in mm that were compared at a place, lowest first, each with all that print it; those of "below 55 mm" are none to reach. */
export function limitsInForce(plan: Plan, placeId: string): LimitInForce[] {
  const ofGrowth = growthRules(plan);
  const compared = plan.assessments.flatMap((one) => {
    const { about, limit, rule } = one;
    if (about?.id !== placeId || ofGrowth.has(rule) || !wasCompared(one)) return [];
    if (limit?.unit !== "mm" || limit.operator === "<") return [];
    return [{ valueMm: limit.value, source: one.source, confirmed: one.confirmed }];
  });
  const byValue = Map.groupBy(compared, ({ valueMm }) => valueMm);
  const limits = [...byValue].map(([valueMm, rules]): LimitInForce => {
    const bySource = Map.groupBy(rules, ({ source }) => `${source.year} ${source.body}`);
    const sources = [...bySource.values()].flatMap(([first, ...others]) => {
      if (!first) return [];
      const { body, year } = first.source;
      return [{ body, year, confirmed: [first, ...others].every(({ confirmed }) => confirmed) }];
    });
    return {
      valueMm,
      sources: sources.toSorted((a, b) => a.year - b.year || (a.body < b.body ? -1 : 1)),
    };
  });
  return limits.toSorted((a, b) => a.valueMm - b.valueMm);
}

/** Stands behind the name of a source whose value is recalled; a caption explains it. */
export const notConfirmedMark = "*";

/** "55 ACC/AHA 2022*, ESC 2024"; the mark stands where the value is not confirmed. */
export function limitLabel({ valueMm, sources }: LimitInForce): string {
  const names = sources.map(
    ({ body, year, confirmed }) => `${body} ${year}${confirmed ? "" : notConfirmedMark}`,
  );
  return `${formatLimit(valueMm)} ${names.join(", ")}`;
}

/** True where a source of one of the limits is not confirmed. */
export function hasUnconfirmed(limits: readonly LimitInForce[]): boolean {
  return limits.some(({ sources }) => sources.some(({ confirmed }) => !confirmed));
}
