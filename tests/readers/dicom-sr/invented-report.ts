import { type ByteOptions, writeBytes } from "../../../fixtures/byte-writer.ts";
import {
  type Coded,
  codeItem,
  coded,
  container,
  type Elements,
  measuredValue,
  names,
  numberItem,
  textItem,
} from "../../../fixtures/content-items.ts";
import {
  headerOf,
  type ReportedDocument,
  rootOf,
} from "../../../fixtures/structured-report-writer.ts";
import { readStructuredReport } from "../../../src/readers/dicom-sr/read-structured-report.ts";
import type { ReadFile, Reading } from "../../../src/readers/reading.ts";

export const diameter = coded("SCT", "81827009", "Diameter");
export const millimetre = coded("UCUM", "mm", "millimeter");
export const ascending = coded("SCT", "54247002", "Ascending aorta");
export const arch = coded("SCT", "57034009", "Aortic arch");
export const maximum = coded("SCT", "56851009", "Maximum");
export const minimum = coded("SCT", "255605001", "Minimum");

/** An invented report without groups and images; a test fills in what it is about. */
export const invented: ReportedDocument = {
  patient: {
    id: "TEST-0001",
    issuer: "INVENTED",
    name: "Testperson^Invented",
    birthDate: "19500102",
    sex: "F",
  },
  studyUid: "2.25.1001",
  seriesUid: "2.25.1002",
  sopInstanceUid: "2.25.1003",
  studyDate: "20240105",
  contentDate: "20240207",
  observer: "Reader^Invented",
  completion: "COMPLETE",
  verification: "UNVERIFIED",
  images: null,
  groups: [],
};

/** The bytes of a report with these root content items; `header` overrides or adds elements. */
export function reportBytes(
  content: Elements[],
  header: Elements = {},
  options: ByteOptions = {},
): Uint8Array {
  return writeBytes({ ...headerOf(invented), ...rootOf(content), ...header }, options);
}

export const read = (bytes: Uint8Array): ReadFile =>
  readStructuredReport(bytes, "invented.dcm", "0".repeat(64));

export const readContent = (content: Elements[], header: Elements = {}): ReadFile =>
  read(reportBytes(content, header));

export const readingsOf = (file: ReadFile): Reading[] =>
  file.documents.flatMap(({ readings }) => readings);

/** The codes of a file's messages, and of the reason for setting it aside. */
export const messageCodes = (file: ReadFile): string[] =>
  [...(file.setAside ? [file.setAside] : []), ...file.messages].map(({ code }) => code);

/** A number "Diameter" in mm. */
export const diameterItem = (value: string, children: Elements[] = [], name = diameter): Elements =>
  numberItem("CONTAINS", name, [measuredValue(value, millimetre)], children);

export const modifier = (name: Coded, value: Coded, children: Elements[] = []): Elements =>
  codeItem("HAS CONCEPT MOD", name, value, children);

export const site = (place: Coded, children: Elements[] = []): Elements =>
  modifier(names.findingSite, place, children);

/** A measurement group with a tracking identifier. */
export const group = (...children: Elements[]): Elements =>
  container(names.measurementGroup, [
    textItem("HAS OBS CONTEXT", names.trackingIdentifier, "tracked"),
    ...children,
  ]);
