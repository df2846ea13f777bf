import type { Message } from "../../message.ts";
import type { ReadFile } from "../reading.ts";
import { caseHeadings, readCaseSheet } from "./case-sheet.ts";
import { measurementHeadings, readMeasurementSheet } from "./measurement-sheet.ts";
import { meetingHeadings, readMeetingList } from "./meeting-list.ts";
import { openSheet, readerMessage, type Sheet, unusedHeadings } from "./sheet.ts";

interface Headings {
  required: readonly string[];
  optional: readonly string[];
}

/** A sheet is what its headings say: the first kind whose telling heading it has. */
const kinds = [
  { kind: "measurement sheet", telling: ["quantity", "value"], headings: measurementHeadings },
  { kind: "meeting list", telling: ["order"], headings: meetingHeadings },
  { kind: "case sheet", telling: [...caseHeadings.optional], headings: caseHeadings },
] as const;

/** Reads a CSV file of any kind that this program knows. */
export function readSheet(bytes: Uint8Array, file: string, sha256: string): ReadFile {
  const identity = { file, sha256 };
  const empty = {
    ...identity,
    documents: [],
    caseRows: [],
    meetingRows: [],
    setAside: null,
    messages: [],
  };
  const unusable = (setAside: Message, kind: ReadFile["kind"]): ReadFile => ({
    ...empty,
    kind,
    setAside,
  });
  const sheet = openSheet(bytes, identity);
  if ("setAside" in sheet) return unusable(sheet.setAside, "unreadable");
  const whole = { ...identity, at: null };
  const match = kinds.find(
    ({ telling }) =>
      sheet.headings.includes("patient_id") &&
      telling.some((heading) => sheet.headings.includes(heading)),
  );
  if (!match) return unusable(readerMessage("file-not-recognised", whole), "unreadable");
  const { kind } = match;
  const headings: Headings = match.headings;
  const missing = headings.required.find((heading) => !sheet.headings.includes(heading));
  if (missing !== undefined) {
    return unusable(readerMessage("csv-heading-missing", whole, { kind, heading: missing }), kind);
  }
  const known = [...headings.required, ...headings.optional];
  const read = readRows(kind, sheet);
  const messages = [
    ...sheet.messages,
    ...unusedHeadings(sheet, known, kind, identity),
    ...read.messages,
  ];
  return { ...empty, kind, ...read, messages };
}

function readRows(
  kind: (typeof kinds)[number]["kind"],
  sheet: Sheet,
): Partial<ReadFile> & { messages: Message[] } {
  if (kind === "measurement sheet") return readMeasurementSheet(sheet);
  return kind === "case sheet" ? readCaseSheet(sheet) : readMeetingList(sheet);
}
