import type { Dictionary } from "../anatomy/dictionary.ts";
import { examsOf } from "../cases/exams.ts";
import { measure } from "../cases/measure.ts";
import type { SourcePlace } from "../message.ts";
import { quantities } from "../quantities/measured-quantity.ts";
import type { CaseRow, ReadDocument } from "../readers/reading.ts";
import type { HeldPatient } from "./held-patients.ts";
import type { HeldPart } from "./history.ts";
import type { Standing } from "./standing.ts";

/** A value and the night and place from which it came. */
export interface HeldValue {
  /** As it is written; null where the row states nothing. */
  value: string | null;
  night: number;
  source: SourcePlace;
}

/** Something that the versions state differently, oldest night first. It is not said which is right. */
export interface Difference {
  what: string;
  values: HeldValue[];
}

/** One document of an exam: the numbers, findings and sections of one report, or of one sheet. */
export interface ExamVersion extends Standing {
  night: number;
  asOf: string;
  source: SourcePlace;
  /** SOP Instance UID; null for a sheet. */
  reportUid: string | null;
  numbers: number;
  findings: number;
  /** Sections of centrelines. */
  sections: number;
}

/** One exam with every document that was ever read of it, oldest night first. */
export interface HeldExam {
  exam: string;
  modality: string | null;
  versions: ExamVersion[];
  differences: Difference[];
}

/** The exams of a patient, earliest first, with what each night brought of them. */
export function heldExams(
  { parts }: HeldPatient,
  standing: ReadonlyMap<ReadDocument, Standing>,
  dictionary: Dictionary,
): HeldExam[] {
  const partOf = new Map(parts.flatMap((part) => (part.document ? [[part.document, part]] : [])));
  return examsOf([...partOf.keys()]).map(({ exam, documents }) => {
    const ordered = [...partOf].filter(([document]) => documents.includes(document));
    return {
      exam: exam.key,
      modality: exam.modality,
      versions: ordered.map(([document, { file }]) => ({
        night: file.night,
        asOf: file.asOf,
        source: document.source,
        reportUid: document.report?.sopInstanceUid ?? null,
        numbers: document.readings.length,
        findings: document.findings.length,
        sections: document.stations.length,
        ...(standing.get(document) ?? { isUsed: true, reason: null }),
      })),
      differences: numberDifferences(ordered, dictionary),
    };
  });
}

/** The numbers of one exam that two documents state differently. */
function numberDifferences(
  documents: [ReadDocument, HeldPart][],
  dictionary: Dictionary,
): Difference[] {
  const stated = documents.flatMap(([document, { file }]) =>
    document.readings.flatMap((reading) => {
      const { measurement } = measure(reading, "", dictionary);
      if (!measurement) return [];
      const { place, quantity, statistic, lumen, edge, path, plane, phase } = measurement;
      const what = `${place.label}, ${quantities[quantity].label}, statistic ${statistic}, edge ${edge}, lumen ${lumen}`;
      const { asWritten, value, unit } = measurement;
      return {
        same: JSON.stringify([place.id, quantity, statistic, lumen, edge, path, plane, phase]),
        what,
        document,
        number: `${value} ${unit}`,
        held: { value: asWritten, night: file.night, source: measurement.source },
      };
    }),
  );
  const groups = Map.groupBy(stated, ({ same }) => same);
  return [...groups.values()].flatMap((group) => {
    const byDocument = Map.groupBy(group, ({ document }) => document);
    const numbers = [...byDocument.values()].map((own) =>
      JSON.stringify(own.map(({ number }) => number).toSorted()),
    );
    if (new Set(numbers).size < 2) return [];
    return { what: group[0]?.what ?? "", values: group.map(({ held }) => held) };
  });
}

/** One row of a case sheet. */
export interface RowVersion {
  night: number;
  asOf: string;
  source: SourcePlace;
}

/** The case rows of a patient, oldest night first, with the columns in which they differ. */
export function heldRows({ parts }: HeldPatient): {
  versions: RowVersion[];
  differences: Difference[];
} {
  const rows = parts.flatMap(({ row, file }) => (row ? { row: row.row, file } : []));
  const columns = new Set(rows.flatMap(({ row }) => Object.keys(row) as (keyof CaseRow)[]));
  columns.delete("source");
  const differences = [...columns].flatMap((column): Difference | [] => {
    const values = rows.map(({ row, file }) => {
      const value = row[column] ?? null;
      return {
        value: value === null ? null : String(value),
        night: file.night,
        source: row.source,
      };
    });
    if (new Set(values.map(({ value }) => value)).size < 2) return [];
    return { what: headingOf(column), values };
  });
  const versions = rows.map(({ row, file }) => ({
    night: file.night,
    asOf: file.asOf,
    source: row.source,
  }));
  return { versions, differences };
}

/** "heightCm" as the sheet's heading "height_cm". */
const headingOf = (column: string): string =>
  column.replaceAll(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
