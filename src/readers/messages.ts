import { type MessageDefinition, messageMaker } from "../message.ts";

/** What can be wrong with a file or a row of a sheet. */
export const readerMessages = {
  "file-not-recognised": {
    severity: "warning",
    text: "set aside: neither a DICOM file nor a sheet with the headings of a measurement sheet, finding sheet, centreline sheet, case sheet or meeting list",
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
  "csv-too-large": {
    severity: "error",
    text: "set aside: it is no DICOM file, and as a sheet it has {what}",
    remedy: "Split the sheet, or take out what is no measurement.",
  },
  "csv-inventory-in-inbox": {
    severity: "note",
    text: "an inventory of grafts, which is no patient's file",
    remedy: "Name it in the site file as inventory; it need not lie among the patients' files.",
  },
  "csv-inventory-sheaths-differ": {
    severity: "error",
    text: "row left out: {heading} is {met}, and the column in French gives {expected}",
    remedy: "Correct the wrong one, or leave one of the two cells empty.",
  },
  "csv-inventory-id-twice": {
    severity: "error",
    text: "row left out: the id {id} stands twice in the inventory",
    remedy: "Give every row of the inventory an id of its own.",
  },
  "csv-without-rows": {
    severity: "warning",
    text: "set aside: the sheet has headings and no row below them",
    remedy: "Export the sheet again with its rows; nothing to do if none was meant.",
  },
  "csv-not-text": {
    severity: "error",
    text: "set aside: the sheet holds control characters or broken letters and is not text",
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
  "csv-row-length": {
    severity: "error",
    text: "set aside: record {record} has {met} cells, the headings have {expected}",
    remedy:
      "A cell is missing, or holds the delimiter without quotes (a decimal comma in a sheet with commas). No row of the sheet was used, because cells may stand under the wrong heading.",
  },
  "csv-heading-twice": {
    severity: "error",
    text: "set aside: the heading {heading} stands twice",
    remedy: "Rename or remove one of the two columns.",
  },
  "csv-heading-missing": {
    severity: "error",
    text: "set aside: a {kind} needs the heading {heading}{nearest}",
    remedy: "Add the column, or declare the sheet's own headings in the site file.",
  },
  "csv-declared-heading-missing": {
    severity: "error",
    text: "set aside: it has headings of {name} in the site file, but not {heading}{nearest}",
    remedy: "Export the sheet with this column, or correct the heading in the site file.",
  },
  "csv-title-lines": {
    severity: "error",
    text: "set aside: the headings of {name} stand after {met} lines, and the site file declares {expected}",
    remedy: "Correct titleLines in the site file, or export the sheet as it is declared.",
  },
  "csv-sheets-fit": {
    severity: "error",
    text: "set aside: {name} and {other} of the site file fit its headings equally well",
    remedy: "Declare more of the headings of one of them in the site file.",
  },
  "csv-unit-row-missing": {
    severity: "error",
    text: "set aside: the site file says that a row of units follows the headings, and the row there is none",
    remedy: "Export the sheet with its units, or take unitRow out of the site file.",
  },
  "csv-heading-not-used": {
    severity: "note",
    text: "columns that are none of a {kind} and were not used: {headings}",
    remedy: "Nothing to do, unless one is a misspelt heading.",
  },
  "csv-rows-empty": {
    severity: "note",
    text: "{count} rows have only empty cells and were passed over; the first is on line {line}",
    remedy: "Nothing to do.",
  },
  "csv-row-total": {
    severity: "note",
    text: "row left out: it begins with {met}, as a row of totals does",
    remedy: "Nothing to do; the site file says how such rows begin.",
  },
  "csv-cell-missing": {
    severity: "warning",
    text: "{loss} left out: {heading} is empty",
    remedy: "Fill the cell.",
  },
  "csv-date-not-iso": {
    severity: "warning",
    text: "{loss} left out: {heading} is {met}, not a calendar date written {expected}",
    remedy: "Write the date as YYYY-MM-DD, or declare the order of dates in the site file.",
  },
  "csv-date-ambiguous": {
    severity: "warning",
    text: "{loss} left out: {heading} is {met}, and nothing declares which is the day and which the month",
    remedy:
      "Declare the order of dates in the site file, or write YYYY-MM-DD; it is never guessed.",
  },
  "csv-date-short-year": {
    severity: "warning",
    text: "{loss} left out: {heading} is {met}, with a year of two digits",
    remedy: "Write the year with four digits.",
  },
  "csv-choice-not-understood": {
    severity: "warning",
    text: "{heading} {met} is not one of {expected}; the cell was not used",
    remedy: "Write one of {expected}, or leave the cell empty.",
  },
  "csv-number-not-understood": {
    severity: "warning",
    text: "{loss} left out: {heading} {met} is not a decimal number",
    remedy: "Write digits and one decimal mark, nothing else.",
  },
  "csv-number-comma": {
    severity: "warning",
    text: "{loss} left out: {heading} {met} has a comma, and no decimal comma is declared for this sheet",
    remedy:
      "Write a decimal point, or declare decimal: comma in the site file. Marks between thousands are never read.",
  },
  "csv-number-point": {
    severity: "warning",
    text: "{loss} left out: {heading} {met} has a point, and a decimal comma is declared for this sheet",
    remedy: "Write all decimals of a sheet in one way. Marks between thousands are never read.",
  },
  "csv-number-grouped": {
    severity: "warning",
    text: "{loss} left out: {heading} {met} has marks or spaces between its digits",
    remedy: "Write the number without marks between thousands and without spaces inside.",
  },
  "csv-units-differ": {
    severity: "warning",
    text: "{loss} left out: {heading} has the unit {met} by its {where} and {other} by its {otherWhere}",
    remedy: "Correct the wrong one; the value is not used until they agree.",
  },
  "csv-unit-of-heading": {
    severity: "warning",
    text: "{loss} left out: the row of units states {met} under {heading}, which holds {expected}",
    remedy: "Export the column in {expected}; a unit is never converted unseen.",
  },
  "csv-gated-differs": {
    severity: "warning",
    text: "the rows of the exam of {date} disagree on whether it was gated; treated as not stated",
    remedy: "Correct the gated column.",
  },
} as const satisfies Record<string, MessageDefinition>;

export const readerMessage = messageMaker(readerMessages);
