import type { AorticPlace } from "../anatomy/places.ts";
import type { Exam, PriorRepair } from "../cases/patient-case.ts";
import type { EdgeId, PhaseId, PlaneId } from "../quantities/measured-quantity.ts";
import {
  addedOffsets,
  type DifferenceId,
  type Offset,
  publishedShift,
  rangeInWords,
} from "./comparability-offsets.ts";
import { repairBetween } from "./repair-at-place.ts";

/** The size of a place in one exam. */
export interface SeriesPoint {
  exam: Exam;
  /** In mm, smallest first; more than one where readings of the same exam differ. */
  valuesMm: number[];
  /** Keys of the measurements, sorted. */
  measurements: string[];
  edge: EdgeId;
  plane: PlaneId;
  phase: PhaseId;
}

/** Whether a point may be compared with the reference point of its series, and what is said about it. */
export interface Comparability {
  verdict: "comparable" | "comparable-with-offset" | "not-comparable";
  /** Why not, or what is unstated or different although the comparison stands. */
  reasons: string[];
  /** How far the point may be shifted against the reference; null unless the verdict says that it may be. */
  offset: Offset | null;
}

/** What one aspect of two points says: it may forbid the comparison, shift the size, or only be said. */
interface Finding {
  blocks: boolean;
  text: string;
  offset: Offset | null;
}

const blocks = (text: string): Finding => ({ blocks: true, text, offset: null });
const remark = (text: string): Finding => ({ blocks: false, text, offset: null });

/** What it means that two points differ in one aspect; `shift` is null where nobody published one. */
type Difference =
  | { effect: "blocks"; shift: DifferenceId | null }
  | { effect: "shifts"; shift: DifferenceId }
  | { effect: "said" };

/** One aspect of how a size was taken. */
interface Aspect {
  /** Null where the point does not state it. */
  words: (point: SeriesPoint) => string | null;
  unstated: string;
  /** Of two points that do not say the same; null where one of them does not state it. */
  difference: (one: string | null, other: string | null) => Difference;
  isSaidWhereNeitherStates: boolean;
}

const ifBothState =
  (judge: (one: string, other: string) => Difference): Aspect["difference"] =>
  (one, other) =>
    one === null || other === null ? { effect: "said" } : judge(one, other);

const edgeAspect: Aspect = {
  words: ({ edge }) => (edge === "unstated" ? null : `${edge} edge`),
  unstated: "edge not stated",
  difference: () => ({ effect: "blocks", shift: "edge" }),
  isSaidWhereNeitherStates: true,
};

const planeAspect: Aspect = {
  words: ({ plane }) => (plane === "unstated" ? null : `${plane} plane`),
  unstated: "plane not stated",
  difference: ifBothState(() => ({ effect: "blocks", shift: "plane" })),
  isSaidWhereNeitherStates: false,
};

const isTomographic = (modality: string): boolean => modality === "CT" || modality === "MR";

const modalityAspect: Aspect = {
  words: ({ exam }) => exam.modality,
  unstated: "modality not stated",
  difference: ifBothState((one, other) => {
    const both = [one, other];
    if (both.every(isTomographic)) return { effect: "shifts", shift: "ctMr" };
    const isUltrasoundAgainstTomography = both.includes("US") && both.some(isTomographic);
    return { effect: "blocks", shift: isUltrasoundAgainstTomography ? "ultrasound" : null };
  }),
  isSaidWhereNeitherStates: true,
};

const phaseAspect: Aspect = {
  words: ({ phase }) => (phase === "unstated" ? null : phase),
  unstated: "cardiac phase not stated",
  difference: ifBothState(() => ({ effect: "shifts", shift: "phase" })),
  isSaidWhereNeitherStates: false,
};

const gatingAspect: Aspect = {
  words: ({ exam: { gated } }) => {
    if (gated === null) return null;
    return gated ? "ECG-gated" : "not ECG-gated";
  },
  unstated: "ECG gating not stated",
  difference: ifBothState(() => ({ effect: "shifts", shift: "gating" })),
  isSaidWhereNeitherStates: false,
};

/**
 * Compares a point with the reference point of its series, the last one with a single value; without any, with itself.
 * What the reference does not state is compared with the next of `references` that states it as well: the points that
 * already stand beside the reference, latest first.
 *
 * A change of edge, of plane, or from ultrasound to tomography shifts a size as much as the growth that is looked for, and
 * an operation ends a series: they forbid the comparison. CT against MR, another cardiac phase and a change of ECG gating
 * leave it standing with a possible shift of the size. Phase and gating are the same movement of the wall, so together they
 * count once. Published sizes of the shifts: `comparability-offsets.yaml`.
 */
