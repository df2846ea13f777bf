import type { ArchVariantId } from "../../anatomy/arch-variants.ts";
import type { AorticPlace } from "../../anatomy/places.ts";
import type {
  CaseFacts,
  Centreline,
  Exam,
  Finding,
  Measurement,
  PriorRepair,
} from "../../cases/patient-case.ts";
import { mayTouch, timing } from "../../cases/wall.ts";
import { latestFinding } from "../latest-finding.ts";
import { markFound, stretchFound } from "./stations-measured.ts";
import type { ExamItem, FindingItem, MeasurementItem, StretchItem, WorkItem } from "./worklists.ts";

/** What a worklist is held against: a patient's case, or as much of it as a plan report holds. */
export interface MeasuredCase {
  patient: { birthDate: string | null };
  facts: Pick<CaseFacts, "diagnosisWords" | "onsetDate" | "aetiologyWords" | "priorRepairs">;
  /** By imaging date, earliest first. */
  exams: readonly Pick<Exam, "key" | "imagingDate" | "modality" | "gated">[];
  measurements: readonly (Pick<
    Measurement,
    "key" | "exam" | "statistic" | "lumen" | "edge" | "path"
  > & { quantity: string; place: { id: string } })[];
  findings: readonly (Pick<Finding, "key" | "exam" | "finding" | "state"> & {
    place: { id: string };
  })[];
  centrelines: readonly Centreline[];
}

/** What must be known of the patient besides what was measured. */
export interface WorklistBasis {
  /** YYYY-MM-DD. */
  asOf: string;
  /** Null where it is not known whether there is a dissection; then what only a dissection needs is asked for. */
  isDissected: boolean | null;
  /** Empty for the usual arch; null where it is not stated. */
  archVariants: readonly ArchVariantId[] | null;
}

export type WorkState = "measured" | "not measured" | "out of date" | "not needed here";

/** How far one item of a worklist is done. */
export interface Progress {
  state: WorkState;
  /** Of the exam that has it, YYYY-MM-DD; null without one and for cells of the case sheet. */
  date: string | null;
  /** Keys of measurements, findings and stations. */
  used: string[];
  /** Why it does not count, or is not needed, in words; null where it counts or nothing of the kind was found. */
  lacks: string | null;
}

type ExamOf = MeasuredCase["exams"][number];

/** What one exam holds of an item. */
interface Found {
  used: string[];
  lacks: string | null;
}

const notMeasured: Progress = { state: "not measured", date: null, used: [], lacks: null };

/**
 * Tells whether an item is measured. An exam counts that has exactly what is asked for: place, quantity, statistic,
 * path, lumen and edge; a lumen that is not stated passes for the whole vessel where there is no dissection. It is out
 * of date where a repair of the place came later, or may have, and where the latest exam does not have it.
 */
export function progressReader(
  measured: MeasuredCase,
  basis: WorklistBasis,
): (item: WorkItem) => Progress {
  const known = new Map<string, Progress>();
  return (item) => {
    const why = notNeeded(item, measured, basis);
    if (why !== null) return { ...notMeasured, state: "not needed here", lacks: why };
    const found = known.get(item.id) ?? progressOf(item, measured, basis);
    known.set(item.id, found);
    return found;
  };
}

function progressOf(item: WorkItem, measured: MeasuredCase, basis: WorklistBasis): Progress {
  if (item.form === "case") {
    const isStated = caseCells[item.field](measured, basis);
    return { ...notMeasured, state: isStated ? "measured" : "not measured" };
  }
  const found = measured.exams.flatMap((exam) => {
    const here = foundIn(exam, item, measured, basis);
    return here === null ? [] : [{ exam, ...here }];
  });
  const whole = found.findLast(({ lacks }) => lacks === null);
  if (!whole) {
    const part = found.at(-1);
    if (!part) return notMeasured;
    return { ...notMeasured, lacks: `${part.lacks} (exam of ${part.exam.imagingDate})` };
  }
  const { exam, used } = whole;
  const date = exam.imagingDate;
  const old = outOfDate(item, exam, measured, basis);
  return { state: old === null ? "measured" : "out of date", date, used, lacks: old };
}

type CaseField = Extract<WorkItem, { form: "case" }>["field"];

const caseCells: Record<CaseField, (measured: MeasuredCase, basis: WorklistBasis) => boolean> = {
  diagnosis: ({ facts }) => facts.diagnosisWords !== null,
  onset_date: ({ facts }) => facts.onsetDate !== null,
  prior_repair: ({ facts }) => facts.priorRepairs !== null,
  arch_variant: (_, { archVariants }) => archVariants !== null,
  aetiology: ({ facts }) => facts.aetiologyWords !== null,
  birth_date: ({ patient }) => patient.birthDate !== null,
};

