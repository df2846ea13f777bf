import type { AorticPlace } from "../anatomy/places.ts";
import type { Exam, PriorRepair } from "../cases/patient-case.ts";
import type { EdgeId } from "../quantities/measured-quantity.ts";
import { repairBetween } from "./repair-at-place.ts";

/** The size of a place in one exam. */
export interface SeriesPoint {
  exam: Exam;
  /** In mm, smallest first; more than one where readings of the same exam differ. */
  valuesMm: number[];
  /** Keys of the measurements, sorted. */
  measurements: string[];
  edge: EdgeId;
}

/** Whether a point may be compared with the reference point of its series, and what is said about it. */
export interface Comparability {
  comparable: boolean;
  /** Why not, or what is unstated or different although the comparison stands. */
  reasons: string[];
}

/** `blocks` forbids the comparison; anything else is only said beside it. */
interface Finding {
  blocks: boolean;
  text: string;
}

/**
 * Compares a point with the reference point of its series: the last one with a single value, or null where there is
 * none. A change of edge shifts a size by 2.5 to 3 mm, one from tomography to ultrasound by 2 to 5 mm, and an
 * operation ends a series: all as large as the growth that is looked for, so they block. CT against MR (0.2 to
 * 0.5 mm) and a change of ECG gating (1 to 3 mm) are said.
 */
export function comparability(
  point: SeriesPoint,
  reference: SeriesPoint | null,
  place: AorticPlace,
  repairs: readonly PriorRepair[],
): Comparability {
  const other = reference ?? point;
  const findings = [
    valuesFinding(point.valuesMm),
    edgeFinding(point.edge, other),
    modalityFinding(point.exam, other.exam),
    gatingFinding(point.exam, other.exam),
    point === other ? null : repairFinding(place, repairs, point.exam, other.exam),
  ].filter((finding) => finding !== null);
  return {
    comparable: !findings.some(({ blocks }) => blocks),
    reasons: findings.map(({ text }) => text),
  };
}

function valuesFinding(valuesMm: number[]): Finding | null {
  if (valuesMm.length === 1) return null;
  const count = valuesMm.length === 2 ? "two" : valuesMm.length;
  const values = valuesMm.join(" and ");
  return { blocks: true, text: `${count} readings of this exam differ: ${values} mm` };
}

const edgeWords: Record<EdgeId, string> = {
  inner: "inner edge",
  outer: "outer edge",
  unstated: "edge not stated",
};

function edgeFinding(edge: EdgeId, { edge: otherEdge, exam }: SeriesPoint): Finding | null {
  if (edge === otherEdge) {
    return edge === "unstated" ? { blocks: false, text: edgeWords.unstated } : null;
  }
  const text = `${edgeWords[edge]}, on ${exam.imagingDate} ${edgeWords[otherEdge]}`;
  return { blocks: true, text };
}

const tomographic = new Set(["CT", "MR"]);

function modalityFinding({ modality }: Exam, other: Exam): Finding | null {
  const words = modality ?? "modality not stated";
  if (modality === other.modality) return modality === null ? { blocks: false, text: words } : null;
  const text = `${words}, on ${other.imagingDate} ${other.modality ?? "modality not stated"}`;
  const bothStated = modality !== null && other.modality !== null;
  const bothTomographic = tomographic.has(modality ?? "") && tomographic.has(other.modality ?? "");
  return { blocks: bothStated && !bothTomographic, text };
}

const gatingWords = (gated: boolean | null): string => {
  if (gated === null) return "ECG gating not stated";
  return gated ? "ECG-gated" : "not ECG-gated";
};

function gatingFinding({ gated }: Exam, other: Exam): Finding | null {
  if (gated === other.gated) return null;
  const text = `${gatingWords(gated)}, on ${other.imagingDate} ${gatingWords(other.gated)}`;
  return { blocks: false, text };
}

function repairFinding(
  place: AorticPlace,
  repairs: readonly PriorRepair[],
  exam: Exam,
  other: Exam,
): Finding | null {
  const dates = [exam.imagingDate, other.imagingDate].toSorted();
  const text = repairBetween(place, repairs, String(dates[0]), String(dates[1]));
  return text === null ? null : { blocks: true, text };
}
