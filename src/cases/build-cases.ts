import type { Dictionary } from "../anatomy/dictionary.ts";
import type { Message } from "../message.ts";
import type { CaseRow, ReadDocument } from "../readers/reading.ts";
import { understandCaseRow, unknownFacts } from "./case-facts.ts";
import { type ExamDocuments, examsOf } from "./exams.ts";
import { identityConflict, patientKey, type StatedIdentity } from "./identity.ts";
import { measure } from "./measure.ts";
import { caseMessage } from "./messages.ts";
import type { CaseFacts, Measurement, PatientCase } from "./patient-case.ts";
import { reportsInForce } from "./report-versions.ts";

/** A case sheet row and the night it was first seen (nights count upwards). */
export interface DatedCaseRow {
  row: CaseRow;
  night: number;
}

/** A patient of whom no case can be made, and why. */
export interface FailedCase {
  key: string;
  id: string;
  issuer: string | null;
  failure: Message;
}

export interface BuildOptions {
  /** YYYY-MM-DD; later exams are left out. */
  asOf: string;
  /** Issuer of patient IDs that name none; null: they stand for themselves. */
  issuer: string | null;
  dictionary: Dictionary;
  /** What was said when each report was read, by the digest of its bytes. */
  reportMessages: ReadonlyMap<string, Message[]>;
}

/**
 * Puts documents and case rows together by patient (issuer and patient ID). A patient whose files
 * contradict each other about who it is becomes a failed case, and none of its numbers is used.
 * Sorted by key; the order of the inputs does not matter.
 */
export function buildCases(
  documents: ReadDocument[],
  caseRows: DatedCaseRow[],
  options: BuildOptions,
): { cases: PatientCase[]; failed: FailedCase[]; messages: Message[] } {
  const patients = new Map<string, { documents: ReadDocument[]; rows: DatedCaseRow[] }>();
  const patientOf = (id: string, issuer: string | null) => {
    const key = patientKey(id, issuer ?? options.issuer);
    const patient = patients.get(key) ?? { documents: [], rows: [] };
    patients.set(key, patient);
    return patient;
  };
  for (const document of documents) {
    patientOf(document.patient.id, document.patient.issuer).documents.push(document);
  }
  for (const dated of caseRows) patientOf(dated.row.patientId, dated.row.issuer).rows.push(dated);

  const cases: PatientCase[] = [];
  const failed: FailedCase[] = [];
  for (const key of [...patients.keys()].toSorted()) {
    const { documents: own, rows } = patients.get(key) ?? { documents: [], rows: [] };
    const result = buildCase(key, own.toSorted(bySource), rows, options);
    if ("failure" in result) failed.push(result);
    else cases.push(result);
  }
  return { cases, failed, messages: issuerWarnings([...cases.map(identityOf), ...failed]) };
}

const bySource = (a: ReadDocument, b: ReadDocument): number => {
  const key = ({ source, report }: ReadDocument) =>
    JSON.stringify([source.file, source.sha256, source.at, report?.sopInstanceUid]);
  return key(a) < key(b) ? -1 : 1;
};

const identityOf = ({ patient: { id, issuer } }: PatientCase) => ({ id, issuer });

/** Says where one ID occurs both with and without an issuer: they stay two patients. */
function issuerWarnings(patients: { id: string; issuer: string | null }[]): Message[] {
  const withoutIssuer = new Set(
    patients.filter(({ issuer }) => issuer === null).map(({ id }) => id),
  );
  return patients
    .filter(({ id, issuer }) => issuer !== null && withoutIssuer.has(id))
    .map(({ id, issuer }) =>
      caseMessage("identity-issuer-not-stated", null, { id, issuer: issuer ?? "" }),
    );
}

function buildCase(
  key: string,
  documents: ReadDocument[],
  rows: DatedCaseRow[],
  options: BuildOptions,
): PatientCase | FailedCase {
  const statements = [...documents.map(statedByDocument), ...rows.map(statedByRow)];
  const [first] = statements;
  if (!first) throw new Error("a patient without any file");
  const { id } = first;
  const issuer = first.issuer ?? options.issuer;
  const conflict = identityConflict(statements);
  if (conflict) return { key, id, issuer, failure: conflict };
  const inForce = reportsInForce(documents);
  const messages = [...inForce.messages];
  const inTime = inForce.documents.filter(({ exam: { imagingDate: date }, source }) => {
    if (date <= options.asOf) return true;
    messages.push(caseMessage("exam-after-as-of", source, { date, asOf: options.asOf }));
    return false;
  });
  if (inTime.length === 0) {
    const failure =
      messages.find(({ severity }) => severity === "error") ??
      messages[0] ??
      caseMessage("case-without-exam", first.source);
    return { key, id, issuer, failure };
  }
  for (const { source } of inTime) {
    messages.push(...(options.reportMessages.get(source.sha256 ?? "") ?? []));
  }
  const facts = factsOf(rows, messages);
  const groups = examsOf(inTime);
  const measurements = groups.flatMap((group) =>
    measurementsOf(group, options.dictionary, messages),
  );
  const state = (aspect: "name" | "birthDate" | "sex") =>
    statements.find((statement) => statement[aspect] !== null)?.[aspect] ?? null;
  return {
    key,
    patient: {
      id,
      issuer,
      name: state("name"),
      birthDate: state("birthDate"),
      sex: state("sex") as PatientCase["patient"]["sex"],
    },
    facts,
    exams: groups.map(({ exam }) => exam),
    measurements,
    messages,
  };
}

const statedByDocument = ({ source, patient }: ReadDocument): StatedIdentity => ({
  source,
  ...patient,
});

const statedByRow = ({ row }: DatedCaseRow): StatedIdentity => ({
  source: row.source,
  id: row.patientId,
  issuer: row.issuer,
  name: row.name,
  birthDate: row.birthDate,
  sex: row.sex,
});

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
      if (what === "source" || other[what] === merged[what]) continue;
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
  dictionary: Dictionary,
  messages: Message[],
): Measurement[] {
  const measurements: Measurement[] = [];
  for (const document of documents) {
    for (const reading of document.readings) {
      const result = measure(reading, exam.key, dictionary);
      messages.push(...result.messages);
      if (result.measurement) measurements.push(result.measurement);
    }
  }
  const [source] = documents;
  if (exam.reportState.length > 0 && source) {
    const data = { date: exam.imagingDate, state: exam.reportState.join(", ") };
    messages.push(caseMessage("report-not-final", source.source, data));
  }
  measurements.sort((a, b) => a.place.position - b.place.position || (a.key < b.key ? -1 : 1));
  messages.push(...differences(measurements, exam.imagingDate));
  return measurements;
}

/** Two readings of the same thing in the same exam that differ. */
function differences(measurements: Measurement[], date: string): Message[] {
  const groups = Map.groupBy(measurements, (one) =>
    JSON.stringify([one.place.id, one.quantity, one.statistic, one.lumen, one.edge, one.path]),
  );
  return [...groups.values()].flatMap((group) => {
    const values = [...new Set(group.map(({ value }) => value))];
    const [first] = group;
    if (!first || values.length < 2) return [];
    return caseMessage("readings-differ", first.source, {
      number: `${first.quantity} at ${first.place.label}`,
      date,
      values: values.map((value) => `${value} ${first.unit}`).join(", "),
    });
  });
}
