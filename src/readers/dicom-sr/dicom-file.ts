import { inflateRawSync } from "node:zlib";
import { openCharacterSets } from "./character-sets.ts";
import {
  type DataSet,
  type Encoding,
  type FileBytes,
  parseDataSet,
  type StructureFailure,
} from "./data-set.ts";
import { asciiOf } from "./element-values.ts";
import { tags } from "./tags.ts";

/** Largest structured report that is read, before and after decompression. */
export const maxReportBytes = 64 * 2 ** 20;

const implicitLittleEndian = "1.2.840.10008.1.2";
const explicitLittleEndian = "1.2.840.10008.1.2.1";
const deflated = "1.2.840.10008.1.2.1.99";
const explicitBigEndian = "1.2.840.10008.1.2.2";

/** Transfer syntaxes that a report can have. Source: DICOM PS3.5, annex A. */
const encodings = new Map<string, Encoding>([
  [implicitLittleEndian, { explicit: false, littleEndian: true }],
  [explicitLittleEndian, { explicit: true, littleEndian: true }],
  [deflated, { explicit: true, littleEndian: true }],
  [explicitBigEndian, { explicit: true, littleEndian: false }],
]);

export type FileFailure = StructureFailure | "too-large" | "transfer-syntax";

/** A DICOM file whose file meta information could be read: where its data set lies and how it is written. */
export interface DicomFile {
  file: FileBytes;
  start: number;
  encoding: Encoding;
  transferSyntax: string;
  /** SOP class by the file meta information; null where it names none. */
  mediaSopClassUid: string | null;
}

const startsMeta = (bytes: Buffer, offset: number): boolean =>
  bytes.toString("latin1", offset, offset + 2) === "\u0002\0" &&
  /^[A-Z]{2}$/.test(bytes.toString("latin1", offset + 4, offset + 6));

/** Offset of the file meta information; null for a bare data set. */
function metaStart(bytes: Buffer): number | null {
  if (bytes.toString("latin1", 128, 132) === "DICM") return 132;
  if (bytes.toString("latin1", 0, 4) === "DICM") return 4;
  return startsMeta(bytes, 0) ? 0 : null;
}

/** The transfer syntax of a data set that begins with group 0008, told by its first eight bytes; null for none. */
function sniffTransferSyntax(bytes: Buffer, start: number): string | null {
  if (bytes.length < start + 8) return null;
  const group = bytes.readUInt16LE(start);
  const hasVr = /^[A-Z]{2}$/.test(bytes.toString("latin1", start + 4, start + 6));
  if (group === 0x0800) return hasVr ? explicitBigEndian : null;
  if (group !== 0x0008) return null;
  if (hasVr) return explicitLittleEndian;
  return bytes.readUInt32LE(start + 4) <= bytes.length - start - 8 ? implicitLittleEndian : null;
}

/** Whether these are the bytes of a DICOM file, with or without preamble and file meta information. */
export function looksLikeDicom(bytes: Uint8Array): boolean {
  const buffer = bufferOf(bytes);
  return metaStart(buffer) !== null || sniffTransferSyntax(buffer, 0) !== null;
}

const bufferOf = (bytes: Uint8Array): Buffer =>
  Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);

/** Finds the data set in a file's bytes. */
export function openDicomFile(input: Uint8Array): DicomFile | { failure: FileFailure } {
  const file: FileBytes = { bytes: bufferOf(input), characterSets: openCharacterSets() };
  const { bytes } = file;
  const meta = metaStart(bytes);
  let start = 0;
  let transferSyntax: string | null = null;
  let mediaSopClassUid: string | null = null;
  if (meta !== null) {
    const parsed = parseMeta(file, meta);
    if ("failure" in parsed) return parsed;
    start = parsed.end;
    transferSyntax = asciiOf(parsed.dataSet, tags.transferSyntaxUid);
    mediaSopClassUid = asciiOf(parsed.dataSet, tags.mediaStorageSopClassUid);
  }
  transferSyntax ??= sniffTransferSyntax(bytes, start);
  if (transferSyntax === null)
    return { failure: start >= bytes.length ? "truncated" : "malformed" };
  const encoding = encodings.get(transferSyntax) ?? { explicit: true, littleEndian: true };
  return { file, start, encoding, transferSyntax, mediaSopClassUid };
}

/** The same file with its data set inflated, where it is deflated. */
export function inflated(dicom: DicomFile): DicomFile | { failure: FileFailure } {
  const { file, start, transferSyntax } = dicom;
  if (transferSyntax !== deflated) return dicom;
  const result = inflate(file.bytes.subarray(start));
  if ("failure" in result) return result;
  return { ...dicom, file: { ...file, bytes: result.bytes }, start: 0 };
}

/** The file meta information ends where its group length says or, without one, where group 0002 ends. */
function parseMeta(
  file: FileBytes,
  start: number,
): { dataSet: DataSet; end: number } | { failure: FileFailure } {
  const { bytes } = file;
  const hasLength =
    bytes.length >= start + 12 && bytes.toString("latin1", start, start + 6) === "\u0002\0\0\0UL";
  const end = hasLength ? start + 12 + bytes.readUInt32LE(start + 8) : bytes.length;
  if (end > bytes.length) return { failure: "truncated" };
  const encoding = { explicit: true, littleEndian: true };
  return parseDataSet(file, { start, end }, encoding, (tag) => tag >= 0x00030000);
}

/** Inflates at most the largest report's size, the guard against a small file that swells without end. */
function inflate(bytes: Buffer): { bytes: Buffer } | { failure: FileFailure } {
  try {
    return { bytes: inflateRawSync(bytes, { maxOutputLength: maxReportBytes }) };
  } catch (error) {
    const code = error instanceof Error && "code" in error ? error.code : null;
    if (code === "ERR_BUFFER_TOO_LARGE") return { failure: "too-large" };
    return { failure: code === "Z_BUF_ERROR" ? "truncated" : "malformed" };
  }
}

/** Reads the head of the data set as far as its SOP class; null where it holds none. */
export function sopClassOf({ file, start, encoding }: DicomFile): string | null {
  const range = { start, end: file.bytes.length };
  const head = parseDataSet(file, range, encoding, (tag) => tag > tags.sopClassUid);
  return "failure" in head ? null : asciiOf(head.dataSet, tags.sopClassUid);
}

/** Reads the whole data set of a report; a file that ends early is never read as whole. */
export function readDataSet(dicom: DicomFile): { dataSet: DataSet } | { failure: FileFailure } {
  const { file, start, encoding, transferSyntax } = dicom;
  if (!encodings.has(transferSyntax)) return { failure: "transfer-syntax" };
  if (file.bytes.length > maxReportBytes) return { failure: "too-large" };
  return parseDataSet(file, { start, end: file.bytes.length }, encoding);
}
