import { sentenceCase } from "../../quantities/sentence-case.ts";
import { formatList, formatNumber, formatValue } from "../format.ts";
import type { Plan } from "../plan.ts";
import type { PlanSizing } from "../sizing-schema.ts";
import { edgeWord, lumenWord } from "../words.ts";

type End = PlanSizing["proximal"];

/** One end of a graft in one zone, however many pairs of zones share it. */
export interface SizedEnd {
  end: End["end"];
  /** "Proximal, zone 2". */
  label: string;
  at: End;
  /** The first sizing that has this end. */
  sizing: PlanSizing;
}

/** Each proximal zone once, then each distal one once, in the order of the plan. */
export function sizedEnds(sizings: Plan["sizings"]): SizedEnd[] {
  const found = (["proximal", "distal"] as const).flatMap((end) =>
    sizings.flatMap(({ fromZone, toZone, sizing }): SizedEnd[] => {
      const zone = end === "proximal" ? fromZone : toZone;
      if (zone === null) return [];
      return [{ end, label: `${sentenceCase(end)}, zone ${zone}`, at: sizing[end], sizing }];
    }),
  );
  const first = new Map(found.toReversed().map((one) => [one.label, one]));
  return found.filter((one) => first.get(one.label) === one);
}

/** One end in one row of words; `none` says why there is no reference, and is null where there is one. */
export interface SizedEndRow {
  label: string;
  /** Empty where all ends share one. */
  situation: string;
  none: string | null;
  where: string;
  reference: string;
  conventions: string;
}

const situationOf = ({ at }: SizedEnd): string =>
  formatList(at.situations.map(({ label }) => label)) || "no window";

/** The situation of all ends; null where they differ. */
export function sharedSituation(ends: readonly SizedEnd[]): string | null {
  const distinct = new Set(ends.map(situationOf));
  return distinct.size === 1 ? ([...distinct][0] ?? null) : null;
}

/** The reference of every end, the other conventions of its section, and how far they are apart. */
export function endRows(ends: readonly SizedEnd[]): SizedEndRow[] {
  const isShared = sharedSituation(ends) !== null;
  return ends.map((one) => {
    const { label, at } = one;
    const lead = { label, situation: isShared ? "" : situationOf(one) };
    if (at.reference === null) {
      return { ...lead, none: whyNone(at), where: "", reference: "", conventions: "" };
    }
    const { reference, errorMm } = at.reference;
    const size = `${formatValue(reference.diameterMm, "mm")} (±\u00a0${formatNumber(errorMm)})`;
    return {
      ...lead,
      none: null,
      where: whereWords(at.reference),
      reference: `${size}, ${reference.convention}`,
      conventions: conventionWords(at.reference, at.spread),
    };
  });
}

function whereWords({ place, distanceMm, lumen, edge }: NonNullable<End["reference"]>): string {
  const at = distanceMm === null ? "" : formatValue(distanceMm, "mm");
  const distance = at === "" || place.includes(at) ? "" : ` at ${at}`;
  return `${place}${distance}, ${lumenWord(lumen)}, ${edgeWord(edge)}`;
}

function whyNone({ sections, lumen }: End): string {
  const asked = sections.filter((section) => section.lumen === lumen);
  const unstated = sections.filter((section) => section.lumen === "unstated");
  const whys = (asked.length > 0 ? asked : unstated).flatMap(({ place, why }) =>
    why === null ? [] : [`${place}: ${why}`],
  );
  return [
    ...new Set(whys),
    ...(asked.length === 0 ? [`no section of the ${lumenWord(lumen)} there`] : []),
    ...(asked.length === 0 && unstated.length > 0 ? ["lumen of what is measured not stated"] : []),
  ].join("; ");
}

function conventionWords(
  { diameters, reference }: NonNullable<End["reference"]>,
  spread: End["spread"],
): string {
  const others = diameters.filter(({ convention }) => convention !== reference.convention);
  if (others.length === 0) return "one convention only";
  const named = others
    .map(
      ({ convention, diameterMm, isEstimated }) =>
        `${convention} ${formatNumber(diameterMm)}${isEstimated ? " est." : ""}`,
    )
    .join(", ");
  if (spread === null) return named;
  return `${named}; apart ${formatValue(spread.mm, "mm")}, ${formatNumber(spread.points)} points at ${formatValue(spread.graftMm, "mm")}`;
}
