import type { Message, SourcePlace } from "../message.ts";
import type { ReadFile } from "../readers/reading.ts";
import type { BatchSummary } from "../report/batch-summary.ts";

export type FileRow = BatchSummary["files"][number];

/** One document or row of a file, with how many of its numbers, findings and sections were placed and left out. */
export interface FilePart {
  source: SourcePlace;
  placed: number;
  leftOut: number;
  messages: Message[];
}

/** A file of tonight with what became of it. `details` are the messages about its single numbers, findings and rows. */
export interface FiledFile {
  row: FileRow;
  details: Message[];
  read: ReadFile;
  parts: FilePart[];
  /** Whether its content goes into the store tonight. */
  isFresh: boolean;
}

/** Tells documents and rows of all files apart. */
export const placeKey = ({ sha256, at }: SourcePlace): string => JSON.stringify([sha256, at]);