export function comparability(
  point: SeriesPoint,
  references: readonly SeriesPoint[],
  place: AorticPlace,
  repairs: readonly PriorRepair[],
): Comparability {
  const [reference = point] = references;
  const of = (aspect: Aspect): Finding[] => aspectFindings(aspect, point, references, place);
  const [modality, phase, gating] = [of(modalityAspect), of(phaseAspect), of(gatingAspect)];
  const findings = [
    ...valuesFindings(point.valuesMm),
    ...of(edgeAspect),
    ...of(planeAspect),
    ...modality,
    ...phase,
    ...gating,
    ...(point === reference ? [] : repairFindings(place, repairs, point.exam, reference.exam)),
  ];
  const reasons = findings.map(({ text }) => text);
  if (findings.some((finding) => finding.blocks)) {
    return { verdict: "not-comparable", reasons, offset: null };
  }
  const offset = addedOffsets(
    [firstOffset(modality), firstOffset([...phase, ...gating])].filter((each) => each !== null),
  );
  return { verdict: offset === null ? "comparable" : "comparable-with-offset", reasons, offset };
}

/** True where a point stands in the series, with or without a possible shift. */
export function isCompared({ verdict }: Pick<Comparability, "verdict">): boolean {
  return verdict !== "not-comparable";
}

/** How far two points that both stand in a series may be shifted against each other. */
export function offsetBetween(
  one: SeriesPoint,
  other: SeriesPoint,
  place: AorticPlace,
): Offset | null {
  return comparability(one, [other], place, []).offset;
}

const firstOffset = (findings: readonly Finding[]): Offset | null =>
  findings.find(({ offset }) => offset !== null)?.offset ?? null;

function aspectFindings(
  aspect: Aspect,
  point: SeriesPoint,
  [reference = point, ...others]: readonly SeriesPoint[],
  place: AorticPlace,
): Finding[] {
  const isOpen = aspect.words(reference) === null && aspect.words(point) !== null;
  const stated = isOpen ? others.find((other) => aspect.words(other) !== null) : undefined;
  return [reference, ...(stated ? [stated] : [])]
    .map((other) => aspectFinding(aspect, point, other, place))
    .filter((finding) => finding !== null);
}

function aspectFinding(
  aspect: Aspect,
  point: SeriesPoint,
  other: SeriesPoint,
  { region }: AorticPlace,
): Finding | null {
  const [own, others] = [aspect.words(point), aspect.words(other)];
  if (own === others) {
    return own === null && aspect.isSaidWhereNeitherStates ? remark(aspect.unstated) : null;
  }
  const text =
    `${own ?? aspect.unstated} on ${point.exam.imagingDate}, ` +
    `${others ?? aspect.unstated} on ${other.exam.imagingDate}`;
  const difference = aspect.difference(own, others);
  if (difference.effect === "said") return remark(text);
  if (difference.effect === "blocks") {
    return blocks(`${text}: ${blockingShift(difference.shift, region)}`);
  }
  const offset = publishedShift(difference.shift, region);
  const possible = `possible shift of ${rangeInWords(offset)}, ${offset.source}`;
  return { blocks: false, text: `${text}: ${possible}`, offset };
}

function blockingShift(id: DifferenceId | null, region: AorticPlace["region"]): string {
  if (id === null) return "how far they shift a size is not known";
  const shift = publishedShift(id, region);
  return `a shift of ${rangeInWords(shift)} is as large as the growth looked for, ${shift.source}`;
}

function valuesFindings(valuesMm: number[]): Finding[] {
  if (valuesMm.length === 1) return [];
  const count = valuesMm.length === 2 ? "two" : valuesMm.length;
  return [blocks(`${count} readings of this exam differ: ${valuesMm.join(" and ")} mm`)];
}

function repairFindings(
  place: AorticPlace,
  repairs: readonly PriorRepair[],
  exam: Exam,
  other: Exam,
): Finding[] {
  const dates = [exam.imagingDate, other.imagingDate].toSorted();
  const text = repairBetween(place, repairs, String(dates[0]), String(dates[1]));
  return text === null ? [] : [blocks(text)];
}
