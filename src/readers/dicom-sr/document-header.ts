import type { ReportVersion, StatedPatient } from "../reading.ts";
import type { DataSet } from "./data-set.ts";
import { asciiOf, isoDateOf, itemsOf, textOf } from "./element-values.ts";
import { readableName } from "./levels.ts";
import { tags } from "./tags.ts";

/** How the report names the patient; null where it gives no patient ID. */
export function statedPatientOf(report: DataSet): StatedPatient | null {
  const id = textOf(report, tags.patientId);
  if (id === null) return null;
  const name = textOf(report, tags.patientName);
  const [qualifiers] = itemsOf(report, tags.issuerOfPatientIdQualifiers);
  const sex = asciiOf(report, tags.patientSex);
  return {
    id,
    issuer:
      textOf(report, tags.issuerOfPatientId) ??
      (qualifiers ? textOf(qualifiers, tags.universalEntityId) : null),
    name: name === null ? null : readableName(name) || null,
    birthDate: isoDateOf(asciiOf(report, tags.patientBirthDate)),
    sex: sex === "F" || sex === "M" || sex === "O" ? sex : null,
  };
}

/** Which version of which document this is; null without a SOP Instance UID. */
export function reportVersionOf(report: DataSet): ReportVersion | null {
  const sopInstanceUid = asciiOf(report, tags.sopInstanceUid);
  if (sopInstanceUid === null) return null;
  return {
    sopInstanceUid,
    completion: asciiOf(report, tags.completionFlag),
    verification: asciiOf(report, tags.verificationFlag),
    preliminary: asciiOf(report, tags.preliminaryFlag),
    predecessorUids: referencedDocuments(report, tags.predecessorDocuments),
    identicalUids: referencedDocuments(report, tags.identicalDocuments),
  };
}

/** SOP Instance UIDs of documents listed by study and series. */
function referencedDocuments(report: DataSet, tag: number): string[] {
  const uids = itemsOf(report, tag)
    .flatMap((study) => itemsOf(study, tags.referencedSeriesSequence))
    .flatMap((series) => itemsOf(series, tags.referencedSopSequence))
    .flatMap((instance) => asciiOf(instance, tags.referencedSopInstanceUid) ?? []);
  return [...new Set(uids)];
}
