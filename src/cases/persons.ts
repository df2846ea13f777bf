import type { Message } from "../message.ts";
import type { IdentityDecision } from "../site/identity-decisions.ts";
import {
  type Aspect,
  identityConflicts,
  nameSpellings,
  patientKey,
  statedValue,
} from "./identity.ts";
import { applyDecision } from "./identity-decision.ts";
import { caseMessage } from "./messages.ts";
import type { PatientFile } from "./patient-files.ts";

/** One person: all files that speak of them, and the contradictions between those. */
export interface Person {
  key: string;
  /** The patient ID; with the site's label in brackets where several persons share it. */
  id: string;
  issuer: string | null;
  files: PatientFile[];
  messages: Message[];
  /** Empty where the files agree about who it is. */
  conflicts: Message[];
}

/** A document or row of which nothing is used, and why. */
export interface FileAside {
  file: PatientFile;
  reasons: Message[];
  /** `decided`: the site left it out; the others wait for someone to decide or correct. */
  why: "conflict" | "undecided" | "versions" | "decided";
}

/** How a run knows patients apart. */
export interface IdentityOptions {
  /** Issuer of patient IDs that name none; null: they stand for themselves. */
  issuer: string | null;
  /** The site's decisions about patient IDs whose files disagree. */
  identities: readonly IdentityDecision[];
}

/** Puts files together by issuer and patient ID and applies the site's decisions. Sorted by key. */
export function personsOf(
  files: PatientFile[],
  { issuer, identities }: IdentityOptions,
): { persons: Person[]; aside: FileAside[]; messages: Message[] } {
  const byKey = Map.groupBy(files, ({ stated }) => patientKey(stated.id, stated.issuer ?? issuer));
  const persons: Person[] = [];
  const aside: FileAside[] = [];
  const messages: Message[] = [];
  const decisions = new Map(
    identities.map((decision) => [
      patientKey(decision.patientId, decision.issuer ?? issuer),
      decision,
    ]),
  );
  for (const [key, decision] of decisions) {
    if (!byKey.has(key)) messages.push(mismatch(decision, "no file names this patient ID"));
  }
  for (const [key, own] of byKey) {
    const id = own[0]?.stated.id ?? "";
    const ownIssuer = own[0]?.stated.issuer ?? issuer;
    const decision = decisions.get(key);
    if (!decision) {
      persons.push(personOf({ key, id, issuer: ownIssuer, files: own, messages: [] }));
      continue;
    }
    const { parts, undecided, leftOut, unmatched } = applyDecision(own, decision);
    for (const what of unmatched) messages.push(mismatch(decision, what));
    const { date, by } = decision;
    const open = undecided.map((file): FileAside => {
      const reason = caseMessage("identity-undecided", file.stated.source, { date, by });
      return { file, reasons: [reason], why: "undecided" };
    });
    aside.push(...open);
    for (const file of leftOut) {
      const reason = caseMessage("identity-left-out", file.stated.source, { date, by });
      aside.push({ file, reasons: [reason], why: "decided" });
    }
    for (const { label, files: part, messages: notes } of parts) {
      const person = personOf({
        key: patientKey(id, ownIssuer, label),
        id: label === null ? id : `${id} (${label})`,
        issuer: ownIssuer,
        files: part,
        messages: [...notes, ...open.flatMap(({ reasons }) => reasons)],
      });
      persons.push(person);
      for (const { data } of person.conflicts) {
        messages.push(mismatch(decision, `the ${data["what"]} of ${person.id} still differs`));
      }
    }
  }
  return { persons: persons.toSorted((a, b) => (a.key < b.key ? -1 : 1)), aside, messages };
}

function personOf(person: Omit<Person, "conflicts">): Person {
  const statements = person.files.map(({ stated }) => stated);
  const conflicts = identityConflicts(statements);
  const messages = [...person.messages, ...nameSpellings(statements)];
  return { ...person, messages, conflicts };
}

const mismatch = ({ patientId: id, date, by }: IdentityDecision, what: string): Message =>
  caseMessage("identity-decision-mismatch", null, { id, date, by, what });

/** What the files state of the person, each aspect from the first file that states it. */
export const statedOf = ({ files }: Person, aspect: Aspect): string | null =>
  files.map(({ stated }) => statedValue(stated, aspect)).find((value) => value !== null) ?? null;

/** Says where one ID occurs both with and without an issuer: they stay two patients. */
export function issuerWarnings(persons: readonly Person[]): Message[] {
  const idOf = ({ files }: Person): string => files[0]?.stated.id ?? "";
  const withoutIssuer = new Set(persons.filter(({ issuer }) => issuer === null).map(idOf));
  return persons
    .filter((person) => person.issuer !== null && withoutIssuer.has(idOf(person)))
    .map((person) => {
      const data = { id: idOf(person), issuer: person.issuer ?? "" };
      return caseMessage("identity-issuer-not-stated", null, data);
    });
}
