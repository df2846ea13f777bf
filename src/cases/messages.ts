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
    text: "{number}: {met} is outside 10 to 150 mm and doubtful as the size of an aorta; it is used as written",
    remedy: "Check the value and its unit. The range is common practice, not from a source.",
  },
  "value-of-another-unit": {
    severity: "warning",
    text: "{number} left out: {met} can't be the size of an aorta; {other} would be",
    remedy:
      "Correct the value or its unit; a unit is never changed here. The range that is believed, 10 to 150 mm across, is common practice, not from a source.",
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
    text: "the report of the exam of {date} is replaced by {by} and was not used",
    remedy: "Nothing to do.",
  },
  "report-identical": {
    severity: "note",
    text: "the report of the exam of {date} is a declared copy of {by}, with the same content, and is counted once",
    remedy: "Nothing to do.",
  },
  "report-replaced-twice": {
    severity: "warning",
    text: "the report of the exam of {date} and {by} both say that they replace the same report; both are used",
    remedy:
      "Ask the reporting lab which one stands, or leave the other out in the site file (identities, leaveOut).",
  },
  "report-preliminary-beside-final": {
    severity: "warning",
    text: "the exam of {date} has a preliminary and a final report, and the final one does not say that it replaces the other; both are used",
    remedy:
      "Ask the reporting lab whether the preliminary report still stands; leave it out in the site file (identities, leaveOut) if it does not.",
  },
  "report-replaced-elsewhere": {
    severity: "error",
    text: "the report of the exam of {date} is replaced by {by}, a report of another patient, and was not used",
    remedy:
      "Nothing to do if it had been filed under the wrong patient; else ask the reporting lab.",
  },
  "report-versions-in-a-ring": {
    severity: "error",
    text: "reports of the exam of {date} each say that they replace the other; none was used",
    remedy:
      "Ask the reporting lab which report is in force, and leave the other out in the site file (identities, leaveOut).",
  },
  "report-copies-differ": {
    severity: "error",
    text: "files say that they are the same report of the exam of {date} and are not the same: {files}; none was used",
    remedy:
      "Ask the reporting lab which file is in force, and leave the other out in the site file (identities, leaveOut).",
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
  "readings-agree": {
    severity: "note",
    text: "numbers of the exam of {date} that were read more than once and agree within the decimals written: {count}; read by {by}",
    remedy: "Nothing to do.",
  },
  "finding-not-understood": {
    severity: "warning",
    text: "{finding} left out: {met} is not a finding that this program reads",
    remedy: "Use one of: {expected}; or declare the word in the site file.",
  },
  "finding-state-not-understood": {
    severity: "warning",
    text: "{finding} left out: {met} is none of its states",
    remedy: "Use one of: {expected}; or declare the word in the site file.",
  },
  "finding-place-not-stated": {
    severity: "warning",
    text: "{finding} left out: nothing says where it was seen",
    remedy: "Name the place in the sheet.",
  },
  "finding-place-unfit": {
    severity: "warning",
    text: "{finding} left out: {met} is no {expected}",
    remedy: "Name the place that the finding holds for.",
  },
  "findings-differ": {
    severity: "warning",
    text: "{finding} at {place}: findings of the exam of {date} differ: {states}",
    remedy: "All are shown and none is preferred; ask the lab which one stands.",
  },
  "station-vessel-not-understood": {
    severity: "warning",
    text: "sections of a centreline left out: {met} is no vessel that a centreline is read of",
    remedy:
      "Write aorta, right access path, left access path or a branch, or declare the word in the site file; an empty cell is the aorta.",
  },
  "station-lumen-not-understood": {
    severity: "warning",
    text: "sections of a centreline left out: {met} is no lumen",
    remedy: "Write whole, true or false, or leave the cell empty.",
  },
  "station-mark-not-understood": {
    severity: "warning",
    text: "mark on a centreline not used: {met} is no branch, level or landmark of the table of places",
    remedy: "Write a place such as left subclavian artery, or declare the word in the site file.",
  },
  "station-mark-edge-unfit": {
    severity: "warning",
    text: "edge of a mark on a centreline not used: {met} at {place}",
    remedy: "State one edge, and only of a branch.",
  },
  "station-word-not-understood": {
    severity: "warning",
    text: "cells of a centreline not used: {heading} {met} is not one of {expected}",
    remedy: "Write one of {expected}, or leave the cell empty.",
  },
  "station-minimum-over-maximum": {
    severity: "warning",
    text: "{number} left out: the minimum, {minimumMm} mm, is over the maximum, {maximumMm} mm",
    remedy: "Correct the two; neither is used until then.",
  },
  "station-hard-to-believe": {
    severity: "warning",
    text: "{at}: {number} is doubtful, since {range} is believed; it is used as written",
    remedy: "Check the value and its unit. The range is common practice, not from a source.",
  },
  "centrelines-differ": {
    severity: "warning",
    text: "centreline of {label}, exam of {date}: rows give the section at {at} different values ({files}); the whole centreline was left out",
    remedy: "Keep the rows that stand; nothing here says which they are.",
  },
  "centreline-mark-twice": {
    severity: "warning",
    text: "centreline of {label}, exam of {date}: the mark {mark} stands at {distances}; it was not used",
    remedy: "Keep the right one, or state which edge of the origin each is.",
  },
  "centreline-marks-out-of-order": {
    severity: "warning",
    text: "centreline of {label}, exam of {date}: {one} comes before {other}, which no vessel has; the centreline was left out",
    remedy:
      "Correct the marks, or export the distances so that they grow away from the heart, and in an access path away from the aorta.",
  },
  "centreline-points-longer": {
    severity: "warning",
    text: "centreline of {label}, exam of {date}: the straight line from {from} to {to} is {straight}, longer than the {along} along it; {count} such steps; the points stay in use",
    remedy:
      "Check distances, coordinates and their unit. 0.5 mm or 2 % are allowed for rounding: common practice, not from a source.",
  },
  "centreline-axes-not-stated": {
    severity: "warning",
    text: "centreline of {label}, exam of {date}: {count} rows have coordinates and don't say along which axes; the points were not used",
    remedy:
      "Add a column axes with LPS (to the left, back and head, as DICOM has it) or RAS, or state it in the site file.",
  },
  "centreline-points-incomplete": {
    severity: "warning",
    text: "centreline of {label}, exam of {date}: {count} rows have only some of x, y and z; they have no point",
    remedy: "Fill all three or none.",
  },
  "centreline-axes-converted": {
    severity: "note",
    text: "centreline of {label}, exam of {date}: the coordinates of {count} rows are stated along RAS axes; x and y changed sign, as DICOM's patient coordinates have them",
    remedy: "Nothing to do if the sheet is right about its axes.",
  },
  "centreline-positions-differ": {
    severity: "warning",
    text: "centreline of {label}, exam of {date}: the rows state different patient positions ({positions}); treated as not stated",
    remedy: "Correct the wrong one.",
  },
  "centreline-of-report-not-used": {
    severity: "note",
    text: "centreline of {label}, exam of {date}: a report has a line of it too, which was not used, since a centreline sheet has the sections",
    remedy: "Nothing to do.",
  },
  "centreline-lines-differ": {
    severity: "warning",
    text: "centreline of {label}, exam of {date}: reports hold different lines of it, and nothing says how they join; none was used",
    remedy: "Send one line along the whole vessel, or a centreline sheet.",
  },
  "ring-not-usable": {
    severity: "warning",
    text: "{number}, exam of {date}: the ring drawn there was not used: {why}; the number itself is",
    remedy: "Ask the reporting lab for the figure again if a view along the vessel is needed.",
  },
  "exam-facts-differ": {
    severity: "warning",
    text: "the files and rows of the exam of {date} disagree on {what}; treated as not stated",
    remedy: "Correct the wrong one.",
  },
  "section-conflict": {
    severity: "warning",
    text: "{at}, exam of {date}: {number} does not fit {others}; {limit} would, with the rounding of the numbers written allowed for",
    remedy:
      "Check the numbers; all stay in use. The limit is mathematics of a plane figure, for a whole lumen of one without dents.",
  },
  "lumen-conflict": {
    severity: "warning",
    text: "{at}, exam of {date}: {parts} is more than {whole} of the whole lumen",
    remedy: "Check the numbers and which lumen each is of; all stay in use.",
  },
  "length-conflict": {
    severity: "warning",
    text: "{at}, exam of {date}: {number} is more than {other}",
    remedy:
      "Check the lengths and the line each was taken along; both stay in use. An inner curve is not longer than the centreline, the centreline not longer than an outer curve, a sound length not longer than the length.",
  },
  "diameter-stands-out": {
    severity: "warning",
    text: "{at}, exam of {date}: {number} is over {step} mm larger than both nearest neighbours ({neighbours}) and doubtful; it is used as written",
    remedy:
      "Check the value and its place; an aneurysm of a short stretch can look like this. {step} mm step: site setting, common practice, not from a source.",
  },
  "length-beyond-zone": {
    severity: "warning",
    text: "{at}, exam of {date}: {number} is over 20 mm and doubtful, since zone 3 ends 2 cm beyond the left subclavian artery; it is used as written",
    remedy:
      "Check the length and its zone: what lies further on is zone 4 (ACC/AHA 2022, zone figure).",
  },
  "part-longer-than-whole": {
    severity: "warning",
    text: "{at}, exam of {date}: {number} is doubtful, since it is more than {other} of the {whole}, which holds it; it is used as written",
    remedy: "Check both lengths and where each begins and ends.",
  },
  "place-beyond-aorta": {
    severity: "warning",
    text: "{at}, exam of {date}: over {furthest} mm from the left subclavian artery and doubtful as a place on the thoracic aorta; what stands there is used as written",
    remedy:
      "Check the distance and its unit. The {furthest} mm are common practice, not from a source.",
  },
  "number-hard-to-believe": {
    severity: "warning",
    text: "{at}, exam of {date}: {number} is doubtful, since {range} is believed; it is used as written",
    remedy: "Check the value and its unit. The range is common practice, not from a source.",
  },
  "identity-conflict": {
    severity: "error",
    text: "the {what} differs between files: {values}; nothing of this patient was used",
    remedy:
      "Decide in the site file (identities): one person, several persons, or files to leave out. A wrong file that was never used can also be taken out of the folder while the others stay in it.",
  },
  "identity-undecided": {
    severity: "error",
    text: "several persons share this patient ID by the site's decision of {date} ({by}), and this does not say, or not clearly, which of them it is of; it was not used",
    remedy: "Add to the decision what tells it apart (apart, with its sha256), or leave it out.",
  },
  "identity-left-out": {
    severity: "note",
    text: "left out by the site's decision of {date} ({by}): not of this patient",
    remedy: "Nothing to do.",
  },
  "identity-decided": {
    severity: "note",
    text: "the site decided on {date} ({by}): {decided}",
    remedy: "Nothing to do; change the decision in the site file if it was wrong.",
  },
  "identity-decision-mismatch": {
    severity: "warning",
    text: "the site's decision of {date} ({by}) on patient ID {id} does not fit the files: {what}",
    remedy: "Correct the decision in the site file, or remove what is no longer needed.",
  },
  "identity-name-spellings": {
    severity: "note",
    text: "the name is written in more than one way and taken as one: {values}",
    remedy: "Nothing to do if this is one person; else decide in the site file (identities).",
  },
  "identity-issuer-not-stated": {
    severity: "warning",
    text: "patient ID {id} is stated with the issuer {issuer} and also without an issuer; they are kept as two patients",
    remedy: "State the site's own issuer in the site file if both are the same.",
  },
  "anastomosis-not-located": {
    severity: "warning",
    text: "{number} left out: it is not known where the anastomosis lies on the exam of {date}: {why}",
    remedy:
      "State each earlier repair in the case sheet with its kind, its zones and its day, such as graft zones 0 to 2, 2019-05-02; an anastomosis can be placed where one open repair stands.",
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
  "dissection-not-understood": {
    severity: "warning",
    text: "dissection: {why}; the stated extent is not used",
    remedy: "Write the type and its zones, such as A_9, B_3,9 or I_8.",
  },
  "malperfusion-not-understood": {
    severity: "warning",
    text: "malperfusion: {why}; the other territories stand",
    remedy:
      "Write territories with their state, such as: left renal, on imaging only; right leg, clinical.",
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
