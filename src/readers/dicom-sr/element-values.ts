import type { Code, Term } from "../../anatomy/term.ts";
import type { DataSet } from "./data-set.ts";
import { tags } from "./tags.ts";
import { trimPadding } from "./trim-padding.ts";

/** Longest text that is handed out: that of the longest text value representation with a limit (LT). */
const maxTextLength = 10_240;

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
  const value = bytes.subarray(element.start, element.start + element.length);
  const text = trimPadding(characterSets.decode(value, dataSet.characterSet));
  return text.slice(0, maxTextLength) || null;
}

/** A double (FD) where the element holds exactly one. */
export function doubleOf(dataSet: DataSet, tag: number): number | null {
  const element = dataSet.elements.get(tag);
  if (element?.length !== 8 || element.items) return null;
  const { bytes } = dataSet.file;
  return element.littleEndian
    ? bytes.readDoubleLE(element.start)
    : bytes.readDoubleBE(element.start);
}

/** Unsigned 32-bit numbers (UL); empty where absent. */
export function unsignedOf(dataSet: DataSet, tag: number): number[] {
  const element = dataSet.elements.get(tag);
  if (!element || element.items) return [];
  const { bytes } = dataSet.file;
  return Array.from({ length: Math.floor(element.length / 4) }, (_, index) => {
    const offset = element.start + 4 * index;
    return element.littleEndian ? bytes.readUInt32LE(offset) : bytes.readUInt32BE(offset);
  });
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
  return { words: textOf(codeItem, tags.codeMeaning) ?? value, code };
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
