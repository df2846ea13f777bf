import { sentenceCase } from "../../quantities/sentence-case.ts";
import { decimalCell, formatNumber, formatUnit, type DecimalCell } from "../format.ts";
import type { Plan, PlanMeasurement } from "../plan.ts";
import { edgeWord, lumenWord, pathWord, phaseWord, planeWord, statisticWord } from "../words.ts";

export interface ExamRow {
  date: string;
  origin: string;
  modality: string;
  gated: string;
  state: string;
  measured: string;
  sinceBefore: string;
}

const dayMs = 86_400_000;

/** The examinations in time. */
export function examRows(plan: Plan): ExamRow[] {
  return plan.exams.map((exam, index) => {
    const before = plan.exams[index - 1];
    const days = before
      ? Math.round((Date.parse(exam.imagingDate) - Date.parse(before.imagingDate)) / dayMs)
      : null;
    const gated = { true: "yes", false: "no", null: "not stated" } as const;
    return {
      date: exam.imagingDate,
      origin: exam.imagingDateOrigin,
      modality: exam.modality ?? "not stated",
      gated: gated[`${exam.gated}`],
      state: exam.reportState.join(", "),
      measured: String(plan.measurements.filter((one) => one.exam === exam.key).length),
      sinceBefore: days === null ? "" : String(days),
    };
  });
}

/** One place over the exams. */
export interface SizeRow {
  place: string;
  /** One for each exam shown; empty where it was not measured. */
  cells: { readings: DecimalCell[] }[];
}

export interface SizesView {
  dates: string[];
  earlier: string | null;
  /** Rows measured alike, diameters first. */
  groups: { method: string; columns: number; rows: SizeRow[] }[];
}

const examsShown = 5;

/** "maximum, outer edge": how a number was taken; what does not belong to the quantity is left out. */
export function methodWords(one: PlanMeasurement): string {
  const isLength = one.quantity === "length" || one.quantity === "sound-length";
  const isOfWall = ["diameter", "long-axis", "short-axis", "perimeter", "area"].includes(
    one.quantity,
  );
  const words = [one.quantityLabel];
  if (isLength) words.push(pathWord(one.path));
  if (isOfWall) words.push(statisticWord(one.statistic), edgeWord(one.edge));
  if (one.lumen !== "whole" && !isLength) words.push(lumenWord(one.lumen));
  if (isOfWall && one.plane !== "unstated") words.push(planeWord(one.plane));
  if (isOfWall && one.phase !== "unstated") words.push(phaseWord(one.phase));
  return words.join(", ");
}

function byPlace(a: PlanMeasurement, b: PlanMeasurement): number {
  return a.place.position - b.place.position || (a.place.label < b.place.label ? -1 : 1);
}

function grouped(
  measurements: readonly PlanMeasurement[],
  keyOf: (one: PlanMeasurement) => string,
): [string, PlanMeasurement[]][] {
  const groups = new Map<string, PlanMeasurement[]>();
  for (const one of measurements) {
    const group = groups.get(keyOf(one));
    if (group) group.push(one);
    else groups.set(keyOf(one), [one]);
  }
  return [...groups];
}

function sizeRow(place: string, readings: PlanMeasurement[], exams: readonly string[]): SizeRow {
  const cells = exams.map((key) => {
    const here = readings.filter(({ exam }) => exam === key).toSorted((a, b) => a.value - b.value);
    return { readings: here.map(({ value, unit }) => decimalCell(formatNumber(value, unit))) };
  });
  return { place, cells };
}

const isDiameter = (method: string): number => Number(method.startsWith("diameter"));

/** Every measured quantity by place along the vessel, one column for each of the last exams. */
export function sizesView(plan: Plan): SizesView {
  const shown = plan.exams.slice(-examsShown);
  const exams = shown.map(({ key }) => key);
  const hidden = plan.exams.length - shown.length;
  const inShown = plan.measurements.filter(({ exam }) => exams.includes(exam)).toSorted(byPlace);
  const groups = grouped(inShown, (one) => `${methodWords(one)}; ${formatUnit(one.unit)}`)
    .toSorted(
      ([a, inA], [b, inB]) =>
        isDiameter(b) - isDiameter(a) || inB.length - inA.length || (a < b ? -1 : 1),
    )
    .map(([method, readings]) => {
      const places = grouped(readings, ({ place }) => sentenceCase(place.label));
      const columns = exams.length + 1;
      return { method, columns, rows: places.map(([place, here]) => sizeRow(place, here, exams)) };
    });
  return {
    dates: shown.map(({ imagingDate }) => imagingDate),
    earlier: hidden === 0 ? null : `Exams before these: ${hidden}; see the measurements.`,
    groups,
  };
}
