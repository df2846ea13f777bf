import type { Dictionary } from "../anatomy/dictionary.ts";
import type { Message } from "../message.ts";
import type { CaseRow, DrawnFigure, ReadDocument } from "../readers/reading.ts";
import type { PlanningSettings } from "../site/planning-settings.ts";
import { locateAnastomoses } from "./anastomosis.ts";
import { understandCaseRow, unknownFacts } from "./case-facts.ts";
import { aortaFirst, sheetCentrelines } from "./centrelines.ts";
import { type DrawnMeasurement, drawnCentrelines } from "./drawn-centrelines.ts";
import { type ExamDocuments, examsOf } from "./exams.ts";
import { examFindings, understandFinding } from "./findings.ts";
import { measure } from "./measure.ts";
import { wayMeasured } from "./way-measured.ts";
import { caseMessage } from "./messages.ts";
import type { CaseFacts, Finding, Measurement, PatientCase } from "./patient-case.ts";
import { type DatedCaseRow, type PatientFile, patientFiles } from "./patient-files.ts";
import {
  type FileAside,
  type IdentityOptions,
  issuerWarnings,
  type Person,
  personsOf,
  statedOf,
} from "./persons.ts";
import { plausibilityDoubts } from "./plausibility.ts";
import { drawnRings } from "./rings.ts";
import { positionBySite, type ScanPosition } from "./scan-position.ts";
import { sectionConflicts } from "./section-consistency.ts";
import { repeatedReadings } from "./repeated-readings.ts";
import { type VersionVerdict, versionVerdicts } from "./report-versions.ts";

/** A patient of whom no case can be made, and why. */
export interface FailedCase {
  key: string;
  id: string;
  issuer: string | null;
  failure: Message;
}

export interface BuildOptions extends IdentityOptions {
  /** YYYY-MM-DD; later exams are left out. */
  asOf: string;
  dictionary: Dictionary;
  /** What was said when each report was read, by the digest of its bytes. */
  reportMessages: ReadonlyMap<string, Message[]>;
  /** How patients lie in the scanner where a file does not say; null where the site does not say either. */
  scanPosition: PlanningSettings["scanPosition"];
  /** A step between neighbouring places from which on a diameter is doubted, in mm. */
  neighbourStepMm: number;
}

/** All patients, and the documents and rows of which nothing is used. */
export interface BuiltCases {
  cases: PatientCase[];
  failed: FailedCase[];
  aside: FileAside[];
  /** The digests of the files of each patient, by the patient's key. */
  digests: Map<string, Set<string>>;
  /** The digests of the files of which at least a part is not aside. */
  inUse: Set<string>;
  messages: Message[];
}

/**
 * Puts documents and case rows together by patient (issuer and patient ID). A patient whose files contradict each other
 * about who it is becomes a failed case, and none of its numbers is used until the site decides. Sorted by key; the
 * order of the inputs does not matter.
 */
export function buildCases(
  documents: ReadDocument[],
  caseRows: DatedCaseRow[],
  options: BuildOptions,
): BuiltCases {
  const { persons, aside, messages } = personsOf(patientFiles(documents, caseRows), options);
  const owned = persons.flatMap(({ key, files }) =>
    files.flatMap(({ document }) => (document ? { document, owner: key } : [])),
  );
  const undecided = aside.flatMap(({ why, file: { document } }) =>
    why === "undecided" && document ? { document, owner: "" } : [],
  );
  const verdicts = versionVerdicts([...owned, ...undecided]);
  const built: BuiltCases = {
    cases: [],
    failed: [],
    aside,
    digests: new Map(persons.map(({ key, files }) => [key, digestsOf(files)])),
    inUse: new Set(),
    messages: [...messages, ...issuerWarnings(persons)],
  };
  for (const person of persons) {
    const out = asideOf(person, verdicts);
    built.aside.push(...out);
    const outFiles = new Set(out.map(({ file }) => file));
    for (const digest of digestsOf(person.files.filter((file) => !outFiles.has(file)))) {
      built.inUse.add(digest);
    }
    const result = buildCase(person, verdicts, options);
    if ("failure" in result) built.failed.push(result);
    else built.cases.push(result);
  }
  return built;
}

const digestsOf = (files: PatientFile[]): Set<string> =>
  new Set(files.map(({ stated }) => stated.source.sha256 ?? ""));

