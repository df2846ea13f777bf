import { createHash } from "node:crypto";
import type { Message, SourcePlace } from "../message.ts";
import { caseMessage } from "./messages.ts";
import type { StatedIdentity } from "./patient-files.ts";
import { isName, namesAgree, spellingOf } from "./person-name.ts";

/**
 * The folder name of a patient: a stable digest of issuer and patient ID, without either in it. A label tells apart the
 * persons whom the site has found under one ID.
 */
export function patientKey(id: string, issuer: string | null, label: string | null = null): string {
  return createHash("sha256")
    .update(JSON.stringify(label === null ? [issuer, id] : [issuer, id, label]))
    .digest("hex")
    .slice(0, 16);
}

/** What may not differ between files of one patient, and when two values are the same. */
export const identityAspects = [
  { aspect: "birthDate", what: "birth date", agree: Object.is },
  { aspect: "sex", what: "sex", agree: Object.is },
  { aspect: "name", what: "name", agree: namesAgree },
] as const;
export type Aspect = (typeof identityAspects)[number]["aspect"];

/** The value that a file states; null where it states none, or a name without a letter. */
export function statedValue(stated: StatedIdentity, aspect: Aspect): string | null {
  const value = stated[aspect];
  return value === null || (aspect === "name" && !isName(value)) ? null : value;
}

/** A value with the places that state it. */
interface StatedValue {
  value: string;
  sources: SourcePlace[];
}

function valuesOf(statements: StatedIdentity[], aspect: Aspect): StatedValue[] {
  const values = new Map<string, StatedValue>();
  for (const stated of statements) {
    const value = statedValue(stated, aspect);
    if (value === null) continue;
    const found = values.get(value) ?? { value, sources: [] };
    found.sources.push(stated.source);
    values.set(value, found);
  }
  return [...values.values()];
}

/** "1950-01-01 (a.dcm), 1951-01-01 (b.dcm and 2 others)". */
const inWords = (values: StatedValue[]): string =>
  values
    .map(({ value, sources }) => {
      const [first = "", ...others] = new Set(sources.map(({ file }) => file));
      const more = others.length === 0 ? "" : ` and ${others.length} more`;
      return `${value} (${first}${more})`;
    })
    .join(", ");

/**
 * All contradictions between statements about one patient (same issuer and ID): one message for each of birth date, sex
 * and name that differs. What one side leaves out contradicts nothing.
 */
export function identityConflicts(statements: StatedIdentity[]): Message[] {
  return identityAspects.flatMap(({ aspect, what, agree }) => {
    const values = valuesOf(statements, aspect);
    const clashing = values.find((one, index) =>
      values.slice(0, index).some(({ value }) => !agree(value, one.value)),
    );
    if (!clashing) return [];
    const source = clashing.sources[0] ?? null;
    return caseMessage("identity-conflict", source, { what, values: inWords(values) });
  });
}

/** A note where names agree and still are not spelt with the same letters. */
export function nameSpellings(statements: StatedIdentity[]): Message[] {
  const values = valuesOf(statements, "name");
  if (new Set(values.map(({ value }) => spellingOf(value))).size < 2) return [];
  return [caseMessage("identity-name-spellings", null, { values: inWords(values) })];
}