/** Why an item is not asked of this patient; null where it is. What is not known asks for it. */
function notNeeded(
  item: WorkItem,
  measured: MeasuredCase,
  { asOf, isDissected, archVariants }: WorklistBasis,
): string | null {
  if (item.onlyInDissection && isDissected === false) return "no dissection";
  const stated = archVariants ?? [];
  if (item.onlyWith.length > 0 && !item.onlyWith.some((variant) => stated.includes(variant))) {
    return `only with ${item.onlyWith.join(" or ")}`;
  }
  const against = item.notWith.find((variant) => stated.includes(variant));
  if (against !== undefined) return `not with ${against}`;
  const absent = placesOf(item).find(
    ({ id }) => latestFinding(measured, asOf, "patency", id).state === "absent",
  );
  if (absent && !(item.form === "findings" && item.finding === "patency")) {
    return `the ${absent.label} is absent`;
  }
  if (item.form === "findings" && item.onlyIfSeen) {
    const isSeen = measured.findings.some((finding) => isOf(finding, item));
    return isSeen ? null : "written where it is so; no word of the sheet says that there is none";
  }
  return null;
}

/** Places whose wall an item is of. */
function placesOf(item: WorkItem): AorticPlace[] {
  switch (item.form) {
    case "measurements":
      return [item.place];
    case "findings":
      return item.place === null ? [] : [item.place];
    case "mark":
      return [item.mark.place];
    case "stretch":
      return [item.from.place, item.to.place, ...between(item)];
    case "case":
    case "exam":
      return [];
  }
}

/** The part of the aorta that a stretch runs through; of an access path the ends alone have a side. */
function between({ vessel, from, to }: StretchItem): AorticPlace[] {
  if (vessel !== "aorta") return [];
  const span = [from.place.position, to.place.position] as const;
  return [{ ...from.place, id: "stretch", kind: "range", zones: [], span }];
}

function foundIn(
  exam: ExamOf,
  item: Exclude<WorkItem, { form: "case" }>,
  measured: MeasuredCase,
  basis: WorklistBasis,
): Found | null {
  const lines = measured.centrelines.filter((line) => line.exam === exam.key);
  switch (item.form) {
    case "measurements":
      return measurementFound(exam, item, measured, basis);
    case "findings": {
      const own = measured.findings.filter((one) => one.exam === exam.key && isOf(one, item));
      return own.length === 0 ? null : { used: own.map(({ key }) => key), lacks: null };
    }
    case "mark":
      return markFound(lines, item);
    case "stretch":
      return stretchFound(lines, item, basis.isDissected);
    case "exam":
      return isStatedOf(exam, item) ? { used: [], lacks: null } : null;
  }
}

const isStatedOf = (exam: ExamOf, { field }: ExamItem): boolean => exam[field] !== null;

const isOf = ({ finding, place }: MeasuredCase["findings"][number], item: FindingItem): boolean =>
  finding === item.finding && (item.place === null || place.id === item.place.id);

function measurementFound(
  exam: ExamOf,
  item: MeasurementItem,
  { measurements }: MeasuredCase,
  { isDissected }: WorklistBasis,
): Found | null {
  const near = measurements
    .filter(({ exam: key, place }) => key === exam.key && place.id === item.place.id)
    .filter(({ quantity }) => quantity === item.quantity)
    .map((one) => ({ key: one.key, differs: differences(one, item, isDissected) }));
  const exact = near.filter(({ differs }) => differs.length === 0);
  if (exact.length > 0) return { used: exact.map(({ key }) => key), lacks: null };
  const [closest] = near
    .filter(({ differs }) => differs.every(({ isOtherThing }) => !isOtherThing))
    .toSorted((a, b) => a.differs.length - b.differs.length);
  if (!closest) return null;
  return { used: [], lacks: closest.differs.map(({ words }) => words).join("; ") };
}

/** How a reading of the same quantity and place differs from what is asked; another thing altogether is no near miss. */
function differences(
  one: MeasuredCase["measurements"][number],
  { statistic, path, lumen, edge }: MeasurementItem,
  isDissected: boolean | null,
): { words: string; isOtherThing: boolean }[] {
  const aspect = (name: string, met: string, asked: string | null) =>
    asked === null || met === asked
      ? []
      : [
          met === "unstated"
            ? { words: `measured, ${name} not stated`, isOtherThing: false }
            : { words: `measured, ${name} ${met}`, isOtherThing: name !== "edge" },
        ];
  const passesForWhole = lumen === "whole" && one.lumen === "unstated" && isDissected === false;
  return [
    ...aspect("statistic", one.statistic, statistic),
    ...aspect("path", one.path, path),
    ...(passesForWhole ? [] : aspect("lumen", one.lumen, lumen)),
    ...aspect("edge", one.edge, edge),
  ];
}

/** Why what an exam shows does not count any more; null where it counts. */
function outOfDate(
  item: WorkItem,
  exam: ExamOf,
  { exams, facts }: MeasuredCase,
  { asOf }: WorklistBasis,
): string | null {
  const latest = exams.at(-1)?.imagingDate ?? exam.imagingDate;
  const later = (facts.priorRepairs ?? []).filter(
    (repair) =>
      placesOf(item).some((place) => mayTouch(repair, place)) &&
      timing(repair, asOf, "present") !== "later",
  );
  const since = later.find((repair) => timing(repair, exam.imagingDate, "exam") !== "done");
  if (since) return repairWords(since, exam.imagingDate);
  return exam.imagingDate === latest ? null : `not in the latest exam, of ${latest}`;
}

function repairWords(repair: PriorRepair, date: string): string {
  return timing(repair, date, "exam") === "later"
    ? `before the repair "${repair.words}"`
    : `not known whether before or after "${repair.words}"`;
}
