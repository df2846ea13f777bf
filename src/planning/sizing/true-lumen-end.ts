import { holds, spans } from "../../quantities/limit.ts";
import type { InventoryRow } from "../../readers/csv/inventory.ts";
import { oversizingPercent } from "./graft-interval.ts";
import type { PlanningCheck } from "../planning-check.ts";
import type { SectionReferences } from "./sizing-references.ts";
import type { SizingSection } from "./sizing-section.ts";

/** The lumens that the distal end in dissection is reckoned from. */
export interface TrueLumenInput {
  /** The section that the distal end is sized by; its reference is by measured perimeter or area. */
  distalTrue: SectionReferences | null;
  /** The whole aorta at the distal end. */
  distalWhole: SectionReferences | null;
  /** The true lumen at the proximal end, or the only one where the wall there is not dissected. */
  proximal: SectionReferences | null;
  distalSections: readonly SizingSection[];
  inventory: readonly InventoryRow[] | null;
}

/** One row's distal end against the true lumen and the whole aorta, in per cent of the diameter. */
export interface RowInTrueLumen {
  id: string;
  distalMm: number;
  byPerimeter: number | null;
  byArea: number | null;
  /** The graft's cross-section over the measured area of the true lumen, less 1: another scale, never laid beside a window. */
  areaRatioPercent: number | null;
  wholeAorta: number | null;
  check: PlanningCheck;
}

/** The distal end of a graft in the true lumen of a dissection. */
export interface TrueLumenEnd {
  rows: RowInTrueLumen[];
  taper: {
    convention: "perimeter" | "area";
    proximalMm: number;
    distalMm: number;
    /** (proximal - distal) / proximal, in per cent. */
    percent: number;
    low: number | null;
    high: number | null;
  } | null;
  taperChecks: PlanningCheck[];
  /** Shown only; no window is reckoned from it. */
  beforeDissection: BeforeDissection[];
  facts: { text: string; source: string; confirmed: boolean }[];
  missing: string[];
}

/** The size of the aorta before it dissected, from one section, by one published equation. */
export interface BeforeDissection {
  place: string;
  meanCircumferenceMm: number;
  circumferenceMm: number;
  diameterMm: number;
  source: string;
  used: string[];
}

/** What a graft's distal end in the true lumen comes to; each number that is missing is named. */
export function trueLumenEnd(input: TrueLumenInput): TrueLumenEnd {
  const { distalTrue, distalWhole, inventory } = input;
  const taper = taperOf(input);
  const before = beforeDissection(input.distalSections);
  return {
    rows: (inventory ?? []).map((row) => rowInTrueLumen(row, distalTrue, distalWhole)),
    taper,
    taperChecks: taperFlags.map((limitPercent) => taperCheck(limitPercent, input, taper)),
    beforeDissection: before,
    facts,
    missing: [
      ...(distalTrue?.reference ? [] : ["perimeter or area of the true lumen at the distal end"]),
      ...(distalWhole?.reference ? [] : ["size of the whole aorta at the distal end"]),
      ...(input.proximal?.reference ? [] : ["true lumen at the proximal end"]),
      ...(taper === null && distalTrue?.reference && input.proximal?.reference
        ? ["perimeter, or area, of the true lumen at both ends alike"]
        : []),
      ...(before.length > 0
        ? []
        : ["perimeters of the true lumen and of the whole aorta in one section at the distal end"]),
      ...(inventory === null ? ["inventory of the site"] : []),
    ],
  };
}

const measured = (section: SectionReferences | null, convention: "perimeter" | "area") =>
  section?.reference
    ? (section.diameters.find((one) => one.convention === convention && !one.isEstimated)
        ?.diameterMm ?? null)
    : null;

const flagPercent = 10;
const flagSource = "common practice without a source; no guideline prints a limit";

function rowInTrueLumen(
  { id, distalMm }: InventoryRow,
  distalTrue: SectionReferences | null,
  distalWhole: SectionReferences | null,
): RowInTrueLumen {
  const perimeterMm = measured(distalTrue, "perimeter");
  const areaMm = measured(distalTrue, "area");
  const wholeMm = distalWhole?.reference?.diameterMm ?? null;
  return {
    id,
    distalMm,
    byPerimeter: perimeterMm === null ? null : oversizingPercent(distalMm, perimeterMm),
    byArea: areaMm === null ? null : oversizingPercent(distalMm, areaMm),
    areaRatioPercent: areaMm === null ? null : ((distalMm / areaMm) ** 2 - 1) * 100,
    wholeAorta: wholeMm === null ? null : oversizingPercent(distalMm, wholeMm),
    check: rowCheck(id, distalMm, perimeterMm, distalTrue),
  };
}

function rowCheck(
  id: string,
  distalMm: number,
  perimeterMm: number | null,
  distalTrue: SectionReferences | null,
): PlanningCheck {
  const base = {
    id: `distal-true-lumen ${id}`,
    label: "distal oversizing against the perimeter of the true lumen",
    limit: `<= ${flagPercent} %`,
    source: flagSource,
  };
  if (perimeterMm === null || distalTrue === null) {
    return notAssessable(base, ["perimeter of the true lumen at the distal end"]);
  }
  const { errorMm, used } = distalTrue;
  const percent = oversizingPercent(distalMm, perimeterMm);
  const low = oversizingPercent(distalMm, perimeterMm + errorMm);
  const high = errorMm < perimeterMm ? oversizingPercent(distalMm, perimeterMm - errorMm) : null;
  return {
    ...base,
    outcome: holds(percent, "<=", flagPercent) ? "met" : "not-met",
    value: { value: percent, low, high, unit: "%" },
    spansLimit: high === null || spans(low, high, flagPercent),
    used,
    missing: [],
    reason: `${distalMm} mm against ${perimeterMm.toFixed(1)} mm, ${percent.toFixed(1)} %.`,
  };
}

