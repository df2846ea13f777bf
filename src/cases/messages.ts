import { anatomyMessages } from "../anatomy/messages.ts";
import { type MessageDefinition, messageMaker } from "../message.ts";

/** What can be wrong between a reading and a case. */
export const caseMessages = {
  ...anatomyMessages,
  "value-missing": {
    severity: "note",
    text: "{number} has no value: {why}",
    remedy: "Nothing to do if it was not measured; else measure it again.",
  },
  "value-not-a-number": {
    severity: "warning",
    text: "{number} left out: {met} is not a decimal number written with a point",
    remedy: "Write digits and one decimal point, nothing else.",
  },
  "value-qualified": {
    severity: "warning",
    text: "{number} left out: the report marks it as {why}",
    remedy: "Ask the reporting lab for a value.",
  },
  "value-not-positive": {
    severity: "warning",
    text: "{number} left out: {met} is not a possible size",
    remedy: "Correct the value.",
  },
  "value-doubtful": {
    severity: "warning",
    text: "{number}: {met} is outside 10 to 150 mm and a doubtful diameter of an aorta; it is used as written",
    remedy: "Check the value and its unit. The range is common practice, not from a source.",
  },
  "unit-not-stated": {
    severity: "warning",
    text: "{number} left out: no unit is stated",
    remedy: "State mm, cm, mm2, cm2, mL or deg.",
  },
  "unit-not-physical": {
    severity: "warning",
    text: "{number} left out: the unit {met} is no unit of {expected}",
    remedy: "An uncalibrated or mistaken unit can't be converted; export the number with its unit.",
  },
  "exam-after-as-of": {
    severity: "note",
    text: "the exam of {date} is later than {asOf} and was not used",
    remedy: "Run with a later --as-of.",
  },
  "report-superseded": {
    severity: "note",
    text: "the report of the exam of {date} is replaced by a later version and was not used",
    remedy: "Nothing to do.",
  },
  "report-versions-in-a-ring": {
    severity: "error",
    text: "reports of the exam of {date} each say that they replace the other; none was used",
    remedy: "Ask the reporting lab which report is in force.",
  },
  "report-copies-differ": {
    severity: "error",
    text: "two files say that they are the same report of the exam of {date} and hold different bytes; neither was used",
    remedy: "Ask the reporting lab which report is in force.",
  },
  "report-not-final": {
    severity: "note",
    text: "the report of the exam of {date} is {state}",
    remedy: "Look for the final report before the meeting.",
  },
  "readings-differ": {
    severity: "warning",
    text: "{number}: readings of the exam of {date} differ: {values}",
    remedy: "Both are shown and neither is averaged; ask the lab which one stands.",
  },
  "identity-conflict": {
    severity: "error",
    text: "the {what} differs between files ({met} and {other}); nothing of this patient was used",
    remedy: "Correct the wrong file. No number is shown until the files agree.",
  },
  "identity-issuer-not-stated": {
    severity: "warning",
    text: "patient ID {id} is stated with the issuer {issuer} and also without an issuer; they are kept as two patients",
    remedy: "State the site's own issuer in the site file if both are the same.",
  },
  "case-rows-differ": {
    severity: "error",
    text: "two rows of case sheets of the same night differ in {what}; that fact was not used",
    remedy: "Keep one row per patient.",
  },
  "case-row-replaced": {
    severity: "note",
    text: "an earlier case sheet row stood in {earlier}; the later one is in force",
    remedy: "Nothing to do.",
  },
  "case-word-not-understood": {
    severity: "warning",
    text: "{heading}: {met} is not a word that the criteria know; what depends on it can't be judged",
    remedy: "Use one of: {expected}.",
  },
  "case-without-row": {
    severity: "warning",
    text: "no case sheet row for this patient: diagnosis, cause, sex-specific and indexed criteria can't be judged",
    remedy: "Add the patient to the case sheet.",
  },
  "case-without-exam": {
    severity: "error",
    text: "the patient is in the case sheet and no exam has been read",
    remedy: "Drop the structured report or measurement sheet, or check the patient ID.",
  },
} as const satisfies Record<string, MessageDefinition>;

export const caseMessage = messageMaker(caseMessages);