/** Files of a patient of which nothing is used: all where they conflict, else the reports with contradicting versions. */
function asideOf(
  { files, conflicts }: Person,
  verdicts: ReadonlyMap<ReadDocument, VersionVerdict>,
): FileAside[] {
  if (conflicts.length > 0) {
    return files.map((file) => ({ file, reasons: conflicts, why: "conflict" }));
  }
  return files.flatMap((file) => {
    const verdict = file.document && verdicts.get(file.document);
    return verdict?.isFault && verdict.message
      ? { file, reasons: [verdict.message], why: "versions" }
      : [];
  });
}

function buildCase(
  person: Person,
  verdicts: ReadonlyMap<ReadDocument, VersionVerdict>,
  options: BuildOptions,
): PatientCase | FailedCase {
  const { key, id, issuer, files, conflicts } = person;
  const [conflict] = conflicts;
  if (conflict) return { key, id, issuer, failure: conflict };
  const messages = [...person.messages];
  const documents = files.flatMap(({ document }) => document ?? []);
  const inForce = documents.filter((document) => {
    const verdict = verdicts.get(document);
    if (verdict?.message) messages.push(verdict.message);
    return verdict?.inForce;
  });
  const inTime = inForce.filter(({ exam: { imagingDate: date }, source }) => {
    if (date <= options.asOf) return true;
    messages.push(caseMessage("exam-after-as-of", source, { date, asOf: options.asOf }));
    return false;
  });
  if (inTime.length === 0) {
    const failure =
      messages.find(({ severity }) => severity === "error") ??
      (documents.length > 0 ? messages.at(-1) : undefined) ??
      caseMessage("case-without-exam", files[0]?.stated.source ?? null);
    return { key, id, issuer, failure };
  }
  for (const { source } of inTime) {
    messages.push(...(options.reportMessages.get(source.sha256 ?? "") ?? []));
  }
  const facts = factsOf(
    files.flatMap(({ row }) => row ?? []),
    messages,
  );
  const groups = examsOf(inTime);
  for (const group of groups) messages.push(...examMessages(group));
  const parts = groups.map((group) => measurementsOf(group, facts, options, messages));
  const measurements = parts.flatMap((part) => part.measurements);
  const findings = groups.flatMap((group) => findingsOf(group, options.dictionary, messages));
  const bySite = positionBySite(options.scanPosition);
  const drawn = groups.map((group, index) =>
    linesAndRings(group, parts[index]?.drawn ?? [], {
      dictionary: options.dictionary,
      bySite,
      messages,
    }),
  );
  return {
    key,
    patient: {
      id,
      issuer,
      name: statedOf(person, "name"),
      birthDate: statedOf(person, "birthDate"),
      sex: statedOf(person, "sex") as PatientCase["patient"]["sex"],
    },
    facts,
    exams: groups.map(({ exam }) => exam),
    measurements,
    findings,
    centrelines: drawn.flatMap(({ centrelines }) => centrelines),
    rings: drawn.flatMap(({ rings }) => rings),
    messages,
  };
}

/** Columns of a case sheet that are no facts of the case. */
const identityColumns: ReadonlySet<string> = new Set<keyof CaseRow>([
  "source",
  "patientId",
  "issuer",
  "name",
  "birthDate",
  "sex",
]);

/** The facts of the latest night's row. Rows of one night that differ leave the differing facts unknown. */
function factsOf(rows: DatedCaseRow[], messages: Message[]): CaseFacts {
  const night = Math.max(...rows.map((dated) => dated.night));
  const latest = rows.filter((dated) => dated.night === night).map(({ row }) => row);
  const [first, ...others] = latest;
  if (!first) {
    messages.push(caseMessage("case-without-row", null));
    return unknownFacts;
  }
  const merged: CaseRow = { ...first };
  for (const other of others) {
    for (const what of Object.keys(first) as (keyof CaseRow)[]) {
      if (identityColumns.has(what) || other[what] === first[what]) continue;
      messages.push(caseMessage("case-rows-differ", other.source, { what }));
      Object.assign(merged, { [what]: null });
    }
  }
  const earlier = rows.find((dated) => dated.night < night)?.row.source.file;
  if (earlier !== undefined) {
    messages.push(caseMessage("case-row-replaced", first.source, { earlier }));
  }
  const understood = understandCaseRow(merged);
  messages.push(...understood.messages);
  return understood.facts;
}