function taperOf({ distalTrue, proximal }: TrueLumenInput): TrueLumenEnd["taper"] {
  for (const convention of ["perimeter", "area"] as const) {
    const proximalMm = measured(proximal, convention);
    const distalMm = measured(distalTrue, convention);
    if (proximalMm === null || distalMm === null) continue;
    const [before, after] = [proximal?.errorMm ?? 0, distalTrue?.errorMm ?? 0];
    const taperPercent = (wide: number, narrow: number) => ((wide - narrow) / wide) * 100;
    const isSure = before < proximalMm;
    return {
      convention,
      proximalMm,
      distalMm,
      percent: taperPercent(proximalMm, distalMm),
      low: isSure ? taperPercent(proximalMm - before, distalMm + after) : null,
      high: isSure ? taperPercent(proximalMm + before, distalMm - after) : null,
    };
  }
  return null;
}

const taperFlags = [25, 30] as const;

function taperCheck(
  limitPercent: number,
  { distalTrue, proximal }: TrueLumenInput,
  taper: TrueLumenEnd["taper"],
): PlanningCheck {
  const base = {
    id: `true-lumen-taper-${limitPercent}`,
    label: "taper of the true lumen over the length of the graft",
    limit: `<= ${limitPercent} %`,
    source: flagSource,
  };
  if (taper === null) {
    return notAssessable(base, ["perimeter, or area, of the true lumen at both ends alike"]);
  }
  const { percent, low, high, proximalMm, distalMm, convention } = taper;
  return {
    ...base,
    outcome: holds(percent, "<=", limitPercent) ? "met" : "not-met",
    value: { value: percent, low, high, unit: "%" },
    spansLimit: low === null || high === null || spans(low, high, limitPercent),
    used: [...(proximal?.used ?? []), ...(distalTrue?.used ?? [])],
    missing: [],
    reason: `From ${proximalMm.toFixed(1)} to ${distalMm.toFixed(1)} mm by the ${convention}, ${percent.toFixed(1)} %.`,
  };
}

function notAssessable(
  base: Pick<PlanningCheck, "id" | "label" | "limit" | "source">,
  missing: string[],
): PlanningCheck {
  return {
    ...base,
    outcome: "not-assessable",
    value: null,
    spansLimit: false,
    used: [],
    missing,
    reason: `Not measured: ${missing.join(", ")}.`,
  };
}

/**
 * Circumference before dissection, 0.9433 x + 5.0147 in mm, of x = (true lumen + whole aorta) / 2, both circumferences of
 * one section of the descending aorta (PMC6064904: 17 patients to derive it, 19 to test it; bias 0.85 mm, SD 0.89 mm, of
 * the diameter).
 */
function beforeDissection(sections: readonly SizingSection[]): BeforeDissection[] {
  const measuredOnes = sections.filter(
    ({ perimeterMm, problem }) => perimeterMm !== null && problem === null,
  );
  return measuredOnes
    .filter(({ lumen }) => lumen === "true")
    .flatMap((one) => {
      const whole = measuredOnes.find(
        ({ lumen, place, distanceMm, edge }) =>
          lumen === "whole" &&
          place === one.place &&
          distanceMm === one.distanceMm &&
          edge === one.edge,
      );
      if (!whole || one.perimeterMm === null || whole.perimeterMm === null) return [];
      const meanCircumferenceMm = (one.perimeterMm + whole.perimeterMm) / 2;
      const circumferenceMm = 0.9433 * meanCircumferenceMm + 5.0147;
      return [
        {
          place: one.place,
          meanCircumferenceMm,
          circumferenceMm,
          diameterMm: circumferenceMm / Math.PI,
          source: beforeSource,
          used: [...one.used, ...whole.used],
        },
      ];
    });
}

const beforeSource =
  "PMC6064904, abstract: descending aorta only, 17 patients to derive it and 19 to test it, bias 0.85 mm (SD 0.89) of the diameter; shown only, no window is reckoned from it";

const facts: TrueLumenEnd["facts"] = [
  {
    text: "With a new entry at the distal end (9 of 142 patients) the true lumen had tapered by 40.9 % against 25.4 %, and the distal oversizing was 95.9 % against 55.9 %; the abstract prints no formula, so these are not on the scale of a window of 0 to 10 %.",
    source: "PMID 25044741, 2014, abstract",
    confirmed: true,
  },
  {
    text: "Grafts under 165 mm and more oversizing went with more new entries at the distal end.",
    source: "J Vasc Surg 2018, doi 10.1016/j.jvs.2017.08.070, abstract",
    confirmed: true,
  },
  {
    text: "Another series prints an oversizing ratio of 2.75 (acute) and 3.96 (chronic) and a taper of 0.57 and 0.74 without a unit: not comparable.",
    source: "Clin Interv Aging 2019;14:1925, abstract",
    confirmed: true,
  },
  {
    text: "The taper here is (proximal - distal) / proximal; this definition is recalled.",
    source: "recalled",
    confirmed: false,
  },
];
