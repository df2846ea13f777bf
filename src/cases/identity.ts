import { createHash } from "node:crypto";
import type { Message, SourcePlace } from "../message.ts";
import { caseMessage } from "./messages.ts";

/** What one file, or one row of a sheet, says of who the patient is. */
export interface StatedIdentity {
  source: SourcePlace;
  id: string;
  issuer: string | null;
  name: string | null;
  birthDate: string | null;
  sex: string | null;
}

/** The folder name of a patient: a stable digest of issuer and patient ID, without either in it. */
export function patientKey(id: string, issuer: string | null): string {
  return createHash("sha256")
    .update(JSON.stringify([issuer, id]))
    .digest("hex")
    .slice(0, 16);
}

/** Names are the same person's name when their parts are the same in any order and case. */
function nameParts(name: string): string {
  return name
    .normalize("NFC")
    .toLowerCase()
    .split(/[\^\s,=]+/)
    .filter((part) => part !== "")
    .toSorted()
    .join(" ");
}

/**
 * The first contradiction between statements about one patient (same issuer and ID): a birth date, sex or
 * name that differs. What one side leaves out contradicts nothing. Null where all agree.
 */
export function identityConflict(statements: StatedIdentity[]): Message | null {
  const aspects = [
    ["birth date", (statement: StatedIdentity) => statement.birthDate],
    ["sex", (statement: StatedIdentity) => statement.sex],
    ["name", (statement: StatedIdentity) => statement.name && nameParts(statement.name)],
  ] as const;
  for (const [what, value] of aspects) {
    const stated = statements.filter((statement) => value(statement) !== null);
    const [first] = stated;
    const other = stated.find((statement) => first && value(statement) !== value(first));
    if (first && other) {
      return caseMessage("identity-conflict", other.source, {
        what,
        met: first.source.file,
        other: other.source.file,
      });
    }
  }
  return null;
}
