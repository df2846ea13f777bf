import type { Message } from "../message.ts";
import type { IdentityDecision, Says } from "../site/identity-decisions.ts";
import { type Aspect, identityAspects, statedValue } from "./identity.ts";
import { caseMessage } from "./messages.ts";
import type { PatientFile } from "./patient-files.ts";

/** Files of one person; `label` is the site's word for one of several persons under one ID. */
export interface DecidedPart {
  label: string | null;
  files: PatientFile[];
  /** What was decided, for the page of this person. */
  messages: Message[];
}

/** What a decision makes of the files of one patient ID. */
export interface DecidedFiles {
  parts: DecidedPart[];
  /** Files of which the decision does not say to which person they belong. */
  undecided: PatientFile[];
  leftOut: PatientFile[];
  /** What the decision names and no file says. */
  unmatched: string[];
}

/** Applies a site's decision to the files of the patient ID that it is about. */
export function applyDecision(files: PatientFile[], decision: IdentityDecision): DecidedFiles {
  const { leaveOut } = decision;
  const leftOut = files.filter((file) => leaveOut.some((says) => matches(file, says)));
  const rest = files.filter((file) => !leftOut.includes(file));
  const decided = decision.apart
    ? apartOf(rest, decision, decision.apart)
    : { parts: [sameOf(rest, decision)], undecided: [] };
  if (leftOut.length > 0) {
    const names = [...new Set(leftOut.map(({ stated }) => stated.source.file))].join(", ");
    const note = decisionNote(decision, `left out as not of this patient: ${names}`);
    for (const part of decided.parts) part.messages.push(note);
  }
  const parts = decided.parts.filter((part) => part.files.length > 0);
  return { ...decided, parts, leftOut, unmatched: unmatchedIn(files, rest, decision) };
}

const decisionNote = ({ date, by }: IdentityDecision, decided: string): Message =>
  caseMessage("identity-decided", null, { decided, date, by });

function matches({ stated }: PatientFile, says: Says): boolean {
  const digest = stated.source.sha256 ?? "";
  if (says.sha256 !== undefined && !digest.startsWith(says.sha256)) return false;
  return identityAspects.every(({ aspect, agree }) => {
    const asked = says[aspect];
    const value = statedValue(stated, aspect);
    return asked === undefined || (value !== null && agree(value, asked));
  });
}

type Apart = NonNullable<IdentityDecision["apart"]>;

function apartOf(
  files: PatientFile[],
  decision: IdentityDecision,
  apart: Apart,
): { parts: DecidedPart[]; undecided: PatientFile[] } {
  const labels = [...new Set(apart.map((one) => one.as))].toSorted();
  const labelsOf = new Map(
    files.map((file) => [
      file,
      new Set(apart.flatMap((one) => (matches(file, one) ? one.as : []))),
    ]),
  );
  const isOnly = (file: PatientFile, label: string): boolean =>
    labelsOf.get(file)?.size === 1 && labelsOf.get(file)?.has(label) === true;
  const parts = labels.map((label) => {
    const asked = apart.filter((one) => one.as === label).map(inWords);
    const note = `several persons share this patient ID; this one is "${label}": files with ${asked.join(", or with ")}`;
    return {
      label,
      files: files.filter((file) => isOnly(file, label)),
      messages: [decisionNote(decision, note)],
    };
  });
  return { parts, undecided: files.filter((file) => labelsOf.get(file)?.size !== 1) };
}

const inWords = (says: Says): string =>
  [
    ...identityAspects.flatMap(({ aspect, what }) => says[aspect] && `${what} ${says[aspect]}`),
    says.sha256 && `the SHA-256 ${says.sha256}`,
  ]
    .filter((words) => words !== undefined)
    .join(" and ");

/** Puts the value that stands where a file says one of those that mean the same person. */
function sameOf(files: PatientFile[], decision: IdentityDecision): DecidedPart {
  const messages: Message[] = [];
  let accepted = files;
  for (const { aspect, what, agree } of identityAspects) {
    const standing = decision.same?.[aspect];
    if (!standing) continue;
    const { stands, also } = standing;
    messages.push(
      decisionNote(
        decision,
        `one person; the ${what} is ${stands}, also written ${also.join(", ")}`,
      ),
    );
    const isMeant = (value: string | null): boolean =>
      value !== null && [stands, ...also].some((known) => agree(value, known));
    accepted = accepted.map((file) =>
      isMeant(statedValue(file.stated, aspect))
        ? { ...file, stated: { ...file.stated, [aspect]: stands } }
        : file,
    );
  }
  return { label: null, files: accepted, messages };
}

/** Values and digests of a decision that no file states: a mistyped decision, or one that is no longer needed. */
function unmatchedIn(
  files: PatientFile[],
  rest: PatientFile[],
  { same, apart, leaveOut }: IdentityDecision,
): string[] {
  const isStated = (aspect: Aspect, known: string, agree: (a: string, b: string) => boolean) =>
    rest.some(({ stated }) => {
      const value = statedValue(stated, aspect);
      return value !== null && agree(value, known);
    });
  const standing = identityAspects.flatMap(({ aspect, what, agree }) => {
    const { stands, also } = same?.[aspect] ?? { stands: "", also: [] };
    const named = stands === "" ? [] : [stands, ...also];
    return named
      .filter((value) => !isStated(aspect, value, agree))
      .map((value) => `no file states the ${what} ${value}`);
  });
  const nobody = (says: Says[], among: PatientFile[]) =>
    says
      .filter((one) => !among.some((file) => matches(file, one)))
      .map((one) => `no file has ${inWords(one)}`);
  return [...standing, ...nobody(apart ?? [], rest), ...nobody(leaveOut, files)];
}