function measurementsOf(
  { exam, documents }: ExamDocuments,
  facts: CaseFacts,
  { dictionary, neighbourStepMm }: BuildOptions,
  messages: Message[],
): { measurements: Measurement[]; drawn: DrawnMeasurement[] } {
  const placed: Measurement[] = [];
  const figures = new Map<string, DrawnFigure>();
  for (const document of documents) {
    for (const reading of document.readings) {
      const result = measure(reading, exam.key, dictionary);
      messages.push(...result.messages);
      if (!result.measurement) continue;
      placed.push(result.measurement);
      if (reading.graphic) figures.set(result.measurement.key, reading.graphic);
    }
  }
  const located = locateAnastomoses(placed, facts, [exam]);
  const measurements = located.measurements.toSorted(alongTheVessel);
  const { imagingDate: date } = exam;
  messages.push(
    ...located.messages,
    ...repeatedReadings(measurements, date),
    ...sectionConflicts(measurements, date),
    ...plausibilityDoubts(measurements, date, { neighbourStepMm }),
  );
  const drawn = measurements.flatMap((measurement): DrawnMeasurement[] => {
    const figure = figures.get(measurement.key);
    return figure ? [{ measurement, figure }] : [];
  });
  return { measurements, drawn };
}

/** The centrelines of one exam, the aorta first, and the rings drawn around its vessels. */
function linesAndRings(
  { exam, documents }: ExamDocuments,
  drawn: readonly DrawnMeasurement[],
  rest: { dictionary: Dictionary; bySite: ScanPosition; messages: Message[] },
): Pick<PatientCase, "centrelines" | "rings"> {
  const { dictionary, bySite, messages } = rest;
  const stated = documents.flatMap(({ stations }) => stations);
  const sheets = sheetCentrelines(stated, exam, { dictionary, bySite });
  const lines = drawnCentrelines(drawn, exam, { bySite, ofSheets: sheets.centrelines });
  const { rings, messages: ofRings } = drawnRings(drawn, exam, bySite);
  messages.push(...sheets.messages, ...lines.messages, ...ofRings);
  const centrelines = [...sheets.centrelines, ...lines.centrelines].toSorted(aortaFirst);
  return { centrelines, rings };
}

function findingsOf(
  { exam, documents }: ExamDocuments,
  dictionary: Dictionary,
  messages: Message[],
): Finding[] {
  const understood: Finding[] = [];
  for (const stated of documents.flatMap((document) => document.findings)) {
    const { finding, message } = understandFinding(stated, exam.key, dictionary);
    if (finding) understood.push(finding);
    else messages.push(message);
  }
  const { findings, messages: differing } = examFindings(understood, exam.imagingDate);
  messages.push(...differing);
  return findings;
}

/** What is to be said of an exam as a whole: reports that are not final, and facts on which its documents disagree. */
function examMessages({ exam, documents }: ExamDocuments): Message[] {
  const messages: Message[] = [];
  const source = documents[0]?.source ?? null;
  const { imagingDate: date } = exam;
  if (exam.reportState.length > 0) {
    const state = exam.reportState.join(", ");
    messages.push(caseMessage("report-not-final", source, { date, state }));
  }
  const flags = new Set(documents.map(({ report }) => report?.preliminary));
  if (flags.has("PRELIMINARY") && flags.has("FINAL")) {
    messages.push(caseMessage("report-preliminary-beside-final", source, { date }));
  }
  const facts = { modality: "the modality", gated: "whether it was gated" } as const;
  for (const [fact, what] of Object.entries(facts) as [keyof typeof facts, string][]) {
    const stated = new Set(documents.flatMap((document) => document.exam[fact] ?? []));
    if (stated.size > 1) messages.push(caseMessage("exam-facts-differ", source, { date, what }));
  }
  return messages;
}

/** Along the vessel, then by what was measured; the key decides only between readings that say the same. */
function alongTheVessel(a: Measurement, b: Measurement): number {
  const rest = (one: Measurement) =>
    JSON.stringify([
      ...wayMeasured(one),
      one.value.toFixed(6).padStart(16),
      one.asWritten,
      one.placeOrigin,
      one.reader,
      one.comment,
      one.key,
    ]);
  return a.place.position - b.place.position || (rest(a) < rest(b) ? -1 : 1);
}
