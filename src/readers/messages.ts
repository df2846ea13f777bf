import type { MessageDefinition } from "../message.ts";

/** What can be wrong with a file or a row of a sheet. */
export const readerMessages = {
  "file-not-recognised": {
    severity: "warning",
    text: "set aside: neither a DICOM file nor a sheet with the headings of a measurement sheet, case sheet or meeting list",
    remedy:
      "A sheet needs the headings patient_id, exam_date, place, quantity, value and unit; see the README.",
  },
  "file-empty": {
    severity: "warning",
    text: "set aside: the file has no bytes",
    remedy: "Export the file again.",
  },
  "file-unreadable": {
    severity: "error",
    text: "set aside: the file can't be read ({what})",
    remedy: "Check the permissions of the file and the disk.",
  },
  "csv-not-text": {
    severity: "error",
    text: "set aside: the sheet holds control characters and is not text",
    remedy: "Export the sheet as CSV, not as a workbook.",
  },
  "csv-encoding-guessed": {
    severity: "note",
    text: "the sheet is not UTF-8; its letters were read as Windows-1252",
    remedy: "Export the sheet as UTF-8 to be sure of names.",
  },
  "csv-broken": {
    severity: "error",
    text: "set aside: {what}",
    remedy: "Correct the sheet at this line; no row of it was used.",
  },
  "csv-heading-twice": {
    severity: "error",
    text: "set aside: the heading {heading} stands twice",
    remedy: "Rename or remove one of the two columns.",
  },
  "csv-heading-missing": {
    severity: "error",
    text: "set aside: a {kind} needs the heading {heading}",
    remedy: "Add the column.",
  },
  "csv-heading-not-used": {
    severity: "note",
    text: "the column {heading} is not one of a {kind} and was not used",
    remedy: "Nothing to do, unless it is a misspelt heading.",
  },
  "csv-cell-missing": {
    severity: "warning",
    text: "row left out: {heading} is empty",
    remedy: "Fill the cell.",
  },
  "csv-date-not-iso": {
    severity: "warning",
    text: "{loss} left out: {heading} is {met}, not a calendar date written YYYY-MM-DD",
    remedy: "Write the date as YYYY-MM-DD; another order is never guessed.",
  },
  "csv-choice-not-understood": {
    severity: "warning",
    text: "{heading} {met} is not one of {expected}; the cell was not used",
    remedy: "Write one of {expected}, or leave the cell empty.",
  },
  "csv-number-not-understood": {
    severity: "warning",
    text: "{loss} left out: {heading} {met} is not a decimal number with a point",
    remedy: "Write digits and one decimal point, in the unit that the heading names.",
  },
  "csv-gated-differs": {
    severity: "warning",
    text: "the rows of the exam of {date} disagree on whether it was gated; treated as not stated",
    remedy: "Correct the gated column.",
  },
} as const satisfies Record<string, MessageDefinition>;
