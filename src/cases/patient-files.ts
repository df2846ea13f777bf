import type { SourcePlace } from "../message.ts";
import type { CaseRow, ReadDocument } from "../readers/reading.ts";

/** A case sheet row and the night it was first seen (nights count upwards). */
export interface DatedCaseRow {
  row: CaseRow;
  night: number;
}

/** What one document or one case sheet row says of who the patient is. */
export interface StatedIdentity {
  source: SourcePlace;
  id: string;
  issuer: string | null;
  name: string | null;
  birthDate: string | null;
  sex: string | null;
}

/** A document or a case sheet row with what it says of the patient; the other of the two is null. */
export interface PatientFile {
  stated: StatedIdentity;
  document: ReadDocument | null;
  row: DatedCaseRow | null;
}

/** Documents and rows in one order, whatever the order in which they were read. */
export function patientFiles(documents: ReadDocument[], rows: DatedCaseRow[]): PatientFile[] {
  const files: PatientFile[] = [
    ...documents.map((document) => {
      const { source, patient } = document;
      return { stated: { source, ...patient }, document, row: null };
    }),
    ...rows.map((dated) => {
      const { source, patientId: id, issuer, name, birthDate, sex } = dated.row;
      return { stated: { source, id, issuer, name, birthDate, sex }, document: null, row: dated };
    }),
  ];
  const keyed = files.map((file) => ({ file, key: orderKey(file) }));
  return keyed.toSorted((a, b) => (a.key < b.key ? -1 : 1)).map(({ file }) => file);
}

const orderKey = ({ stated: { source }, document }: PatientFile): string =>
  JSON.stringify([source.file, source.sha256, source.at, document?.report?.sopInstanceUid]);
