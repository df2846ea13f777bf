import { createHash } from "node:crypto";
import type { AorticPlace } from "../anatomy/places.ts";
import { ellipseEccentricity } from "../geometry/ellipse.ts";
import type { Interval } from "../geometry/section-bounds.ts";
import {
  aorticHeightIndexCmPerM,
  aorticSizeIndexCmPerM2,
  areaHeightRatioCm2PerM,
  areaOverHeightCm2PerM,
  bodySurfaceAreaDuBoisM2,
} from "../quantities/body-size.ts";
import { diameterFromAreaMm, diameterFromPerimeterMm } from "../quantities/equivalent-diameter.ts";
import { holds } from "../quantities/limit.ts";
import type { EdgeId, LumenId, PhaseId, PlaneId } from "../quantities/measured-quantity.ts";
import type { CaseFacts, Measurement, PatientCase } from "./patient-case.ts";
import { largestOrUnstated, sectionsOf, smallestOrUnstated, soleReading } from "./sections.ts";
import { plainInterval, writtenInterval } from "./written-precision.ts";

/** What is derived, with the unit of its value, in the order printed. */
export const derivedUnits = {
  "diameter from perimeter": "mm",
  "diameter from area": "mm",
  "mean diameter": "mm",
  eccentricity: "1",
  "smallest over largest": "1",
  "area over height": "cm2/m",
  "aortic size index": "cm/m2",
  "aortic height index": "cm/m",
} as const;
export type DerivedKind = keyof typeof derivedUnits;

/** A number computed from the measurements of one section, with its chain. */
export interface DerivedQuantity {
  /** Stable: "D" and eight hex digits of kind and sources. */
  key: string;
  exam: string;
  place: AorticPlace;
  lumen: LumenId;
  edge: EdgeId;
  plane: PlaneId;
  phase: PhaseId;
  kind: DerivedKind;
  value: number;
  /** mm, 1, cm2/m, cm/m2 or cm/m. */
  unit: string;
  /** The least and most that the value can be, for all inputs that would be written as these are. */
  low: number;
  high: number;
  /** Keys of the measurements. */
  derivedFrom: string[];
  /** The computation with its numbers: "118 mm / pi". */
  how: string;
}

/**
 * All numbers that follow from the sections of a case. A reading that differs from another of the same kind gives none.
 * Mean and shape need two diameters of one section, so they are not made for a range. Sizes are indexed in the root and
 * ascending aorta only, from the largest diameter (or one without a statistic) or the area of the whole lumen; a lumen
 * that is not stated counts as whole. Sorted by exam, along the vessel, by kind.
 */
export function derivedQuantities({
  exams,
  measurements,
  facts,
}: Pick<PatientCase, "exams" | "measurements" | "facts">): DerivedQuantity[] {
  const examOrder = exams.map(({ key }) => key);
  const kindOrder = Object.keys(derivedUnits);
  return sectionsOf(measurements)
    .flatMap((section) => [
      ...fromOneSize(section),
      ...fromTwoDiameters(section),
      ...indexed(section, facts),
    ])
    .toSorted(
      (a, b) =>
        examOrder.indexOf(a.exam) - examOrder.indexOf(b.exam) ||
        a.place.position - b.place.position ||
        compareText(a.place.id, b.place.id) ||
        kindOrder.indexOf(a.kind) - kindOrder.indexOf(b.kind) ||
        compareText(a.key, b.key),
    );
}

const compareText = (a: string, b: string): number => (a === b ? 0 : a < b ? -1 : 1);

/** A number that goes into a computation. */
interface Input {
  value: number;
  range: Interval;
}
const inputOf = (one: Measurement): Input => ({ value: one.value, range: writtenInterval(one) });
const plainInput = (value: number): Input => ({ value, range: plainInterval(value) });

/** `compute` must rise or fall steadily with every input: then its extremes lie at ends of the inputs. */
function derived(
  kind: DerivedKind,
  sources: [Measurement, ...Measurement[]],
  how: string,
  compute: (...values: number[]) => number,
  others: Input[] = [],
): DerivedQuantity {
  const inputs = [...sources.map(inputOf), ...others];
  const extremes = ends(inputs).map((values) => compute(...values));
  const derivedFrom = sources.map(({ key }) => key);
  const digest = createHash("sha256").update([kind, ...derivedFrom].join("\n"));
  const { exam, place, lumen, edge, plane, phase } = sources[0];
  return {
    key: `D${digest.digest("hex").slice(0, 8)}`,
    exam,
    place,
    lumen,
    edge,
    plane,
    phase,
    kind,
    value: compute(...inputs.map(({ value }) => value)),
    unit: derivedUnits[kind],
    low: Math.min(...extremes),
    high: Math.max(...extremes),
    derivedFrom,
    how,
  };
}

