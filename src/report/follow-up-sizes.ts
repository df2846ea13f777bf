import { holds } from "../quantities/limit.ts";
import { formatAgainstLimit, formatLimit, formatUnit, shortPlace } from "./format.ts";
import { isOpenAtLimit } from "./pages/criteria-view.ts";
import { answersInForce } from "./pages/decisive-growth.ts";
import type { Plan, PlanAssessment, PlanGrowth } from "./plan.ts";
import { type PrintedSource, sourcesWords } from "./printed-source.ts";

/**
 * How a size stands to a published limit. `reached`: the size is there, and other conditions of the criterion are not
 * stated. `nearing`: under the limit by no more than `nearLimitMm`, or with the limit inside its 95 % interval.
 */
export type SizeStanding = "met" | "reached" | "nearing";

/** The size of one place beside the limits to which it stands alike. */
export interface SizeAtLimits {
  standing: SizeStanding;
  place: string;
  value: number;
  unit: string;
  /** Smallest first. */
  limits: { value: number; title: string; source: PrintedSource }[];
  words: string;
}

/** Growth of one place that surely is beyond published limits. */
export interface GrowthBeyondLimits {
  place: string;
  rateMmPerYear: number;
  /** Smallest first. */
  limits: { mmPerYear: number; source: PrintedSource }[];
  words: string;
}

/** The sizes that meet, reach or near a limit: those that meet first, then along the vessel. Other criteria that are met: `metAtSmallSizes`. */
export function sizesAtLimits(
  { assessments }: Plan,
  { nearLimitMm }: { nearLimitMm: number },
): SizeAtLimits[] {
  const found = assessments.flatMap((assessment) => {
    const { about, value, limit } = assessment;
    if (about === null || value === null || limit === null || limit.operator === "<") return [];
    const standing = standingOf(assessment, limit, nearLimitMm);
    return standing ? [{ standing, place: about, value, limit: limit.value, assessment }] : [];
  });
  const groups = Map.groupBy(found, ({ standing, place, value }) =>
    JSON.stringify([standing, place.id, value.value, value.unit]),
  );
  return [...groups.values()]
    .flatMap(([first, ...others]) => (first ? [{ first, all: [first, ...others] }] : []))
    .toSorted(
      ({ first: a }, { first: b }) =>
        standings.indexOf(a.standing) - standings.indexOf(b.standing) ||
        a.place.position - b.place.position,
    )
    .map(({ first: { standing, place, value }, all }) => {
      const limits = all
        .map(({ limit, assessment: { title, source, confirmed } }) => ({
          value: limit,
          title,
          source: { body: source.body, year: source.year, confirmed },
        }))
        .toSorted((a, b) => a.value - b.value);
      const size = { place: shortPlace(place), value: value.value, unit: value.unit };
      const words = sizeWords(standing, size, limits);
      return { standing, ...size, limits, words };
    });
}

const standings: readonly SizeStanding[] = ["met", "reached", "nearing"];

const standingWords: Record<SizeStanding, string> = {
  met: "meets a size criterion",
  reached: "reached, other conditions not stated",
  nearing: "nearing",
};

/** "nearing: 53.1 mm at mid-ascending aorta, limit 55 mm (ESC 2024)". */
export function sizeReason({ standing, words }: SizeAtLimits): string {
  return `${standingWords[standing]}: ${words}`;
}

function standingOf(
  assessment: PlanAssessment,
  { unit, operator, value: limit }: NonNullable<PlanAssessment["limit"]>,
  nearLimitMm: number,
): SizeStanding | null {
  const { outcome, value, spansLimit } = assessment;
  if (outcome === "met") return "met";
  if (isOpenAtLimit(assessment)) return "reached";
  const isOpen = outcome === "not-met" || outcome === "not-assessable";
  if (!isOpen || value?.unit !== unit) return null;
  if (holds(value.value, operator, limit)) return null;
  const isWithin = unit === "mm" && holds(limit - value.value, "<=", nearLimitMm);
  return isWithin || spansLimit ? "nearing" : null;
}

