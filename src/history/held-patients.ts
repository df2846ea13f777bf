import { patientKey } from "../cases/identity.ts";
import type { Message } from "../message.ts";
import type { HeldFile, HeldPart } from "./history.ts";
import { historyMessage } from "./messages.ts";

/** Everything that the history holds under one patient ID of one issuer. */
export interface HeldPatient {
  /** The name of the patient's output folder, as long as the site has not told several persons apart. */
  key: string;
  id: string;
  issuer: string | null;
  /** In the order of the nights. */
  parts: HeldPart[];
  /** Digests of the files that hold other patients too. */
  shared: ReadonlySet<string>;
}

/** The parts by patient; `issuer` is that of IDs which name none. Sorted by ID, then by issuer. */
export function heldPatients(parts: readonly HeldPart[], issuer: string | null): HeldPatient[] {
  const keyOf = ({ stated }: HeldPart): string => patientKey(stated.id, stated.issuer ?? issuer);
  const patientsOfFile = new Map<string, Set<string>>();
  for (const part of parts) {
    const keys = patientsOfFile.get(part.file.sha256) ?? new Set();
    patientsOfFile.set(part.file.sha256, keys.add(keyOf(part)));
  }
  const shared = new Set(
    [...patientsOfFile].filter(([, keys]) => keys.size > 1).map(([sha256]) => sha256),
  );
  const patients = [...Map.groupBy(parts, keyOf)].map(([key, own]): HeldPatient => {
    const { id = "", issuer: stated = null } = own[0]?.stated ?? {};
    const digests = new Set(own.map(({ file }) => file.sha256));
    return {
      key,
      id,
      issuer: stated ?? issuer,
      parts: own,
      shared: digests.intersection(shared),
    };
  });
  const order = ({ id, issuer: own }: HeldPatient): string => JSON.stringify([id, own]);
  return patients.toSorted((a, b) => (order(a) < order(b) ? -1 : 1));
}

/** Which patient is asked for: an ID or a key, and an issuer; null asks for none in particular. */
export interface WantedPatient {
  patient: string | null;
  issuer: string | null;
}

/** The patients that fit what is asked for, or the message that there is none. */
export function findPatients(
  patients: HeldPatient[],
  { patient, issuer }: WantedPatient,
): { found: HeldPatient[] } | { failure: Message } {
  const found = patients.filter(
    (one) =>
      (patient === null || one.id === patient || one.key === patient) &&
      (issuer === null || one.issuer === issuer),
  );
  if (found.length > 0 || (patient === null && issuer === null)) return { found };
  const id = [patient, issuer === null ? null : `issuer ${issuer}`]
    .filter((word) => word !== null)
    .join(", ");
  return { failure: historyMessage("history-patient-unknown", null, { id }) };
}

/** The one patient that fits, or the message that there is none or more than one. */
export function findPatient(
  patients: HeldPatient[],
  wanted: WantedPatient,
): { one: HeldPatient } | { failure: Message } {
  const result = findPatients(patients, wanted);
  if ("failure" in result) return result;
  const { found } = result;
  const [one] = found;
  if (one && found.length === 1) return { one };
  const data = {
    id: one?.id ?? "",
    count: found.length,
    issuers: found.map(({ issuer }) => issuer ?? "none stated").join(", "),
    keys: found.map(({ key }) => key).join(", "),
  };
  return { failure: historyMessage("history-patient-ambiguous", null, data) };
}

/** The files of a patient, each once. */
export const filesOf = ({ parts }: HeldPatient): HeldFile[] => [
  ...new Map(parts.map(({ file }) => [file.sha256, file])).values(),
];
