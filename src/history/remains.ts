import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { patientKey } from "../cases/identity.ts";
import type { IdentityOptions } from "../cases/persons.ts";
import { filesOf, type HeldPatient } from "./held-patients.ts";

/** Paths in an output folder, relative to it, that still hold something of a patient. */
export interface Remains {
  /** The patient's own reports. The next run takes them away. */
  reports: string[];
  /** Lists of all patients, which the next run writes without this one. */
  lists: string[];
  /** Packets, copies of refused files and copies of the history, which stay until someone deletes them. */
  stay: string[];
}

/**
 * Looks where an output folder holds a patient outside the history. Packets and refused files are searched for the
 * patient ID, so a short ID can be met by chance; a copy of the history always counts.
 */
export function remainsOf(out: string, patient: HeldPatient, identity: IdentityOptions): Remains {
  const inFolder = (folder: string): string[] =>
    existsSync(join(out, folder)) ? readdirSync(join(out, folder)).toSorted() : [];
  const named = (path: string): boolean => readFileSync(join(out, path)).includes(patient.id);
  const keys = personKeys(patient, identity);
  const stems = new Set(filesOf(patient).map(({ sha256 }) => sha256.slice(0, stemLength)));
  const packets = inFolder("packets").filter(
    (date) =>
      existsSync(join(out, "packets", date, "packet.html")) && named(`packets/${date}/packet.html`),
  );
  const refused = inFolder("set-aside").filter(
    (name) => stems.has(name.slice(0, stemLength)) || named(`set-aside/${name}`),
  );
  const copies = inFolder("").filter((name) => /^history\.sqlite\..*\.bak$/.test(name));
  return {
    reports: inFolder("patients")
      .filter((key) => keys.has(key))
      .map((key) => `patients/${key}`),
    lists: listNames.filter((name) => existsSync(join(out, name))),
    stay: [
      ...packets.map((date) => `packets/${date}`),
      ...refused.map((name) => `set-aside/${name}`),
      ...copies,
    ],
  };
}

/** What every run writes of all patients. */
const listNames = [
  "index.html",
  "batch.json",
  "measurements.csv",
  "follow-up.html",
  "follow-up.csv",
];

/** How much of a file's digest names its copy in `set-aside/`. */
const stemLength = 16;

/** The folder names of all persons whom the site has found under the patient's ID. */
function personKeys(
  { key, id, issuer: own }: HeldPatient,
  { identities, issuer }: IdentityOptions,
): Set<string> {
  const labels = identities
    .filter((decision) => patientKey(decision.patientId, decision.issuer ?? issuer) === key)
    .flatMap(({ apart }) => apart ?? [])
    .map(({ as }) => as);
  return new Set([key, ...labels.map((label) => patientKey(id, own, label))]);
}