/** "aortic arch: Arch aneurysm with symptoms, any size (ESC 2024)": criteria that are met without a limit to reach, at any size or below one. */
export function metAtSmallSizes({ assessments }: Plan): string[] {
  return assessments.flatMap(({ outcome, about, limit, title, source, confirmed }) => {
    const isSmall = limit === null || limit.operator === "<";
    if (outcome !== "met" || about === null || !isSmall) return [];
    const { body, year } = source;
    return [`${shortPlace(about)}: ${title} (${sourcesWords([{ body, year, confirmed }])})`];
  });
}

function sizeWords(
  standing: SizeStanding,
  { place, value, unit }: Pick<SizeAtLimits, "place" | "value" | "unit">,
  limits: SizeAtLimits["limits"],
): string {
  const shown = formatAgainstLimit(value, nearest(value, limits), unit);
  const size = `${shown} ${formatUnit(unit)} at ${place}`;
  if (standing === "met") {
    const titles = Map.groupBy(limits, ({ title }) => title);
    const criteria = [...titles].map(([title, here]) => `${title} (${sourcesOf(here)})`);
    return `${size}: ${criteria.join("; ")}`;
  }
  const byValue = Map.groupBy(limits, (limit) => limit.value);
  const printed = [...byValue].map(
    ([limit, here]) => `${formatLimit(limit)} ${formatUnit(unit)} (${sourcesOf(here)})`,
  );
  return `${size}, limit ${printed.join(", ")}`;
}

/** Growth that surely exceeds a limit of a criterion that speaks, or may speak, of the patient. */
export function growthBeyondLimits({ growth }: Plan): GrowthBeyondLimits[] {
  return growth.flatMap((series) => {
    const exceeded = answersInForce(series).filter(({ answer }) => answer === "exceeds");
    const { rate, place } = series;
    if (exceeded.length === 0 || rate === null) return [];
    const limits = exceeded
      .map(({ limitMmPerYear, body, year, confirmed }) => ({
        mmPerYear: limitMmPerYear,
        source: { body, year, confirmed },
      }))
      .toSorted((a, b) => a.mmPerYear - b.mmPerYear);
    const grown = { place: shortPlace(place), rateMmPerYear: rate.value, limits };
    return [{ ...grown, words: growthWords(grown) }];
  });
}

function growthWords({ place, rateMmPerYear, limits }: Omit<GrowthBeyondLimits, "words">): string {
  const values = limits.map(({ mmPerYear, source }) => ({ value: mmPerYear, source }));
  const rate = formatAgainstLimit(rateMmPerYear, nearest(rateMmPerYear, values), "mm");
  const printed = [...Map.groupBy(values, ({ value }) => value)].map(
    ([limit, here]) => `${formatLimit(limit)} mm per year (${sourcesOf(here)})`,
  );
  return `${place} ${rate} mm per year, exceeds ${printed.join(", ")}`;
}

/** Series of which it can't be told whether they are beyond a limit that speaks, or may speak, of the patient. */
export function growthNotTold({ growth }: Plan): PlanGrowth[] {
  return growth.filter((series) =>
    answersInForce(series).some(({ answer }) => answer === "cannot-tell"),
  );
}

/** "mid-descending aorta, 60 mm between 2027-01-01 and 2029-01-01 (ESC 2024)", where the fitted line is carried to a limit. */
export function projectedSizes({ growth, asOf }: Plan): string[] {
  return growth.flatMap(({ place, projections }) =>
    projections.flatMap((projection) => {
      const when = crossingWords(projection, asOf);
      const { limitMm, sources } = projection;
      if (when === null) return [];
      return [`${shortPlace(place)}, ${formatLimit(limitMm)} mm ${when} (${sources.join(", ")})`];
    }),
  );
}

function crossingWords(
  { answer, earliest, latest }: PlanGrowth["projections"][number],
  asOf: string,
): string | null {
  if (earliest === null || (answer !== "between" && answer !== "not before")) return null;
  if (earliest > asOf)
    return latest === null ? `not before ${earliest}` : `between ${earliest} and ${latest}`;
  return latest === null ? "may be reached already" : `reached by ${latest}, or already`;
}

const sourcesOf = (limits: readonly { source: PrintedSource }[]): string =>
  sourcesWords(limits.map(({ source }) => source));

/** The limit that lies next to the value: a number on the right side of it is on the right side of all. */
function nearest(value: number, limits: readonly { value: number }[]): number {
  const distances = limits.map((limit) => Math.abs(limit.value - value));
  return limits[distances.indexOf(Math.min(...distances))]?.value ?? value;
}
