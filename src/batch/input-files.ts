import {
  closeSync,
  constants,
  type Dirent,
  fstatSync,
  openSync,
  readdirSync,
  readFileSync,
} from "node:fs";
import { join } from "node:path";
import { readerMessage } from "../readers/messages.ts";
import { readFile } from "../readers/read-file.ts";
import type { ReadFile } from "../readers/reading.ts";
import type { SheetConventions } from "../site/sheet-settings.ts";
import type { Message, SourcePlace } from "../message.ts";
import { batchMessage } from "./messages.ts";

/** Something in the input folder; `fault` says why it can't be read at all. */
export interface FolderEntry {
  /** Name relative to the folder, with forward slashes. */
  file: string;
  fault: Message | null;
}

/**
 * Everything under a folder, sorted by name. Hidden files and folders are passed over. Links are never followed and
 * pipes, sockets and devices never opened: they are entries with a fault, and so is a folder that can't be listed.
 */
export function inputFiles(folder: string): FolderEntry[] {
  const entries: FolderEntry[] = [];
  const open = [""];
  for (let under = open.pop(); under !== undefined; under = open.pop()) {
    const listed = withoutThrowing(() => readdirSync(join(folder, under), { withFileTypes: true }));
    if ("fault" in listed) {
      const file = under.slice(0, -1) || ".";
      const fault = batchMessage("folder-unreadable", placeOf(file), { what: listed.fault });
      entries.push({ file, fault });
      continue;
    }
    for (const entry of listed.value) {
      if (entry.name.startsWith(".")) continue;
      const file = `${under}${entry.name}`;
      if (entry.isDirectory()) open.push(`${file}/`);
      else entries.push({ file, fault: irregular(entry, file) });
    }
  }
  return entries.toSorted((a, b) => (a.file < b.file ? -1 : 1));
}

function irregular(entry: Dirent, file: string): Message | null {
  if (entry.isFile()) return null;
  const what = entry.isSymbolicLink() ? "a link" : "a pipe, socket or device";
  return batchMessage("file-not-regular", placeOf(file), { what });
}

const placeOf = (file: string): SourcePlace => ({ file, sha256: null, at: null });

/** Largest file that is read, in bytes: far above any report or sheet. */
const largestFile = 256 * 1024 * 1024;

/** The bytes of an input file, or why there are none. What has become a link or pipe meanwhile is not opened. */
export function inputBytes(
  folder: string,
  file: string,
): { bytes: Uint8Array } | { fault: Message } {
  const place = placeOf(file);
  const { O_RDONLY, O_NOFOLLOW, O_NONBLOCK } = constants;
  // oxlint-disable-next-line no-bitwise
  const flags = O_RDONLY | (O_NOFOLLOW ?? 0) | (O_NONBLOCK ?? 0);
  const opened = withoutThrowing(() => openSync(join(folder, file), flags));
  if ("fault" in opened) {
    return { fault: readerMessage("file-unreadable", place, { what: opened.fault }) };
  }
  try {
    const status = fstatSync(opened.value);
    if (!status.isFile()) {
      return { fault: batchMessage("file-not-regular", place, { what: "no file any more" }) };
    }
    if (status.size > largestFile) {
      const limit = largestFile / 1024 / 1024;
      return { fault: batchMessage("file-too-large", place, { limit }) };
    }
    const read = withoutThrowing(() => readFileSync(opened.value));
    return "fault" in read
      ? { fault: readerMessage("file-unreadable", place, { what: read.fault }) }
      : { bytes: read.value };
  } finally {
    closeSync(opened.value);
  }
}

/** Reads one entry of the folder; what can't be read is set aside like any other file. */
export function readInputFile(
  folder: string,
  { file, fault }: FolderEntry,
  conventions: SheetConventions,
): ReadFile {
  const got = fault === null ? inputBytes(folder, file) : { fault };
  if ("bytes" in got) return readFile(got.bytes, file, conventions);
  return {
    file,
    sha256: "",
    kind: "unreadable",
    documents: [],
    caseRows: [],
    meetingRows: [],
    setAside: got.fault,
    messages: [],
  };
}

/** What the system says when it refuses, without the path; a defect of the program is thrown on. */
function withoutThrowing<T>(task: () => T): { value: T } | { fault: string } {
  try {
    return { value: task() };
  } catch (error) {
    if (!(error instanceof Error && "code" in error)) throw error;
    return { fault: error.message.split(",")[0] ?? "" };
  }
}
