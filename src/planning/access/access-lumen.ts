import type { PatientCase } from "../../cases/patient-case.ts";
import { formatLength } from "../../quantities/format-length.ts";
import {
  type AccessErrors,
  accessSamples,
  type ExamSamples,
  type LumenSample,
  type Side,
  type StretchId,
  stretchPlaces,
} from "./access-samples.ts";
import { latestFinding } from "../latest-finding.ts";

/** A number with the ends of its 95 % interval. */
export interface Bounded {
  value: number;
  low: number;
  high: number;
}

/** One stretch of the way in, by the latest exam that has its least diameter, else by the latest that has any number. */
export interface AccessStretch {
  id: StretchId;
  label: string;
  /** The least of what is measured, mm; null where nothing is. */
  lumenMm: Bounded | null;
  /** True where that is the least diameter at the inner edge; false where the lumen may be narrower than it. */
  isLeast: boolean;
  /** Least lumen area, mm2; null where none is measured at the inner edge. */
  areaMm2: Bounded | null;
  /** What the number is of, with its edge and date. */
  words: string;
  used: string[];
  areaUsed: string[];
  /** What is missing for the least diameter; null where it is known. */
  missing: string | null;
}

/** The lumen of a whole way, or of a part of it. */
export interface AccessLumen {
  /** The narrowest of what is measured; null where nothing is. */
  narrowestMm: Bounded | null;
  at: string;
  /** True where the least diameter of every stretch is known. */
  isWhole: boolean;
  leastAreaMm2: Bounded | null;
  used: string[];
  areaUsed: string[];
  missing: string[];
  areaMissing: string[];
}

/** The stretches of one side, and sections of a path that can't be placed on one. */
export interface AccessPath {
  stretches: AccessStretch[];
  unplaced: AccessStretch | null;
  /** Between neighbouring sections of the latest path, in mm. */
  largestGapMm: number | null;
}

/** The lumen on the way in on one side at `asOf` (YYYY-MM-DD). */
export function accessPath(
  patientCase: PatientCase,
  side: Side,
  asOf: string,
  errors: AccessErrors,
): AccessPath {
  const exams = accessSamples(patientCase, side, asOf, errors);
  const stretches = stretchPlaces(side).map(({ id, placeId, label }): AccessStretch => {
    const isDissected = latestFinding(patientCase, asOf, "dissection", placeId).state === "present";
    const inTurn = exams.map((one) => stretchOf(one, id, label, isDissected));
    return (
      inTurn.find(({ isLeast }) => isLeast) ??
      inTurn.find(({ lumenMm }) => lumenMm !== null) ??
      nothing(id, label)
    );
  });
  const path = exams.find(({ hasPath }) => hasPath);
  const loose = path?.samples.filter(({ stretch }) => stretch === null) ?? [];
  return {
    stretches,
    unplaced: path === undefined || loose.length === 0 ? null : unplacedOf(path, loose, side),
    largestGapMm: path?.largestGapMm ?? null,
  };
}

const nothing = (id: StretchId, label: string): AccessStretch => ({
  id,
  label,
  lumenMm: null,
  isLeast: false,
  areaMm2: null,
  words: "not measured",
  used: [],
  areaUsed: [],
  missing: `least lumen diameter of the ${label}`,
});

function stretchOf(
  { exam, samples, gaps }: ExamSamples,
  id: StretchId,
  label: string,
  isDissected: boolean,
): AccessStretch {
  const own = samples.filter(({ stretch }) => stretch === id);
  const usable = own.filter(
    ({ edge, isTrueLumen }) => edge === "inner" && (isTrueLumen || !isDissected),
  );
  const least = usable.filter(({ isLeast }) => isLeast);
  const gap = gaps.find(({ stretch }) => stretch === id);
  const standsForAll = (all: readonly LumenSample[], without = 0): boolean =>
    all.some(({ isSection }) => !isSection) || (all.length > 0 && without === 0);
  const isLeast = standsForAll(least, gap?.withoutDiameter);
  const withArea = usable.filter(({ areaMm2 }) => areaMm2 !== null);
  const areas = standsForAll(withArea, gap?.withoutArea) ? withArea : [];
  const narrowest = narrowestOf(own);
  if (narrowest === null) return nothing(id, label);
  return {
    id,
    label,
    lumenMm: narrowest.bounds,
    isLeast,
    areaMm2: leastArea(areas),
    words: wordsOf(narrowest.sample, exam.imagingDate),
    used: unique(own.map(({ key }) => key)),
    areaUsed: unique(areas.map(({ key }) => key)),
    missing: isLeast ? null : whatIsMissing(label, own, isDissected, gap),
  };
}

