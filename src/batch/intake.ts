import { buildDictionary, type Dictionary } from "../anatomy/dictionary.ts";
import { buildCases, type DatedCaseRow, type FailedCase } from "../cases/build-cases.ts";
import { patientKey } from "../cases/identity.ts";
import { measure } from "../cases/measure.ts";
import type { PatientCase } from "../cases/patient-case.ts";
import type { FileToStore, History } from "../history/history.ts";
import type { Message } from "../message.ts";
import type { ReadFile } from "../readers/reading.ts";
import type { BatchSummary } from "../report/batch-summary.ts";
import type { SiteConfig } from "../site/site-config.ts";
import { inputFiles, readInputFile } from "./input-files.ts";
import { batchMessage } from "./messages.ts";

type FileRow = BatchSummary["files"][number];

/** A file of tonight with what became of it. `details` are the messages about its single numbers and rows. */
export interface FiledFile {
  row: FileRow;
  details: Message[];
  bytes: Uint8Array;
  /** Null where nothing of it is stored. */
  toStore: FileToStore | null;
}

/** Tonight's files, and all cases of the history and tonight together. */
export interface Intake {
  files: FiledFile[];
  cases: PatientCase[];
  failed: FailedCase[];
  /** Keys of the patients of whom tonight's folder said something new. */
  changed: ReadonlySet<string>;
  messages: Message[];
}

/**
 * Reads and judges a folder without writing anything: each file is used, already known, skipped (not an aortic
 * report) or set aside with the reason, and all documents are put together into cases.
 */
export function takeIn(
  folder: string,
  history: History,
  options: { asOf: string; site: SiteConfig; onFile: (done: number, total: number) => void },
): Intake {
  const { asOf, site } = options;
  const dictionary = buildDictionary(site);
  const seen = new Set<string>();
  const names = inputFiles(folder);
  const files = names.map((name, index) => {
    const filed = fileOne(folder, name, history, seen, dictionary);
    options.onFile(index + 1, names.length);
    return filed;
  });

  const fresh = files.flatMap(({ toStore }) => (toStore ? [toStore.read] : []));
  const freshDigests = new Set(fresh.map(({ sha256 }) => sha256));
  const night = history.latestNight() + 1;
  const isOld = ({ source }: { source: { sha256: string | null } }) =>
    !freshDigests.has(source.sha256 ?? "");
  const rows: DatedCaseRow[] = [
    ...history.caseRows().filter(({ row }) => isOld(row)),
    ...fresh.flatMap(({ caseRows }) => caseRows.map((row) => ({ row, night }))),
  ];
  const documents = [
    ...history.documents().filter(isOld),
    ...fresh.flatMap((read) => read.documents),
  ];
  const reportMessages = history.reportMessages();
  for (const read of fresh) {
    if (read.kind === "structured report") reportMessages.set(read.sha256, read.messages);
  }
  const built = buildCases(documents, rows, {
    asOf,
    issuer: site.issuer,
    dictionary,
    reportMessages,
  });
  setConflictsAside(files, built.failed, site.issuer);
  const keysOf = (read: ReadFile) => patientKeysOf(read, site.issuer);
  return { files, ...built, changed: new Set(fresh.flatMap((read) => keysOf(read))) };
}

function patientKeysOf({ documents, caseRows }: ReadFile, issuer: string | null): string[] {
  return [
    ...documents.map(({ patient }) => patientKey(patient.id, patient.issuer ?? issuer)),
    ...caseRows.map((row) => patientKey(row.patientId, row.issuer ?? issuer)),
  ];
}

function fileOne(
  folder: string,
  name: string,
  history: History,
  seen: Set<string>,
  dictionary: Dictionary,
): FiledFile {
  const { read, bytes } = readInputFile(folder, name);
  const { sha256, kind, setAside, messages } = read;
  const place = { file: name, sha256, at: null };
  const filed = (
    outcome: FileRow["outcome"],
    reason: Message | null,
    rest: Partial<FileRow> & { details?: Message[]; toStore?: FileToStore } = {},
  ): FiledFile => {
    const { details = messages, toStore = null, ...counts } = rest;
    const row = {
      file: name,
      sha256: sha256 || null,
      kind,
      outcome,
      reason,
      placed: 0,
      leftOut: 0,
      ...counts,
    };
    return { row, details, bytes, toStore };
  };
  if (setAside) {
    return filed(kind === "not for this program" ? "skipped" : "set-aside", setAside);
  }
  if (history.knows(sha256) || seen.has(sha256)) {
    return filed("already-known", batchMessage("file-already-known", place), { details: [] });
  }
  seen.add(sha256);
  const readings = read.documents.flatMap((document) => document.readings);
  const results = readings.map((reading) => measure(reading, "", dictionary));
  const placed = results.filter(({ measurement }) => measurement !== null).length;
  const leftOut = results.length - placed;
  const details = [...messages, ...results.flatMap((result) => result.messages)];
  if (kind === "structured report" && readings.length === 0) {
    return filed("set-aside", batchMessage("file-without-numbers", place), { details });
  }
  if (readings.length > 0 && placed === 0) {
    const reason = batchMessage("file-nothing-placed", place, { count: readings.length });
    return filed("set-aside", reason, { leftOut, details });
  }
  return filed("used", null, { placed, leftOut, details, toStore: { read, isWhole: true } });
}

/** Takes the parts that belong to a conflicting patient out of what is stored; a file of nothing else is set aside. */
function setConflictsAside(files: FiledFile[], failed: FailedCase[], issuer: string | null): void {
  const conflicts = new Map(
    failed
      .filter(({ failure }) => failure.code === "identity-conflict")
      .map(({ key, failure }) => [key, failure]),
  );
  for (const filed of files) {
    const read = filed.toStore?.read;
    if (!read) continue;
    const keys = patientKeysOf(read, issuer);
    const conflict = keys.find((key) => conflicts.has(key));
    if (conflict === undefined) continue;
    const failure = conflicts.get(conflict);
    if (failure) filed.details.push(failure);
    const isClean = (id: string, own: string | null) =>
      !conflicts.has(patientKey(id, own ?? issuer));
    const documents = read.documents.filter(({ patient }) => isClean(patient.id, patient.issuer));
    const caseRows = read.caseRows.filter((row) => isClean(row.patientId, row.issuer));
    if (documents.length + caseRows.length > 0) {
      filed.toStore = { read: { ...read, documents, caseRows }, isWhole: false };
      continue;
    }
    filed.toStore = null;
    const place = { file: read.file, sha256: read.sha256, at: null };
    filed.row = {
      ...filed.row,
      outcome: "set-aside",
      reason: batchMessage("file-identity-conflict", place),
      placed: 0,
    };
  }
}
