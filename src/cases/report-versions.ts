import type { Message } from "../message.ts";
import type { ReadDocument } from "../readers/reading.ts";
import { caseMessage } from "./messages.ts";

/**
 * Keeps the reports in force: a report that a later one names as its predecessor is dropped with a note.
 * Two different files under one SOP Instance UID, and reports that replace each other, are all dropped.
 * Source: DICOM PS3.3, SR Document General Module (Predecessor Documents Sequence).
 */
export function reportsInForce(documents: ReadDocument[]): {
  documents: ReadDocument[];
  messages: Message[];
} {
  const messages: Message[] = [];
  const bySop = Map.groupBy(documents, ({ report }) => report?.sopInstanceUid ?? null);
  const successors = new Map<string, string[]>();
  for (const { report } of documents) {
    for (const predecessor of report?.predecessorUids ?? []) {
      const list = successors.get(predecessor) ?? [];
      successors.set(predecessor, [...list, report?.sopInstanceUid ?? ""]);
    }
  }
  const leadsBackToItself = (uid: string): boolean => {
    const seen = new Set<string>();
    const open = [...(successors.get(uid) ?? [])];
    for (let next = open.pop(); next !== undefined; next = open.pop()) {
      if (next === uid) return true;
      if (seen.has(next)) continue;
      seen.add(next);
      open.push(...(successors.get(next) ?? []));
    }
    return false;
  };
  const kept = documents.filter(({ report, source, exam: { imagingDate: date } }) => {
    if (report === null) return true;
    const uid = report.sopInstanceUid;
    const digests = new Set(bySop.get(uid)?.map((document) => document.source.sha256));
    if (digests.size > 1) messages.push(caseMessage("report-copies-differ", source, { date }));
    else if (leadsBackToItself(uid)) {
      messages.push(caseMessage("report-versions-in-a-ring", source, { date }));
    } else if (successors.has(uid)) {
      messages.push(caseMessage("report-superseded", source, { date }));
    } else return true;
    return false;
  });
  return { documents: kept, messages };
}