function whatIsMissing(
  label: string,
  own: readonly LumenSample[],
  isDissected: boolean,
  gap: ExamSamples["gaps"][number] | undefined,
): string {
  if (isDissected && !own.some(({ isTrueLumen }) => isTrueLumen))
    return `least diameter of the true lumen of the ${label}`;
  if (gap && own.some(({ isLeast, edge }) => isLeast && edge === "inner"))
    return `least diameter of the ${label} at ${gap.withoutDiameter} of ${gap.of} sections`;
  return own.some(({ isLeast }) => isLeast)
    ? `least diameter of the ${label} between inner edges`
    : `least lumen diameter of the ${label}`;
}

function unplacedOf(
  { exam }: ExamSamples,
  loose: readonly LumenSample[],
  side: Side,
): AccessStretch {
  const narrowest = narrowestOf(loose);
  return {
    ...nothing("common iliac", `${side} access path, stretch not marked`),
    lumenMm: narrowest?.bounds ?? null,
    words: narrowest ? wordsOf(narrowest.sample, exam.imagingDate) : "not measured",
    used: unique(loose.map(({ key }) => key)),
    missing: `marks on the ${side} access path: aortic bifurcation, internal iliac origin, common femoral artery`,
  };
}

/** The least value with the interval in which the least of all lies. */
function narrowestOf(
  samples: readonly LumenSample[],
): { sample: LumenSample; bounds: Bounded } | null {
  const [sample] = samples.toSorted((a, b) => a.diameterMm - b.diameterMm);
  if (!sample) return null;
  return {
    sample,
    bounds: {
      value: sample.diameterMm,
      low: Math.max(0, Math.min(...samples.map(({ diameterMm, halfMm }) => diameterMm - halfMm))),
      high: Math.min(...samples.map(({ diameterMm, halfMm }) => diameterMm + halfMm)),
    },
  };
}

/** The error of a diameter carried over to the area of the circle that has it. */
function leastArea(samples: readonly LumenSample[]): Bounded | null {
  const narrowest = narrowestOf(samples);
  if (narrowest === null) return null;
  const areaOf = (diameterMm: number): number => (Math.PI / 4) * diameterMm ** 2;
  const { low, high } = narrowest.bounds;
  const value = narrowest.sample.areaMm2 ?? areaOf(narrowest.bounds.value);
  return { value, low: areaOf(low), high: areaOf(high) };
}

function wordsOf({ isLeast, areaMm2, edge, diameterMm }: LumenSample, date: string): string {
  const what = isLeast
    ? "least diameter"
    : areaMm2 === null
      ? "a diameter that is not stated to be the least"
      : "diameter of the circle of the lumen's area";
  const edgeWords = edge === "unstated" ? "edge not stated" : `${edge} edge`;
  return `${what} ${formatLength(diameterMm)}, ${edgeWords}, ${date}`;
}

/** The lumen over these stretches: the narrowest of what is measured on them. */
export function lumenOver(
  stretches: readonly AccessStretch[],
  unplaced: AccessStretch | null,
): AccessLumen {
  const all = unplaced === null ? [...stretches] : [...stretches, unplaced];
  const measured = all.flatMap(({ lumenMm, label }) => (lumenMm ? [{ lumenMm, label }] : []));
  const areas = stretches.flatMap(({ areaMm2 }) => areaMm2 ?? []);
  const [first] = measured.toSorted((a, b) => a.lumenMm.value - b.lumenMm.value);
  const isWhole = stretches.every(({ isLeast }) => isLeast);
  const withoutArea = stretches.filter(({ areaMm2 }) => areaMm2 === null);
  return {
    narrowestMm: first ? leastBounds(measured.map(({ lumenMm }) => lumenMm)) : null,
    at: first?.label ?? "",
    isWhole,
    leastAreaMm2: withoutArea.length === 0 ? leastBounds(areas) : null,
    used: unique(all.flatMap(({ used }) => used)),
    areaUsed: unique(stretches.flatMap(({ areaUsed }) => areaUsed)),
    missing: isWhole ? [] : all.flatMap(({ missing }) => missing ?? []),
    areaMissing: withoutArea.map(({ label }) => `least lumen area of the ${label}`),
  };
}

const leastBounds = (all: readonly Bounded[]): Bounded => ({
  value: Math.min(...all.map(({ value }) => value)),
  low: Math.min(...all.map(({ low }) => low)),
  high: Math.min(...all.map(({ high }) => high)),
});

const unique = (keys: readonly string[]): string[] => [...new Set(keys)];
