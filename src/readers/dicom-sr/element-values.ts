import type { Code, Term } from "../../anatomy/term.ts";
import { type DataSet, limits } from "./data-set.ts";
import { tags } from "./tags.ts";
import { trimPadding } from "./trim-padding.ts";

/** Longest text that is handed out: that of the longest text value representation with a limit (LT). */
const maxTextLength = 10_240;
/** Bytes that text of this length can take, an escape sequence before every letter included. */
const maxTextBytes = 8 * maxTextLength;
/** Longest words of a term, four times what a code meaning can have: messages repeat them for every number. */
export const maxWordsLength = 256;

/** A value in the default character repertoire (UIDs, dates, code strings, numbers); null where absent or empty. */
export function asciiOf(dataSet: DataSet, tag: number): string | null {
  const element = dataSet.elements.get(tag);
  if (!element || element.items) return null;
  const { start, length } = element;
  return trimPadding(dataSet.file.bytes.toString("latin1", start, start + length)) || null;
}

/** Text decoded by the character set in force, cut at a length that no name or comment has; null where absent or empty. A backslash is part of the text. */
export function textOf(dataSet: DataSet, tag: number): string | null {
  const element = dataSet.elements.get(tag);
  if (!element || element.items) return null;
  const { bytes, characterSets } = dataSet.file;
  const length = Math.min(element.length, maxTextBytes);
  const value = bytes.subarray(element.start, element.start + length);
  const isName = tag === tags.personName || tag === tags.patientName;
  const text = trimPadding(characterSets.decode(value, dataSet.characterSet, isName));
  return text.slice(0, maxTextLength) || null;
}

/** Binary value representations: bytes of one number, and how it is read. */
const binary = {
  FL: {
    size: 4,
    read: (view: DataView, at: number, little: boolean) => view.getFloat32(at, little),
  },
  FD: {
    size: 8,
    read: (view: DataView, at: number, little: boolean) => view.getFloat64(at, little),
  },
  SL: { size: 4, read: (view: DataView, at: number, little: boolean) => view.getInt32(at, little) },
  UL: {
    size: 4,
    read: (view: DataView, at: number, little: boolean) => view.getUint32(at, little),
  },
};

/** As many numbers as the longest list that is read can have: a position in the content tree, or (FL) the coordinates of a figure. */
const maxNumbers = (vr: keyof typeof binary): number => (vr === "FL" ? 60_000 : limits.depth);

/** The numbers of a binary element; empty where absent, null where the bytes are not whole numbers or too many. */
export function binaryOf(dataSet: DataSet, tag: number, vr: keyof typeof binary): number[] | null {
  const element = dataSet.elements.get(tag);
  if (!element) return [];
  const { size, read } = binary[vr];
  if (element.items || element.length % size !== 0) return null;
  if (element.length > maxNumbers(vr) * size) return null;
  const { buffer, byteOffset } = dataSet.file.bytes;
  const view = new DataView(buffer, byteOffset + element.start, element.length);
  return Array.from({ length: element.length / size }, (_, index) =>
    read(view, index * size, element.littleEndian),
  );
}

/** The items of a sequence; empty where the sequence is absent or has none. */
export function itemsOf(dataSet: DataSet, tag: number): DataSet[] {
  return dataSet.elements.get(tag)?.items ?? [];
}

/** Whether bytes stand where a sequence should, in a form that can't be read as one. */
export function isUnreadableSequence(dataSet: DataSet, tag: number): boolean {
  const element = dataSet.elements.get(tag);
  return element !== undefined && element.items === null && element.length > 0;
}

/** A code item: short, long or URN code value with its scheme, and the meaning text; null without a code value. */
export function termOf(codeItem: DataSet): Term | null {
  const value =
    textOf(codeItem, tags.codeValue) ??
    textOf(codeItem, tags.longCodeValue) ??
    asciiOf(codeItem, tags.urnCodeValue);
  if (value === null) return null;
  const code: Code = { scheme: textOf(codeItem, tags.codingSchemeDesignator) ?? "", value };
  const words = textOf(codeItem, tags.codeMeaning) ?? value;
  return { words: words.slice(0, maxWordsLength), code };
}

/** The code in the only item of a code sequence; null where it is absent. */
export function codedOf(dataSet: DataSet, tag: number): Term | null {
  const [item] = itemsOf(dataSet, tag);
  return item ? termOf(item) : null;
}

/** A date (DA, or the date of a DT) as YYYY-MM-DD; null where absent or not a day of the calendar. */
export function isoDateOf(text: string | null): string | null {
  const [, year, month, day] = /^(\d{4})\.?(\d{2})\.?(\d{2})/.exec(text ?? "") ?? [];
  if (year === undefined) return null;
  const iso = `${year}-${month}-${day}`;
  const date = new Date(`${iso}T00:00:00Z`);
  return !Number.isNaN(date.getTime()) && date.toISOString().startsWith(iso) ? iso : null;
}
