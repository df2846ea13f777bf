import { type Message, messageMaker, type SourcePlace } from "../../message.ts";
import type { FileKind, ReadFile } from "../reading.ts";
import { contentTreeOf } from "./content-tree.ts";
import { limits } from "./data-set.ts";
import {
  type FileFailure,
  inflated,
  maxReportBytes,
  openDicomFile,
  readDataSet,
  sopClassOf,
} from "./dicom-file.ts";
import { otherDocumentOf, otherObjectOf } from "./document-class.ts";
import { reportVersionOf, statedPatientOf } from "./document-header.ts";
import { structuredReportMessages } from "./messages.ts";
import { readContent } from "./report-content.ts";

export { looksLikeDicom } from "./dicom-file.ts";

const message = messageMaker(structuredReportMessages);

/**
 * Reads a DICOM structured report. Every number that counts as a measurement becomes a reading with its words and
 * codes; what they mean is decided elsewhere. A number that can't be handed out, and a file that can't be used,
 * become messages with the reason. Nothing is thrown for any bytes.
 */
export function readStructuredReport(bytes: Uint8Array, file: string, sha256: string): ReadFile {
  const source: SourcePlace = { file, sha256, at: null };
  const result = (kind: FileKind, rest: Partial<ReadFile>): ReadFile => ({
    file,
    sha256,
    kind,
    documents: [],
    caseRows: [],
    meetingRows: [],
    setAside: null,
    messages: [],
    ...rest,
  });
  const setAside = (kind: FileKind, reason: Message, messages: Message[] = []): ReadFile =>
    result(kind, { setAside: reason, messages });

  const opened = openDicomFile(bytes);
  if ("failure" in opened) return setAside("unreadable", failureMessage(opened.failure, source));
  const dicom = inflated(opened);
  const sopClass = ("failure" in dicom ? null : sopClassOf(dicom)) ?? opened.mediaSopClassUid;
  const otherObject = sopClass === null ? null : otherObjectOf(sopClass);
  if (otherObject !== null) {
    const reason = message("not-a-measurement-report", source, { what: otherObject });
    return setAside("not for this program", reason);
  }
  if ("failure" in dicom) return setAside("unreadable", failureMessage(dicom.failure, source));
  if (sopClass === null) return setAside("unreadable", message("report-without-class", source));
  const read = readDataSet(dicom);
  if ("failure" in read) {
    return setAside("unreadable", failureMessage(read.failure, source, dicom.transferSyntax));
  }
  const { dataSet } = read;
  const root = contentTreeOf(dataSet);
  const version = reportVersionOf(dataSet);
  if (!root || !version) return setAside("unreadable", message("report-without-content", source));
  const otherDocument = otherDocumentOf(root.key);
  if (otherDocument !== null) {
    const reason = message("not-a-measurement-report", source, { what: otherDocument });
    return setAside("not for this program", reason);
  }
  const patient = statedPatientOf(dataSet);
  if (!patient) {
    return setAside("structured report", message("report-without-patient-id", source));
  }
  const { exams, messages, numberCount } = readContent(dataSet, root, source);
  if (numberCount === 0) {
    return setAside("not for this program", message("report-without-numbers", source), messages);
  }
  if (exams.length === 0) {
    const reason = message("report-without-usable-numbers", source, { count: numberCount });
    return setAside("structured report", reason, messages);
  }
  const documents = exams.map((exam) => ({
    source,
    patient,
    report: version,
    ...exam,
    findings: [],
    stations: [],
  }));
  return result("structured report", { documents, messages });
}

/** The message for a file whose bytes can't be read as a whole. */
function failureMessage(failure: FileFailure, source: SourcePlace, transferSyntax = ""): Message {
  const data = {
    truncated: {},
    malformed: {},
    "too-deep": { limit: limits.depth },
    "too-many": { limit: limits.items },
    "too-large": { limit: maxReportBytes / 2 ** 20 },
    "transfer-syntax": { met: transferSyntax },
  };
  return message(`report-${failure}`, source, data[failure]);
}
