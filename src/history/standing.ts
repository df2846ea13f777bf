import { type IdentityOptions, personsOf } from "../cases/persons.ts";
import { versionVerdicts } from "../cases/report-versions.ts";
import type { Message } from "../message.ts";
import type { ReadDocument } from "../readers/reading.ts";
import type { HeldPart } from "./history.ts";

/** Whether a document counts today beside everything else that is held. */
export interface Standing {
  isUsed: boolean;
  /** Why it is not used, or what is to be said of it. */
  reason: Message | null;
}

/** Judges every document of the history as a run does: whose it is, and which version of a report is in force. */
export function standings(
  parts: readonly HeldPart[],
  identity: IdentityOptions,
): Map<ReadDocument, Standing> {
  const { persons, aside } = personsOf([...parts], identity);
  const owned = persons.flatMap(({ key, files }) =>
    files.flatMap(({ document }) => (document ? { document, owner: key } : [])),
  );
  const undecided = aside.flatMap(({ why, file: { document } }) =>
    why === "undecided" && document ? { document, owner: "" } : [],
  );
  const result = new Map<ReadDocument, Standing>();
  for (const [document, verdict] of versionVerdicts([...owned, ...undecided])) {
    result.set(document, { isUsed: verdict.inForce, reason: verdict.message });
  }
  const refuse = (document: ReadDocument | null, reason: Message | undefined): void => {
    if (document && reason) result.set(document, { isUsed: false, reason });
  };
  for (const { file, reasons } of aside) refuse(file.document, reasons[0]);
  for (const { files, conflicts } of persons) {
    for (const { document } of files) refuse(document, conflicts[0]);
  }
  return result;
}