/** Every choice of a low or high end for each input. */
function ends([first, ...rest]: Input[]): number[][] {
  if (!first) return [[]];
  return ends(rest).flatMap((others) => [
    [first.range.low, ...others],
    [first.range.high, ...others],
  ]);
}

function fromOneSize(section: Measurement[]): DerivedQuantity[] {
  const perimeter = soleReading(section, "perimeter", largestOrUnstated);
  const area = soleReading(section, "area", largestOrUnstated);
  return [
    perimeter &&
      derived(
        "diameter from perimeter",
        [perimeter],
        `${perimeter.asWritten} / pi`,
        diameterFromPerimeterMm,
      ),
    area &&
      derived(
        "diameter from area",
        [area],
        `2 x square root of (${area.asWritten} / pi)`,
        diameterFromAreaMm,
      ),
  ].filter((one) => one !== null);
}

function fromTwoDiameters(section: Measurement[]): DerivedQuantity[] {
  const pairs = [
    [soleReading(section, "diameter", ["maximum"]), soleReading(section, "diameter", ["minimum"])],
    [
      soleReading(section, "long-axis", largestOrUnstated),
      soleReading(section, "short-axis", smallestOrUnstated),
    ],
  ] as const;
  return pairs.flatMap(([largest, smallest]) => {
    if (!largest || !smallest || largest.place.span !== null) return [];
    if (!holds(smallest.value, "<=", largest.value)) return [];
    const [a, b] = [largest.asWritten, smallest.asWritten];
    const both: [Measurement, Measurement] = [largest, smallest];
    return [
      derived("mean diameter", both, `(${a} + ${b}) / 2`, meanOfTwo),
      derived(
        "eccentricity",
        both,
        `square root of (1 - (${b} / ${a})^2), as of an ellipse`,
        ellipseEccentricity,
      ),
      derived("smallest over largest", both, `${b} / ${a}`, smallestOverLargest),
    ];
  });
}

const meanOfTwo = (one: number, other: number): number => (one + other) / 2;
/** Not over 1, which rounding of two like numbers could give. */
const smallestOverLargest = (largest: number, smallest: number): number =>
  Math.min(smallest / largest, 1);

/** Indexed sizes of the root and ascending aorta, as far as height and weight are known. */
function indexed(section: Measurement[], { heightCm, weightKg }: CaseFacts): DerivedQuantity[] {
  const [first] = section;
  if (!first || heightCm === null) return [];
  const { place, lumen } = first;
  if (place.kind === "branch" || (place.region !== "root" && place.region !== "ascending")) {
    return [];
  }
  if (lumen === "true" || lumen === "false") return [];
  const hasLargest = section.some(
    ({ quantity, statistic }) => quantity === "diameter" && statistic === "maximum",
  );
  const diameter = soleReading(section, "diameter", [hasLargest ? "maximum" : "unstated"]);
  const area = soleReading(section, "area", largestOrUnstated);
  const height = plainInput(heightCm);
  const made: DerivedQuantity[] = [];
  if (area) {
    const how = `measured area ${area.asWritten} / height ${heightCm} cm`;
    made.push(derived("area over height", [area], how, areaOverHeightCm2PerM, [height]));
  }
  if (!diameter) return made;
  const d = diameter.asWritten;
  const circle = `circle of ${d}, pi x (${d} / 2)^2 / height ${heightCm} cm`;
  const overHeight = `${d} / height ${heightCm} cm`;
  made.push(
    derived("area over height", [diameter], circle, areaHeightRatioCm2PerM, [height]),
    derived("aortic height index", [diameter], overHeight, aorticHeightIndexCmPerM, [height]),
  );
  if (weightKg === null) return made;
  const surfaceM2 = bodySurfaceAreaDuBoisM2(heightCm, weightKg);
  const overSurface = `${d} / body surface area ${surfaceM2.toFixed(2)} m2 (DuBois, ${heightCm} cm and ${weightKg} kg)`;
  made.push(
    derived(
      "aortic size index",
      [diameter],
      overSurface,
      (diameterMm, cm, kg) => aorticSizeIndexCmPerM2(diameterMm, bodySurfaceAreaDuBoisM2(cm, kg)),
      [height, plainInput(weightKg)],
    ),
  );
  return made;
}
