import { trimPadding } from "./trim-padding.ts";

/** Turns the bytes of text into characters by the Specific Character Set in force. */
export interface CharacterSets {
  /** `isName`: in a person name the component delimiters end the reach of an escape sequence too. */
  decode(bytes: Buffer, characterSet: string, isName?: boolean): string;
  /** What could not be decoded with certainty, each said once. */
  doubts: ReadonlySet<string>;
}

type Decode = (bytes: Buffer) => string;

const decoderOf = (label: string): Decode => {
  const decoder = new TextDecoder(label);
  return (bytes) => decoder.decode(bytes);
};
const latin1 = decoderOf("windows-1252");
/** The default repertoire, which has no letters above 7F of its own. */
const ascii: Decode = (bytes) => latin1(bytes);
const japaneseEuc = decoderOf("euc-jp");
const japaneseShift = decoderOf("shift_jis");
const korean = decoderOf("euc-kr");
const chinese = decoderOf("gbk");

/**
 * Decoders by the number of the set in its defined term (ISO_IR 100, ISO 2022 IR 100).
 * Source: DICOM PS3.3, C.12.1.1.2; the decoders' names: WHATWG Encoding Standard.
 */
const byNumber: Record<string, Decode> = {
  "6": ascii,
  "13": japaneseShift,
  "58": chinese,
  "87": ascii,
  "100": latin1,
  "101": decoderOf("iso-8859-2"),
  "109": decoderOf("iso-8859-3"),
  "110": decoderOf("iso-8859-4"),
  "126": decoderOf("iso-8859-7"),
  "127": decoderOf("iso-8859-6"),
  "138": decoderOf("iso-8859-8"),
  "144": decoderOf("iso-8859-5"),
  "148": decoderOf("windows-1254"),
  "149": korean,
  "159": ascii,
  "166": decoderOf("windows-874"),
  "192": decoderOf("utf-8"),
  "203": decoderOf("iso-8859-15"),
};
const byTerm = new Map<string, Decode>([
  ["GB18030", decoderOf("gb18030")],
  ["GBK", chinese],
  // Not defined terms, yet they can mean only one thing.
  ["UTF-8", decoderOf("utf-8")],
  ["ISO-8859-1", latin1],
]);

const withHighBits = (bytes: Buffer): Buffer => Buffer.from(bytes.map((byte) => byte | 0x80));

/** JIS X 0212 in EUC-JP is a byte 8F before each pair of bytes. */
function japaneseSupplement(bytes: Buffer): string {
  const pairs = withHighBits(bytes).toString("latin1").match(/../gs) ?? [];
  return japaneseEuc(Buffer.from(pairs.map((pair) => `\u008f${pair}`).join(""), "latin1"));
}

/**
 * What an escape sequence of the code extensions selects: `low` for the bytes below 80, `high` for the others;
 * only a set of two-byte characters changes how the low bytes are read. Source: DICOM PS3.3, tables C.12-3 and C.12-4.
 */
const selections: Record<string, { low?: Decode | null; high?: Decode | undefined }> = {
  "(B": { low: null },
  "(J": { low: null },
  $B: { low: (bytes) => japaneseEuc(withHighBits(bytes)) },
  "$(D": { low: japaneseSupplement },
  ")I": { high: japaneseShift },
  "$)A": { high: chinese },
  "$)C": { high: korean },
  "-A": { high: latin1 },
  "-B": { high: byNumber["101"] },
  "-C": { high: byNumber["109"] },
  "-D": { high: byNumber["110"] },
  "-F": { high: byNumber["126"] },
  "-G": { high: byNumber["127"] },
  "-H": { high: byNumber["138"] },
  "-L": { high: byNumber["144"] },
  "-M": { high: byNumber["148"] },
  "-T": { high: byNumber["166"] },
  "-b": { high: byNumber["203"] },
};
const selectionPattern = /^(?:\$[()][A-Z]|\$[A-Z]|[()-][A-Za-z])/;
const escapeByte = 0x1b;

/** Where the first set is in force again. Source: DICOM PS3.5, 6.1.2.5.3. */
const lineEnds = /[\t\n\f\r]/;
const lineEndsAndNameDelimiters = /[\t\n\f\r^=]/;

/**
 * Text with code extensions: each escape sequence selects the set for what follows it, as far as a delimiter; null
 * for one not known. Among two-byte characters below 80 no byte is a delimiter. Where the first set has no letters above
 * 7F, a writer that forgot to select its set again after a delimiter can only have meant the last one.
 */
function decodeExtended(bytes: Buffer, first: Decode, delimiter: RegExp): string | null {
  const escapeCharacter = String.fromCodePoint(escapeByte);
  const [start = "", ...parts] = bytes.toString("latin1").split(escapeCharacter);
  let low: Decode | null = null;
  let high = first;
  let text = first(Buffer.from(start, "latin1"));
  for (const part of parts) {
    const [sequence = ""] = selectionPattern.exec(part) ?? [];
    const selection = selections[sequence];
    if (!selection) return null;
    if (selection.low !== undefined) low = selection.low;
    high = selection.high ?? high;
    const letters = part.slice(sequence.length);
    const end = low === null ? letters.search(delimiter) : -1;
    const selected = end < 0 ? letters : letters.slice(0, end);
    text += (low ?? high)(Buffer.from(selected, "latin1"));
    if (end < 0) continue;
    if (first !== ascii) high = first;
    text += high(Buffer.from(letters.slice(end), "latin1"));
  }
  return text;
}

/** A file that names ever new sets is told so this many times. */
const maxDoubts = 16;

const isPlainAscii = (bytes: Buffer): boolean => {
  for (const byte of bytes) if (byte >= 0x80 || byte === escapeByte) return false;
  return true;
};

/**
 * The decoder of one file. A term that is not known, and bytes that their set does not define, cost letters of
 * the text but never a number: they are decoded as far as possible and remembered in `doubts`.
 */
export function openCharacterSets(): CharacterSets {
  const doubts = new Set<string>();
  const doubt = (what: string) => {
    if (doubts.size < maxDoubts) doubts.add(what);
  };
  const decoders = new Map<string, Decode>();
  const firstDecoder = (characterSet: string): Decode => {
    const term = trimPadding(characterSet.split("\\")[0] ?? "");
    if (term === "") return ascii;
    const number = /^ISO[ _-]?(?:2022[ _-])?IR[ _-]?(\d+)$/.exec(term)?.[1];
    const decode = byTerm.get(term) ?? (number === undefined ? undefined : byNumber[number]);
    if (!decode) doubt(`the character set "${term.slice(0, 64)}" is not known`);
    return decode ?? latin1;
  };
  return {
    doubts,
    decode(bytes, characterSet, isName = false) {
      if (isPlainAscii(bytes)) return bytes.toString("latin1");
      const first = decoders.get(characterSet) ?? firstDecoder(characterSet);
      decoders.set(characterSet, first);
      const delimiter = isName ? lineEndsAndNameDelimiters : lineEnds;
      const isExtended = bytes.includes(escapeByte);
      const text = isExtended ? decodeExtended(bytes, first, delimiter) : first(bytes);
      if (characterSet === "")
        doubt("letters without a declared character set were read as Latin-1");
      else if (text === null || text.includes("\ufffd") || (first === ascii && !isExtended)) {
        doubt("some letters are not of the declared character set");
      }
      return text ?? first(bytes);
    },
  };
}
