import { plainInterval } from "../../cases/written-precision.ts";
import { ellipseAreaMm2, ellipsePerimeterMm } from "../../geometry/ellipse.ts";
import {
  diameterFromAreaMm,
  diameterFromPerimeterMm,
} from "../../quantities/equivalent-diameter.ts";
import { holds } from "../../quantities/limit.ts";
import { oversizingPercent } from "./graft-interval.ts";
import type { SizingSection } from "./sizing-section.ts";

/** How a section is turned into the diameter of a round vessel. */
export const conventions = ["perimeter", "area", "mean", "mean as reported", "largest"] as const;
export type Convention = (typeof conventions)[number];

/** The diameter of one section by one convention. */
export interface ConventionDiameter {
  convention: Convention;
  diameterMm: number;
  /** True: perimeter or area were not measured but reckoned from the two axes as those of an ellipse. */
  isEstimated: boolean;
}

/** One section with its diameter by every convention that its numbers allow. */
export interface SectionReferences extends Pick<
  SizingSection,
  "place" | "distanceMm" | "lumen" | "edge" | "used" | "errorMm"
> {
  diameters: ConventionDiameter[];
  /** The measured one that comes first of perimeter, area, mean, mean as reported; null where `why` says why. */
  reference: ConventionDiameter | null;
  /** Largest less smallest of the conventions that a graft is sized by; null with fewer than two. */
  spreadMm: number | null;
  why: string | null;
}

/**
 * Diameters by the perimeter (P / pi), the area (2 sqrt(A / pi)), the mean of the largest and the smallest, a mean as
 * reported, and the largest, which is shown but sizes no graft. Where only the two axes are known, perimeter and area are
 * those of an ellipse. A true or false lumen is no ellipse: only its measured perimeter and area count (common practice
 * without a source). Refused are a section with a problem, axes in the wrong order, and an area that does not fit inside
 * the perimeter (isoperimetric inequality) whatever the two were rounded from.
 */
export function sectionReferences(section: SizingSection): SectionReferences {
  const { place, distanceMm, lumen, edge, used, errorMm } = section;
  const diameters = diametersOf(section);
  const sizing = diameters.filter(({ convention }) => convention !== "largest");
  const measured = sizing.filter(({ isEstimated }) => !isEstimated);
  const why = section.problem ?? contradiction(section) ?? whyNone(section, measured);
  const values = sizing.map(({ diameterMm }) => diameterMm);
  return {
    place,
    distanceMm,
    lumen,
    edge,
    used,
    errorMm,
    diameters,
    reference: why === null ? (measured[0] ?? null) : null,
    spreadMm: values.length > 1 ? Math.max(...values) - Math.min(...values) : null,
    why,
  };
}

function diametersOf(section: SizingSection): ConventionDiameter[] {
  const { perimeterMm, areaMm2, meanMm } = section;
  const axes = axesOf(section);
  const perimeter = perimeterMm ?? (axes && ellipsePerimeterMm(axes.maximumMm, axes.minimumMm));
  const area = areaMm2 ?? (axes && ellipseAreaMm2(axes.maximumMm, axes.minimumMm));
  const largest = isOneLumenOfTwo(section) ? null : section.maximumMm;
  const found: readonly [Convention, number | null, boolean][] = [
    ["perimeter", perimeter && diameterFromPerimeterMm(perimeter), perimeterMm === null],
    ["area", area && diameterFromAreaMm(area), areaMm2 === null],
    ["mean", axes && (axes.maximumMm + axes.minimumMm) / 2, false],
    ["mean as reported", isOneLumenOfTwo(section) ? null : meanMm, false],
    ["largest", largest, false],
  ];
  return found.flatMap(([convention, diameterMm, isEstimated]) =>
    diameterMm === null ? [] : [{ convention, diameterMm, isEstimated }],
  );
}

const isOneLumenOfTwo = ({ lumen }: Pick<SizingSection, "lumen">): boolean =>
  lumen === "true" || lumen === "false";

/** Both axes in their order; null where one is missing or they can't be those of an ellipse. */
function axesOf(section: SizingSection): { maximumMm: number; minimumMm: number } | null {
  const { maximumMm, minimumMm } = section;
  if (maximumMm === null || minimumMm === null || isOneLumenOfTwo(section)) return null;
  return holds(minimumMm, "<=", maximumMm) ? { maximumMm, minimumMm } : null;
}

function contradiction({
  perimeterMm,
  areaMm2,
  maximumMm,
  minimumMm,
}: SizingSection): string | null {
  if (maximumMm !== null && minimumMm !== null && !holds(minimumMm, "<=", maximumMm)) {
    return `the smallest diameter, ${minimumMm} mm, is over the largest, ${maximumMm} mm`;
  }
  if (perimeterMm === null || areaMm2 === null) return null;
  const leastMm = diameterFromAreaMm(plainInterval(areaMm2).low);
  return holds(leastMm, "<=", diameterFromPerimeterMm(plainInterval(perimeterMm).high))
    ? null
    : `an area of ${areaMm2} mm2 does not fit inside a perimeter of ${perimeterMm} mm`;
}

function whyNone(section: SizingSection, measured: readonly ConventionDiameter[]): string | null {
  if (measured.length > 0) return null;
  return isOneLumenOfTwo(section)
    ? `the perimeter or the area of the ${section.lumen} lumen is not measured`
    : "the diameter perpendicular to the largest, an area or a perimeter is not measured";
}

/** Inner before unstated before outer edge: grafts are sized from the inner one (common practice without a source). */
const edgeOrder = { inner: 0, unstated: 1, outer: 2 } as const;

/** The section of the largest reference, each place taken by its innermost edge; null where none has a reference. */
export function largestSection(
  sections: readonly SectionReferences[],
): (SectionReferences & { reference: ConventionDiameter }) | null {
  const usable = sections.filter(hasReference);
  const places = Map.groupBy(usable, ({ place, distanceMm }) => `${place}\n${distanceMm}`);
  const innermost = [...places.values()].flatMap((here) => {
    const first = Math.min(...here.map(({ edge }) => edgeOrder[edge]));
    return here.filter(({ edge }) => edgeOrder[edge] === first);
  });
  return innermost.reduce<(SectionReferences & { reference: ConventionDiameter }) | null>(
    (largest, next) =>
      largest && largest.reference.diameterMm >= next.reference.diameterMm ? largest : next,
    null,
  );
}

const hasReference = (
  section: SectionReferences,
): section is SectionReferences & { reference: ConventionDiameter } => section.reference !== null;

/** By how many points of oversizing one graft differs between the conventions of a section; null with fewer than two. */
export function spreadPoints(
  graftMm: number,
  diameters: readonly ConventionDiameter[],
): number | null {
  const percents = diameters
    .filter(({ convention }) => convention !== "largest")
    .map(({ diameterMm }) => oversizingPercent(graftMm, diameterMm));
  return percents.length > 1 ? Math.max(...percents) - Math.min(...percents) : null;
}
