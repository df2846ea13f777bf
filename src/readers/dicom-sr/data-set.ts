import type { CharacterSets } from "./character-sets.ts";
import { isSequenceTag } from "./data-dictionary.ts";
import { tags } from "./tags.ts";

/** The bytes that data elements lie in, and how their text is decoded. */
export interface FileBytes {
  bytes: Buffer;
  characterSets: CharacterSets;
}

/** Where the value of a data element lies, and the items of a sequence; null for any other value. */
interface DataElement {
  start: number;
  length: number;
  littleEndian: boolean;
  items: DataSet[] | null;
}

/** The data elements of a file or of a sequence item, by tag. */
export interface DataSet {
  file: FileBytes;
  elements: Map<number, DataElement>;
  /** The Specific Character Set in force as written, inherited from the enclosing item. */
  characterSet: string;
}

/** How data elements are written. */
export interface Encoding {
  explicit: boolean;
  littleEndian: boolean;
}

export type StructureFailure = "truncated" | "malformed" | "too-deep" | "too-many";

/** Far above any report met, low enough that a hostile file ends early. */
export const limits = { depth: 256, items: 200_000, elements: 1_000_000 };

/** Far more than all terms of Specific Character Set together have. */
const maxCharacterSetLength = 1024;

const undefinedLength = 0xffffffff;
const itemTag = 0xfffee000;
const itemDelimiter = 0xfffee00d;
const sequenceDelimiter = 0xfffee0dd;

const vrCode = (letters: string): number => letters.charCodeAt(0) * 256 + letters.charCodeAt(1);
const sequenceVr = vrCode("SQ");
const unknownVr = vrCode("UN");
/** Value representations whose length has two bytes; all others, and those yet to come, have four. Source: PS3.5, 7.1.2. */
const shortVrs = new Set(
  "AE AS AT CS DA DS DT FD FL IS LO LT PN SH SL SS ST TM UI UL US".split(" ").map(vrCode),
);

/** An open data set (`items` null) or an open sequence. `delimited`: its length is undefined and a delimiter ends it. */
interface Frame {
  dataSet: DataSet;
  items: DataSet[] | null;
  end: number;
  delimited: boolean;
  encoding: Encoding;
}

/** Where the reading stands: the innermost open frame and those around it. */
interface Cursor {
  view: DataView;
  offset: number;
  end: number;
  frame: Frame;
  outer: Frame[];
  itemCount: number;
  elementCount: number;
}

/**
 * Reads all data elements between two offsets, nested sequences included, without calling itself. Empty items are
 * kept, so that positions count as the standard counts them. A sequence stored with an unknown value
 * representation is read as implicit little endian (PS3.5, 6.2.2). `stopBefore` ends the reading at a tag of
 * the outermost data set; the `end` of the result is the offset after the last byte read.
 */
export function parseDataSet(
  file: FileBytes,
  range: { start: number; end: number },
  encoding: Encoding,
  stopBefore: (tag: number) => boolean = () => false,
): { dataSet: DataSet; end: number } | { failure: StructureFailure } {
  const { bytes } = file;
  const root: DataSet = { file, elements: new Map(), characterSet: "" };
  const cursor: Cursor = {
    view: new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength),
    offset: range.start,
    end: range.end,
    frame: { dataSet: root, items: null, end: range.end, delimited: false, encoding },
    outer: [],
    itemCount: 0,
    elementCount: 0,
  };
  for (;;) {
    const { frame, outer, offset } = cursor;
    if (!frame.delimited && offset === frame.end) {
      const enclosing = outer.pop();
      if (!enclosing) return { dataSet: root, end: offset };
      cursor.frame = enclosing;
      continue;
    }
    const outermost = outer.length === 0;
    if (outermost && isPadding(bytes, offset, frame.end)) return { dataSet: root, end: frame.end };
    if (offset + 8 > frame.end) return { failure: shortOf(cursor) };
    const tag = readTag(cursor);
    if (outermost && stopBefore(tag)) return { dataSet: root, end: offset };
    const failure = frame.items ? readItem(cursor, tag) : readElement(cursor, tag);
    if (failure) return { failure };
  }
}

function readTag({ view, offset, frame }: Cursor): number {
  const { littleEndian } = frame.encoding;
  return view.getUint16(offset, littleEndian) * 0x10000 + view.getUint16(offset + 2, littleEndian);
}

