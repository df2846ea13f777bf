import { readdirSync, readFileSync } from "node:fs";
import { join, relative, sep } from "node:path";
import { readFile } from "../readers/read-file.ts";
import { readerMessage } from "../readers/csv/sheet.ts";
import type { ReadFile } from "../readers/reading.ts";

/** All regular files under a folder, by name relative to it, sorted. Hidden files and links are passed over. */
export function inputFiles(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).split(sep).join("/"))
    .filter((name) => !name.split("/").some((part) => part.startsWith(".")))
    .toSorted();
}

/** Reads one input file; a file that the system does not let us read is set aside like any other. */
export function readInputFile(folder: string, file: string): { read: ReadFile; bytes: Uint8Array } {
  try {
    const bytes = readFileSync(join(folder, file));
    return { read: readFile(bytes, file), bytes };
  } catch (error) {
    if (!(error instanceof Error && "syscall" in error)) throw error;
    const place = { file, sha256: null, at: null };
    const read: ReadFile = {
      file,
      sha256: "",
      kind: "unreadable",
      documents: [],
      caseRows: [],
      meetingRows: [],
      setAside: readerMessage("file-unreadable", place, { what: error.message }),
      messages: [],
    };
    return { read, bytes: new Uint8Array() };
  }
}
