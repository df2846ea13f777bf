import { type MessageDefinition, messageMaker } from "../message.ts";

/** What can happen in a run. */
export const batchMessages = {
  "file-already-known": {
    severity: "note",
    text: "these bytes were read before",
    remedy: "Nothing to do.",
  },
  "file-nothing-placed": {
    severity: "warning",
    text: "set aside: none of its {count} numbers, findings and sections could be placed on the aorta",
    remedy: "The reason for each of them stands below.",
  },
  "file-identity-conflict": {
    severity: "error",
    text: "set aside: the files of this patient disagree about who it is",
    remedy:
      "See the reasons below. No number of this patient is shown until the site decides or the wrong file is taken out.",
  },
  "file-identity-undecided": {
    severity: "error",
    text: "set aside: several persons share its patient ID, and it can't be told which of them it is of",
    remedy: "Add to the site's decision (identities) what tells it apart.",
  },
  "file-versions-contradict": {
    severity: "error",
    text: "set aside: the reports of this exam contradict each other about which is in force",
    remedy: "See the reasons below, and ask the reporting lab.",
  },
  "file-left-out-by-site": {
    severity: "note",
    text: "left out by a decision in the site file",
    remedy: "Nothing to do.",
  },
  "file-withdrawn": {
    severity: "warning",
    text: "taken out of the store: it contradicted other files, was never used, and is no longer in the folder beside them",
    remedy:
      "Nothing to do if it was the wrong file; else put it back and decide in the site file (identities).",
  },
  "file-not-regular": {
    severity: "warning",
    text: "set aside: it is {what}; only files are read, and no link is followed",
    remedy: "Put the file itself into the folder.",
  },
  "file-too-large": {
    severity: "error",
    text: "set aside unread: the file is larger than {limit} MiB",
    remedy: "No report or sheet is that large; look at what was exported.",
  },
  "folder-unreadable": {
    severity: "error",
    text: "the folder can't be listed, and nothing in it was read ({what})",
    remedy: "Check the permissions of the folder and the disk.",
  },
  "case-failed": {
    severity: "error",
    text: "no report could be made: {what}",
    remedy: "This is a defect of the program; the other patients are not touched by it.",
  },
  "packet-patient-unknown": {
    severity: "error",
    text: "no report of patient {id} in this output folder",
    remedy: "Run the batch on the patient's files first, or correct the meeting list.",
  },
  "packet-patient-ambiguous": {
    severity: "error",
    text: "patient ID {id} is used by {count} issuers",
    remedy:
      "The meeting list can't tell them apart; write the patient's key ({keys}) instead of the ID.",
  },
  "print-failed": {
    severity: "error",
    text: "the page was not printed: {what}",
    remedy: "The HTML page is there and holds the same; print again when the browser works.",
  },
} as const satisfies Record<string, MessageDefinition>;

export const batchMessage = messageMaker(batchMessages);