/** Something reaches past the end of what holds it: the file is cut off, or its lengths contradict each other. */
const shortOf = (cursor: Cursor): StructureFailure =>
  cursor.frame.end === cursor.end ? "truncated" : "malformed";

/** Opens a sequence or an item whose value begins at the cursor. */
function open(
  cursor: Cursor,
  inner: Pick<Frame, "dataSet" | "items" | "encoding">,
  length: number,
): StructureFailure | null {
  const { frame, offset, outer } = cursor;
  const delimited = length === undefinedLength;
  if (!delimited && offset + length > frame.end) return shortOf(cursor);
  if (outer.length >= 2 * limits.depth) return "too-deep";
  outer.push(frame);
  cursor.frame = { ...inner, end: delimited ? frame.end : offset + length, delimited };
  return null;
}

function close(cursor: Cursor): null {
  cursor.offset += 8;
  cursor.frame = cursor.outer.pop() ?? cursor.frame;
  return null;
}

/** The next item of the open sequence, or its end. */
function readItem(cursor: Cursor, tag: number): StructureFailure | null {
  const { frame, view, offset } = cursor;
  if (tag === sequenceDelimiter && frame.delimited) return close(cursor);
  if (tag !== itemTag) return "malformed";
  if (++cursor.itemCount > limits.items) return "too-many";
  const { file, characterSet } = frame.dataSet;
  const dataSet: DataSet = { file, elements: new Map(), characterSet };
  frame.items?.push(dataSet);
  cursor.offset = offset + 8;
  const length = view.getUint32(offset + 4, frame.encoding.littleEndian);
  return open(cursor, { dataSet, items: null, encoding: frame.encoding }, length);
}

/** The next data element of the open data set, or its end. */
function readElement(cursor: Cursor, tag: number): StructureFailure | null {
  const { frame, view, offset } = cursor;
  const { dataSet, encoding } = frame;
  if (tag === itemDelimiter && frame.delimited) return close(cursor);
  if (tag >= 0xfffe0000 || dataSet.elements.has(tag)) return "malformed";
  if (++cursor.elementCount > limits.elements) return "too-many";
  const vr = encoding.explicit ? view.getUint16(offset + 4) : 0;
  if (encoding.explicit && !isVr(vr)) return "malformed";
  const hasLongLength = encoding.explicit && !shortVrs.has(vr);
  if (hasLongLength && offset + 12 > frame.end) return shortOf(cursor);
  const { littleEndian } = encoding;
  const length =
    encoding.explicit && !hasLongLength
      ? view.getUint16(offset + 6, littleEndian)
      : view.getUint32(offset + (hasLongLength ? 8 : 4), littleEndian);
  const start = offset + (hasLongLength ? 12 : 8);
  cursor.offset = start;

  const isUnknown = vr === unknownVr;
  const mayHideSequence = isUnknown || !encoding.explicit;
  const isSequence =
    vr === sequenceVr ||
    length === undefinedLength ||
    (mayHideSequence && isSequenceTag(tag) && startsItem(view, start, length));
  const element: DataElement = {
    start,
    length,
    littleEndian: littleEndian || isUnknown,
    items: isSequence ? [] : null,
  };
  dataSet.elements.set(tag, element);
  if (isSequence) {
    const inner = isUnknown ? { explicit: false, littleEndian: true } : encoding;
    return open(cursor, { dataSet, items: element.items, encoding: inner }, length);
  }
  if (start + length > frame.end) return shortOf(cursor);
  cursor.offset = start + length;
  if (tag === tags.specificCharacterSet) {
    const end = start + Math.min(length, maxCharacterSetLength);
    dataSet.characterSet = dataSet.file.bytes.toString("latin1", start, end);
  }
  return null;
}

function isVr(vr: number): boolean {
  const first = vr >> 8;
  const second = vr & 0xff;
  return first >= 65 && first <= 90 && second >= 65 && second <= 90;
}

/** An empty value, or one that begins with a sequence item in little endian. */
const startsItem = (view: DataView, start: number, length: number): boolean =>
  length === 0 ||
  (length >= 8 && start + 8 <= view.byteLength && view.getUint32(start) === 0xfeff00e0);

/** Zero bytes up to the end of the file: no data element has the tag (0000,0000). */
function isPadding(bytes: Buffer, offset: number, end: number): boolean {
  if (bytes[offset] !== 0 || bytes[offset + 1] !== 0) return false;
  for (let index = offset; index < end; index++) if (bytes[index] !== 0) return false;
  return true;
}
