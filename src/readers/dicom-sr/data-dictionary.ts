import dcmjs from "dcmjs";

export type { DcmjsDataSet } from "dcmjs";

dcmjs.log.setLevel("silent");

/**
 * dcmjs enters here only. Its data dictionary is used for reading and its writer for fixtures. Its own reader is
 * the second opinion in the tests and not the reader of this program: on a report of 180 numbers it takes about
 * as long as `dcmdump`, and it decodes nested text with the wrong character set, drops empty sequence items,
 * loses sequences stored with an unknown value representation, and calls itself once for each level of nesting.
 */
export const { DicomDict, DicomMessage } = dcmjs.data;

const known = new Map<number, boolean>();

/** Whether the standard's data dictionary says that this tag holds a sequence. A tag it does not list holds none. */
export function isSequenceTag(tag: number): boolean {
  const earlier = known.get(tag);
  if (earlier !== undefined) return earlier;
  const digits = tag.toString(16).toUpperCase().padStart(8, "0");
  const entry =
    dcmjs.data.DicomMetaDictionary.dictionary[`(${digits.slice(0, 4)},${digits.slice(4)})`];
  const sequence = entry?.vr === "SQ";
  if (known.size < 10_000) known.set(tag, sequence);
  return sequence;
}
