import type { Dictionary } from "../anatomy/dictionary.ts";
import { examsOf } from "../cases/exams.ts";
import { filesOf, type HeldPatient } from "../history/held-patients.ts";
import {
  type Difference,
  type ExamVersion,
  heldExams,
  heldRows,
} from "../history/held-versions.ts";
import type { Standing } from "../history/standing.ts";
import { formatPlace } from "../message.ts";
import type { ReadDocument } from "../readers/reading.ts";
import type { Terminal } from "./verb.ts";

/** One patient of the history in short. */
export interface PatientOverview {
  key: string;
  id: string;
  issuer: string | null;
  /** Every spelling that is stated; likewise birth dates and sexes. */
  names: string[];
  birthDates: string[];
  sexes: string[];
  exams: number;
  /** YYYY-MM-DD; null where only case rows are held. */
  firstExam: string | null;
  lastExam: string | null;
  files: { name: string; sha256: string; kind: string; night: number; asOf: string }[];
}

/** What the history holds of a patient, in short. */
export function overviewOf(patient: HeldPatient): PatientOverview {
  const { key, id, issuer, parts } = patient;
  const stated = (aspect: "name" | "birthDate" | "sex"): string[] => [
    ...new Set(parts.flatMap((part) => part.stated[aspect] ?? [])),
  ];
  const exams = examsOf(parts.flatMap(({ document }) => document ?? []));
  return {
    key,
    id,
    issuer,
    names: stated("name"),
    birthDates: stated("birthDate"),
    sexes: stated("sex"),
    exams: exams.length,
    firstExam: exams[0]?.exam.imagingDate ?? null,
    lastExam: exams.at(-1)?.exam.imagingDate ?? null,
    files: filesOf(patient).map(({ name, sha256, kind, night, asOf }) => ({
      name,
      sha256,
      kind,
      night,
      asOf,
    })),
  };
}

/** One line a patient. */
export function printOverview(overviews: PatientOverview[], terminal: Terminal): void {
  for (const overview of overviews) terminal.print(lineOf(overview));
  terminal.print(counted(overviews.length, "patient"));
}

function lineOf({ id, issuer, names, exams, firstExam, lastExam, files, key }: PatientOverview) {
  const who = `${id}, ${issuer === null ? "no issuer" : `issuer ${issuer}`}`;
  const name = names.join(" / ") || "no name";
  const dates =
    firstExam === null ? "no exam" : `${counted(exams, "exam")}, ${firstExam} to ${lastExam}`;
  return `${who}: ${name}; ${dates}; ${counted(files.length, "file")}; key ${key}`;
}

/** "1 file", "2 files". */
export const counted = (count: number, what: string): string =>
  `${count} ${what}${count === 1 ? "" : "s"}`;

/** What the versions of exams are judged and read with. */
interface ListBasis {
  standing: ReadonlyMap<ReadDocument, Standing>;
  dictionary: Dictionary;
}

/** Each patient with every version of every exam, and what the versions state differently. */
export function printPatient(
  patients: HeldPatient[],
  { standing, dictionary }: ListBasis,
  { terminal, json }: { terminal: Terminal; json: boolean },
): void {
  const details = patients.map((patient) => ({
    ...overviewOf(patient),
    heldExams: heldExams(patient, standing, dictionary),
    caseRows: heldRows(patient),
  }));
  if (json) {
    terminal.print(JSON.stringify({ patients: details }, null, 2));
    return;
  }
  for (const { heldExams: exams, caseRows, ...overview } of details) {
    terminal.print(lineOf(overview));
    const { birthDates, sexes } = overview;
    if (birthDates.length > 0) terminal.print(`  born ${birthDates.join(" / ")}`);
    if (sexes.length > 0) terminal.print(`  sex ${sexes.join(" / ")}`);
    for (const { exam, modality, versions, differences } of exams) {
      terminal.print(`exam ${exam}, ${modality ?? "modality not stated"}`);
      for (const version of versions) terminal.print(`  ${versionLine(version)}`);
      printDifferences(differences, terminal);
    }
    if (caseRows.versions.length === 0) continue;
    terminal.print("case sheet; the rows of the latest night count");
    for (const { night, asOf, source } of caseRows.versions) {
      terminal.print(`  night ${night} (${asOf}): ${formatPlace(source)}`);
    }
    printDifferences(caseRows.differences, terminal);
  }
}

function versionLine(version: ExamVersion): string {
  const { night, asOf, source, numbers, findings, sections, isUsed, reason } = version;
  const counts = [
    counted(numbers, "number"),
    counted(findings, "finding"),
    counted(sections, "section"),
  ].join(", ");
  const state = isUsed ? "in force" : "not used";
  const why = reason === null ? "" : `: ${reason.text}`;
  return `night ${night} (${asOf}): ${formatPlace(source)}, ${counts}; ${state}${why}`;
}

function printDifferences(differences: Difference[], terminal: Terminal): void {
  for (const { what, values } of differences) {
    const each = values.map(
      ({ value, night, source }) =>
        `${value ?? "not stated"} (night ${night}, ${formatPlace(source)})`,
    );
    terminal.print(`  differs: ${what}: ${each.join("; ")}`);
  }
}
