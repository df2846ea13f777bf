import type { Message } from "../message.ts";
import type { ReadDocument } from "../readers/reading.ts";
import { caseMessage } from "./messages.ts";

/** What became of a report beside the other reports. */
export interface VersionVerdict {
  inForce: boolean;
  /** The reports contradict each other about which is in force; someone has to say. */
  isFault: boolean;
  message: Message | null;
}

/** A document and the key of the person whose it is. */
export interface OwnedDocument {
  document: ReadDocument;
  owner: string;
}

/** The documents under one SOP Instance UID and its declared identical copies. */
interface Report {
  uids: string[];
  documents: OwnedDocument[];
}

/**
 * Judges every structured report of the store at once, because a report can be corrected under another patient ID:
 * - a report that another one names as its predecessor is replaced, whoever the other one is of;
 * - reports that lead back to themselves are all refused;
 * - two different files under one SOP Instance UID, and documents that declare themselves identical and are not, are refused;
 * - of identical documents the one with the first UID counts;
 * - two reports that replace the same one both stand, with a warning.
 * Nothing else replaces a report: a final one beside a preliminary one, or a later one, stands beside it.
 * Sheets are always in force. Source: DICOM PS3.3, SR Document General Module (Predecessor Documents Sequence,
 * Identical Documents Sequence).
 */
export function versionVerdicts(owned: OwnedDocument[]): Map<ReadDocument, VersionVerdict> {
  const reports = reportsOf(owned);
  const successors = successorsOf(owned, reports);
  const verdicts = new Map<ReadDocument, VersionVerdict>();
  for (const one of owned) {
    const { report } = one.document;
    if (report === null) verdicts.set(one.document, standing);
    else {
      const own = reports.get(report.sopInstanceUid);
      if (own) verdicts.set(one.document, verdictOf(one, own, successors, reports));
    }
  }
  return verdicts;
}

const standing: VersionVerdict = { inForce: true, isFault: false, message: null };

function verdictOf(
  { document, owner }: OwnedDocument,
  own: Report,
  successors: ReadonlyMap<string, ReadonlySet<Report>>,
  reports: ReadonlyMap<string, Report>,
): VersionVerdict {
  const { source, exam, report } = document;
  const date = exam.imagingDate;
  const refused = (message: Message): VersionVerdict => ({
    inForce: false,
    isFault: true,
    message,
  });
  const passedOver = (message: Message): VersionVerdict => ({
    inForce: false,
    isFault: false,
    message,
  });
  const later = [...new Set(own.uids.flatMap((uid) => [...(successors.get(uid) ?? [])]))];
  if (leadsBack(own, successors)) {
    return refused(caseMessage("report-versions-in-a-ring", source, { date }));
  }
  if (later.length > 0) {
    const isOwners = later.every(({ documents }) => documents.every((one) => one.owner === owner));
    const by = filesOf(later.flatMap(({ documents }) => documents));
    return isOwners
      ? passedOver(caseMessage("report-superseded", source, { date, by }))
      : refused(caseMessage("report-replaced-elsewhere", source, { date, by }));
  }
  if (!isOneReport(own)) {
    const data = { date, files: filesOf(own.documents) };
    return refused(caseMessage("report-copies-differ", source, data));
  }
  const [first] = own.documents.map((one) => one.document.report?.sopInstanceUid ?? "").toSorted();
  if (report?.sopInstanceUid !== first) {
    const by = filesOf(
      own.documents.filter((one) => one.document.report?.sopInstanceUid === first),
    );
    return passedOver(caseMessage("report-identical", source, { date, by }));
  }
  const rivals = (report?.predecessorUids ?? [])
    .flatMap((uid) => reports.get(uid)?.uids ?? [uid])
    .flatMap((uid) => [...(successors.get(uid) ?? [])])
    .filter((rival) => rival !== own && !rival.uids.some((uid) => successors.has(uid)));
  if (rivals.length === 0) return standing;
  const by = filesOf(rivals.flatMap(({ documents }) => documents));
  return { ...standing, message: caseMessage("report-replaced-twice", source, { date, by }) };
}

const filesOf = (owned: OwnedDocument[]): string =>
  [...new Set(owned.map(({ document }) => document.source.file))].toSorted().join(", ");

/** Reports by each of their UIDs; documents that declare each other identical are one report. */
function reportsOf(owned: OwnedDocument[]): Map<string, Report> {
  const reports = new Map<string, Report>();
  for (const one of owned) {
    const { report } = one.document;
    if (report === null) continue;
    const { sopInstanceUid, identicalUids } = report;
    const joined = [sopInstanceUid, ...identicalUids].flatMap((uid) => reports.get(uid) ?? []);
    const merged: Report = { uids: [sopInstanceUid, ...identicalUids], documents: [one] };
    for (const other of new Set(joined)) {
      merged.uids.push(...other.uids);
      merged.documents.push(...other.documents);
    }
    merged.uids = [...new Set(merged.uids)];
    for (const uid of merged.uids) reports.set(uid, merged);
  }
  return reports;
}

/** For each UID that is replaced, the reports that say so. */
function successorsOf(
  owned: OwnedDocument[],
  reports: ReadonlyMap<string, Report>,
): Map<string, Set<Report>> {
  const successors = new Map<string, Set<Report>>();
  for (const { document } of owned) {
    const own = reports.get(document.report?.sopInstanceUid ?? "");
    if (!own) continue;
    for (const uid of document.report?.predecessorUids ?? []) {
      const list = successors.get(uid) ?? new Set();
      successors.set(uid, list.add(own));
    }
  }
  return successors;
}

function leadsBack(own: Report, successors: ReadonlyMap<string, ReadonlySet<Report>>): boolean {
  const seen = new Set<Report>();
  const open = own.uids.flatMap((uid) => [...(successors.get(uid) ?? [])]);
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    if (next === own) return true;
    if (seen.has(next)) continue;
    seen.add(next);
    open.push(...next.uids.flatMap((uid) => [...(successors.get(uid) ?? [])]));
  }
  return false;
}

/** Whether each UID has one file, all have the same content, and all are of one person. */
function isOneReport({ documents }: Report): boolean {
  if (documents.length === 1) return true;
  const byUid = Map.groupBy(documents, ({ document }) => document.report?.sopInstanceUid);
  const isOneFile = (group: OwnedDocument[]): boolean =>
    new Set(group.map(({ document }) => document.source.sha256)).size === 1;
  const contents = [...byUid.values()].map((group) =>
    JSON.stringify(group.map(({ document }) => contentOf(document)).toSorted()),
  );
  return (
    [...byUid.values()].every(isOneFile) &&
    new Set(contents).size === 1 &&
    new Set(documents.map(({ owner }) => owner)).size === 1
  );
}

const contentOf = ({ exam, readings }: ReadDocument): string =>
  JSON.stringify([
    exam.imagingDate,
    readings.map(({ valueText, qualifier, unit, terms, graphic }) => [
      valueText,
      qualifier,
      unit,
      terms,
      graphic?.points ?? null,
    ]),
  ]);
