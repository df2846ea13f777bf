import { buildDictionary, type Dictionary } from "../anatomy/dictionary.ts";
import { buildCases, type BuiltCases } from "../cases/build-cases.ts";
import { understandFinding } from "../cases/findings.ts";
import { measure } from "../cases/measure.ts";
import { placeStations } from "../cases/stations.ts";
import type { DatedCaseRow, PatientFile } from "../cases/patient-files.ts";
import type { History, Night } from "../history/history.ts";
import type { Message } from "../message.ts";
import type { ReadDocument, ReadFile } from "../readers/reading.ts";
import type { SiteConfig } from "../site/site-config.ts";
import { type FiledFile, type FilePart, type FileRow, placeKey } from "./filed-file.ts";
import { inputFiles, readInputFile } from "./input-files.ts";
import { judgeAside } from "./judge-aside.ts";
import { batchMessage } from "./messages.ts";
import { isReadAsBefore } from "./read-as-before.ts";
import { withdrawnFiles } from "./withdrawn-files.ts";

/** Tonight's files, and all cases of the history and tonight together. */
export interface Intake extends Pick<BuiltCases, "cases" | "failed" | "inUse" | "messages"> {
  files: FiledFile[];
  /** Keys of the patients of whom tonight's folder said something new. */
  changed: ReadonlySet<string>;
  /** What the store has to remember of tonight. */
  night: Night;
}

/** What an intake stands on besides the folder and the history. */
export interface IntakeOptions {
  /** YYYY-MM-DD. */
  asOf: string;
  site: SiteConfig;
  onFile: (done: number, total: number) => void;
}

/**
 * Reads and judges a folder without writing anything: each file is used, already known, skipped (not an aortic
 * report, or left out by the site) or set aside with the reason, and all documents are put together into cases.
 */
export function takeIn(folder: string, history: History, options: IntakeOptions): Intake {
  const dictionary = buildDictionary(options.site);
  const seen = new Set<string>();
  const entries = inputFiles(folder);
  const filed = entries.map((entry, index) => {
    const read = readInputFile(folder, entry, options.site);
    const one = fileOne(read, history, seen, dictionary);
    options.onFile(index + 1, entries.length);
    return one;
  });
  const fresh = filed.flatMap(({ isFresh, read }) => (isFresh ? read : []));
  const first = build(fresh, [], history, dictionary, options);
  const isComplete = filed.every(({ read }) => read.sha256 !== "");
  const { issuer } = options.site;
  const inFolder = new Set(filed.map(({ read }) => read.sha256));
  const withdrawn = isComplete ? withdrawnFiles(first.aside, inFolder, { history, issuer }) : [];
  const built =
    withdrawn.length === 0 ? first : build(fresh, withdrawn, history, dictionary, options);

  const waiting = built.aside.filter(({ why }) => why !== "decided");
  const digests = new Set(fresh.map(({ sha256 }) => sha256));
  const changed = [...built.digests].filter(([, own]) => !own.isDisjointFrom(digests));
  return {
    files: judgeAside(filed, built.aside),
    cases: built.cases,
    failed: built.failed,
    inUse: built.inUse,
    changed: new Set(changed.map(([key]) => key)),
    night: {
      files: fresh,
      held: new Set(waiting.map(({ file }) => file.stated.source.sha256 ?? "")),
      withdrawn,
    },
    messages: [
      ...built.messages,
      ...withdrawn.map(({ stated: { source } }) => batchMessage("file-withdrawn", source)),
    ],
  };
}

/** Builds the cases of the store and tonight's files, without what was withdrawn. */
function build(
  fresh: ReadFile[],
  withdrawn: PatientFile[],
  history: History,
  dictionary: Dictionary,
  { asOf, site }: IntakeOptions,
): BuiltCases {
  const freshDigests = new Set(fresh.map(({ sha256 }) => sha256));
  const gone = new Set(withdrawn.map(({ stated }) => placeKey(stated.source)));
  const isIn = ({ source }: Pick<ReadDocument, "source">): boolean =>
    !freshDigests.has(source.sha256 ?? "") && !gone.has(placeKey(source));
  const tonight = history.latestNight() + 1;
  const rows: DatedCaseRow[] = [
    ...history.caseRows().filter(({ row }) => isIn(row)),
    ...fresh.flatMap(({ caseRows, sha256 }) => {
      const night = history.stored(sha256)?.night ?? tonight;
      return caseRows.map((row) => ({ row, night }));
    }),
  ];
  const documents = [
    ...history.documents().filter(isIn),
    ...fresh.flatMap((read) => read.documents),
  ];
  const reportMessages = history.reportMessages();
  for (const read of fresh) {
    if (read.kind === "structured report") reportMessages.set(read.sha256, read.messages);
  }
  const { issuer, identities, neighbourStepMm, planning } = site;
  return buildCases(documents, rows, {
    asOf,
    issuer,
    identities,
    dictionary,
    reportMessages,
    neighbourStepMm,
    scanPosition: planning.scanPosition,
  });
}

function fileOne(
  read: ReadFile,
  history: History,
  seen: Set<string>,
  dictionary: Dictionary,
): FiledFile {
  const { file, sha256, kind, setAside, messages } = read;
  const place = { file, sha256, at: null };
  const filed = (
    outcome: FileRow["outcome"],
    reason: Message | null,
    rest: { leftOut?: number; placed?: number; details?: Message[]; parts?: FilePart[] } = {},
  ): FiledFile => {
    const { details = messages, parts = [], placed = 0, leftOut = 0 } = rest;
    const row = { file, sha256: sha256 || null, kind, outcome, reason, placed, leftOut };
    return { row, details, read, parts, isFresh: outcome === "used" };
  };
  if (setAside) {
    return filed(kind === "not for this program" ? "skipped" : "set-aside", setAside);
  }
  const parts: FilePart[] = [
    ...read.documents.map((document) => partOf(document, dictionary)),
    ...read.caseRows.map(({ source }) => ({ source, placed: 0, leftOut: 0, messages: [] })),
  ];
  const isSettled = history.stored(sha256)?.isSettled === true && isReadAsBefore(read, history);
  if (isSettled || seen.has(sha256)) {
    const reason = batchMessage("file-already-known", place);
    return filed("already-known", reason, { details: [], parts });
  }
  seen.add(sha256);
  const sum = (what: "placed" | "leftOut"): number =>
    parts.reduce((total, part) => total + part[what], 0);
  const [placed, leftOut] = [sum("placed"), sum("leftOut")];
  const details = [...messages, ...parts.flatMap((part) => part.messages)];
  if (leftOut > 0 && placed === 0) {
    const reason = batchMessage("file-nothing-placed", place, { count: leftOut });
    return filed("set-aside", reason, { leftOut, details });
  }
  return filed("used", null, { placed, leftOut, details, parts });
}

function partOf(
  { source, readings, findings, stations }: ReadDocument,
  dictionary: Dictionary,
): FilePart {
  const measured = readings.map((reading) => measure(reading, "", dictionary));
  const found = findings.map((stated) => understandFinding(stated, "", dictionary));
  const sections = placeStations(stations, dictionary);
  const placed =
    measured.filter(({ measurement }) => measurement !== null).length +
    found.filter(({ finding }) => finding !== null).length +
    sections.placed.length;
  return {
    source,
    placed,
    leftOut: measured.length + found.length + stations.length - placed,
    messages: [
      ...measured.flatMap(({ messages }) => messages),
      ...found.flatMap(({ message }) => message ?? []),
      ...sections.messages,
    ],
  };
}
