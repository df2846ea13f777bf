import { messageMaker } from "../message.ts";

/** What can happen in a run. */
export const batchMessage = messageMaker({
  "file-already-known": {
    severity: "note",
    text: "these bytes were read before",
    remedy: "Nothing to do.",
  },
  "file-nothing-placed": {
    severity: "warning",
    text: "set aside: none of its {count} numbers could be placed on the aorta",
    remedy: "The reason for each number stands below.",
  },
  "file-without-numbers": {
    severity: "warning",
    text: "set aside: it holds no measurement",
    remedy: "Nothing to do if it is a text report; else ask for the measurement report.",
  },
  "file-identity-conflict": {
    severity: "error",
    text: "set aside: the files of this patient disagree about who it is",
    remedy: "Correct the wrong file. No number is shown until the files agree.",
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
});
