import { sentenceCase } from "../../quantities/sentence-case.ts";
import { formatCount, formatNumber, formatValue, shortPlace } from "../format.ts";
import { formatPlace, type Message } from "../../message.ts";
import type { Plan, PlanMeasurement } from "../plan.ts";
import { methodWords } from "./sizes-view.ts";

export interface MeasurementRow {
  place: string;
  value: string;
  asWritten: string;
  /** "file 2, record 3, line 4, column value". */
  source: string;
  key: string;
  remark: string;
}

/** The measurements of one exam that were taken alike. */
export interface MeasurementGroup {
  heading: string;
  rows: MeasurementRow[];
}

/** The files that measurements, findings and sections came from, numbered in order of use, with their digests. */
export function fileRows({
  measurements,
  findings,
  centrelines,
}: Pick<Plan, "measurements" | "findings" | "centrelines">): {
  number: number;
  file: string;
  sha256: string;
}[] {
  const digests = new Map<string, string>();
  const stations = centrelines.flatMap((line) => line.stations);
  for (const { source } of [...measurements, ...findings, ...stations])
    digests.set(source.file, source.sha256 ?? "not read");
  return [...digests].map(([file, sha256], index) => ({ number: index + 1, file, sha256 }));
}

function remarkOf({ reader, comment, derivedFrom }: PlanMeasurement): string {
  const derived = derivedFrom.length === 0 ? null : `derived from ${derivedFrom.join(", ")}`;
  return [reader, comment, derived].filter((part) => part !== null).join("; ");
}

/** Every measurement and finding with the place in the file that it came from: last exam first, along the vessel. */
export function measurementGroups(plan: Plan): MeasurementGroup[] {
  const files = fileRows(plan).map(({ file }) => file);
  const groups = new Map<string, MeasurementRow[]>();
  const where = ({ file, at }: PlanMeasurement["source"]): string =>
    `file ${files.indexOf(file) + 1}${at === null ? "" : `, ${at}`}`;
  for (const exam of plan.exams.toReversed()) {
    for (const one of plan.measurements.filter(({ exam: key }) => key === exam.key)) {
      const heading = `${exam.imagingDate}: ${methodWords(one)}`;
      const row = {
        place: sentenceCase(shortPlace(one.place)),
        value: formatValue(one.value, one.unit),
        asWritten: one.asWritten,
        source: where(one.source),
        key: one.key,
        remark: remarkOf(one),
      };
      groups.set(heading, [...(groups.get(heading) ?? []), row]);
    }
    const lines = plan.centrelines.filter(({ exam: key }) => key === exam.key);
    const sections = lines.flatMap((line) => centrelineRow(line, where));
    if (sections.length > 0)
      groups.set(`${exam.imagingDate}: sections along a centreline`, sections);
    const seen = plan.findings.filter(({ exam: key }) => key === exam.key);
    if (seen.length === 0) continue;
    groups.set(
      `${exam.imagingDate}: findings`,
      seen.map(({ place, finding, state, source, key, reader, comment }) => ({
        place: sentenceCase(shortPlace(place)),
        value: "",
        asWritten: `${finding}: ${state}`,
        source: where(source),
        key,
        remark: [reader, comment].filter((part) => part !== null).join("; "),
      })),
    );
  }
  return [...groups].map(([heading, rows]) => ({ heading, rows }));
}

/** The sections of one centreline in one row; each with its place in the file is in the plan's file. */
function centrelineRow(
  { label, stations, origin, patientPosition }: Plan["centrelines"][number],
  where: (source: PlanMeasurement["source"]) => string,
): MeasurementRow[] {
  const [first, last] = [stations[0], stations.at(-1)];
  if (!first || !last) return [];
  return [
    {
      place: sentenceCase(label),
      value: formatCount(stations.length, "section"),
      asWritten: `${formatNumber(first.distanceMm)} to ${formatValue(last.distanceMm, "mm")}`,
      source: `${where(first.source)} to ${last.source.at ?? "the end"}`,
      key: `${first.key} to ${last.key}`,
      remark: `${origin}, patient position ${patientPosition ?? "not stated"}`,
    },
  ];
}

export interface MessageRow {
  severity: string;
  code: string;
  text: string;
  remedy: string;
  place: string;
}

/** A message with its place. */
export function messageRow({ severity, code, text, remedy, place }: Message): MessageRow {
  return { severity, code, text, remedy, place: place === null ? "" : formatPlace(place) };
}
