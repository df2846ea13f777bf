import type { MessageDefinition } from "../../message.ts";

/** What can be wrong with a structured report, or with a number in it. */
export const structuredReportMessages = {
  "not-a-measurement-report": {
    severity: "note",
    text: "not for this program: {what}",
    remedy: "Nothing to do.",
  },
  "report-without-numbers": {
    severity: "note",
    text: "not for this program: the report holds no measurement",
    remedy:
      "Nothing to do, unless the report should hold measurements; then ask the reporting lab.",
  },
  "report-without-usable-numbers": {
    severity: "warning",
    text: "set aside: none of the numbers in the report ({count}) can be used",
    remedy: "See the reasons given for this file.",
  },
  "report-truncated": {
    severity: "error",
    text: "set aside: the file ends before the report does",
    remedy: "Send or copy the report again.",
  },
  "report-malformed": {
    severity: "error",
    text: "set aside: the bytes of the file do not follow the DICOM encoding",
    remedy: "Send or copy the report again; if it comes out the same, ask the reporting lab.",
  },
  "report-too-deep": {
    severity: "error",
    text: "set aside: the report is nested more than {limit} levels deep",
    remedy: "Ask the reporting lab; no such report is known.",
  },
  "report-too-many": {
    severity: "error",
    text: "set aside: the report holds more than {limit} items",
    remedy: "Ask the reporting lab; no such report is known.",
  },
  "report-too-large": {
    severity: "error",
    text: "set aside: the report is larger than {limit} MiB",
    remedy: "Ask the reporting lab; no such report is known.",
  },
  "report-transfer-syntax": {
    severity: "error",
    text: "set aside: the transfer syntax {met} is not one that a report can have",
    remedy: "Export the report as Explicit VR Little Endian.",
  },
  "report-without-class": {
    severity: "error",
    text: "set aside: a DICOM file that does not say of which class it is",
    remedy: "Send or copy the file again.",
  },
  "report-without-content": {
    severity: "error",
    text: "set aside: the report has no content tree or no SOP Instance UID",
    remedy: "Send or copy the report again; if it comes out the same, ask the reporting lab.",
  },
  "report-without-patient-id": {
    severity: "error",
    text: "set aside: the report has no patient ID",
    remedy: "Ask the reporting lab to send it with the patient ID.",
  },
  "number-without-name": {
    severity: "warning",
    text: "a number left out: nothing says what it measures",
    remedy: "Ask the reporting lab.",
  },
  "value-twice": {
    severity: "warning",
    text: "{number} left out: it has more than one value or more than one unit",
    remedy: "Ask the reporting lab which of them is right.",
  },
  "value-too-long": {
    severity: "warning",
    text: "{number} left out: its value is longer than a decimal number can be",
    remedy: "Ask the reporting lab.",
  },
  "value-unreadable": {
    severity: "warning",
    text: "{number} left out: its value is stored as bytes of an unknown kind",
    remedy: "Export the report as Explicit VR Little Endian from the system that wrote it.",
  },
  "value-fields-disagree": {
    severity: "warning",
    text: "{number} left out: Numeric Value and the Floating Point or Rational Value beside it are not the same number",
    remedy: "Ask the reporting lab which of them is right.",
  },
  "figure-not-usable": {
    severity: "warning",
    text: "the figure drawn in space under {number} was not used: {why}; the number itself is",
    remedy: "Ask the reporting lab to send the figure again if lines or planes are needed of it.",
  },
  "finding-site-contained": {
    severity: "note",
    text: "the finding site of numbers ({count}) stands beside them as content instead of modifying their group; it was used",
    remedy: "Nothing to do; the reporting lab may want to correct its template.",
  },
  "imaging-date-unknown": {
    severity: "warning",
    text: "numbers left out ({count}): nothing says when the images were taken",
    remedy: "Ask for the report with an image library, or within the study of its images.",
  },
  "imaging-date-ambiguous": {
    severity: "warning",
    text: "numbers left out ({count}): the report covers images of several days and does not say which of them were measured",
    remedy: "Ask for one report for each examination.",
  },
  "imaging-date-from-study": {
    severity: "note",
    text: "the imaging date {date} is the study date; the report gives no acquisition date",
    remedy: "Nothing to do, unless the study was opened on another day than the scan.",
  },
  "numbers-of-images": {
    severity: "note",
    text: "numbers not used ({count}): they describe images and are not measurements",
    remedy: "Nothing to do.",
  },
  "numbers-of-reference-group": {
    severity: "note",
    text: "numbers not used ({count}): they stand in a group of reference measurements",
    remedy: "Nothing to do.",
  },
  "numbers-of-context": {
    severity: "note",
    text: "numbers not used ({count}): they describe the time point or the subject",
    remedy: "Nothing to do.",
  },
  "numbers-of-another-number": {
    severity: "note",
    text: "numbers not used ({count}): they belong to another number, such as a normal range or an operand",
    remedy:
      "If one of them is a measurement of its own, ask the reporting lab to place it in the group.",
  },
  "content-not-known": {
    severity: "note",
    text: "content of the type {type} was passed over",
    remedy: "If it holds measurements, ask the reporting lab to send them as numbers (NUM).",
  },
  "text-doubtful": {
    severity: "note",
    text: "names in this report may show wrong letters: {what}",
    remedy:
      "Ask the reporting lab to declare the character set; numbers, units and codes are not affected.",
  },
} as const satisfies Record<string, MessageDefinition>;
