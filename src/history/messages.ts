import { type MessageDefinition, messageMaker } from "../message.ts";

/** What can be said of the history file. */
export const historyMessages = {
  "history-damaged": {
    severity: "error",
    text: "the history {file} is damaged or no history ({what}); it was left as it is",
    remedy:
      "Put a copy of the history in its place (history backup makes one). Without a copy, move the file away and run once on all files that were ever read.",
  },
  "history-unusable": {
    severity: "error",
    text: "the history {file} can't be used ({what}); it was left as it is",
    remedy: "Check the path, the permissions and the disk.",
  },
  "history-version-unknown": {
    severity: "error",
    text: "the history {file} has schema {version}, and this program knows the schemas 1 to {own}; it was left as it is",
    remedy: "Use the version of the program that wrote it, or a newer one.",
  },
  "history-version-old": {
    severity: "error",
    text: "the history {file} has schema {version}, and only a run brings it to schema {own}",
    remedy: "Run the batch once; it keeps a copy of the old file.",
  },
  "history-migrated": {
    severity: "note",
    text: "the history had schema {version} and has schema {own} now; as it was, it lies beside it as {copy}",
    remedy: "Delete the copy when it is no longer needed; it holds the data of patients.",
  },
  "history-in-use": {
    severity: "error",
    text: "the history {file} is in use by process {pid} on {host} since {since}; nothing was written",
    remedy:
      "Wait until that run has ended. If process {pid} on {host} is no run of this program, delete {lock}.",
  },
  "history-lock-left-behind": {
    severity: "note",
    text: "process {pid} on {host} began to use the history at {since} and ended without giving it back; its lock was taken over",
    remedy: "Look at why that run ended.",
  },
  "history-patient-unknown": {
    severity: "error",
    text: "the history holds nothing of patient {id}",
    remedy: "See which patients it holds: history list.",
  },
  "history-patient-ambiguous": {
    severity: "error",
    text: "the history holds patient ID {id} of {count} issuers ({issuers})",
    remedy:
      "Give the site file (--config) where it states the issuer; else add --issuer, or give the patient's key ({keys}) instead of the ID.",
  },
} as const satisfies Record<string, MessageDefinition>;

export const historyMessage = messageMaker(historyMessages);
