import type { Message } from "../message.ts";
import type { CaseRow, ReadDocument } from "../readers/reading.ts";
import { filesOf, type HeldPatient } from "./held-patients.ts";
import type { HeldFile } from "./history.ts";

/** Everything held of one patient, as `history export` writes it. */
export interface PatientExport {
  schema: "aortic-packet/history/1";
  patient: { id: string; issuer: string | null; key: string };
  /** Oldest night first; documents and rows of other patients in the same file are left out. */
  files: (Omit<HeldFile, "messages"> & {
    /** Whether the file holds other patients too. */
    isShared: boolean;
    /** What was said when it was read; null for a shared file, where it may be about other patients. */
    messages: Message[] | null;
    documents: ReadDocument[];
    caseRows: CaseRow[];
  })[];
}

/** The documents and case rows of one patient by file. */
export function exportOf(patient: HeldPatient): PatientExport {
  const { id, issuer, key, parts, shared } = patient;
  return {
    schema: "aortic-packet/history/1",
    patient: { id, issuer, key },
    files: filesOf(patient).map((file) => {
      const own = parts.filter((part) => part.file.sha256 === file.sha256);
      const isShared = shared.has(file.sha256);
      return {
        ...file,
        isShared,
        messages: isShared ? null : file.messages,
        documents: own.flatMap(({ document }) => document ?? []),
        caseRows: own.flatMap(({ row }) => row?.row ?? []),
      };
    }),
  };
}
