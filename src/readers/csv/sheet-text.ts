import { type DecodedText, decodeText } from "./decode-text.ts";
import { type Delimiter, delimiters, withUnixLines } from "./csv-file.ts";

/** The text of a sheet with LF line ends, from its first line or title on. */
export interface SheetText {
  text: string;
  /** Lines of the file before the text: 1 where the file begins with `sep=`. */
  linesBefore: number;
  /** The delimiters that are possible: the one that `sep=` names, or those that occur. */
  delimiters: readonly Delimiter[];
  /** The most cells that any line can have, whatever the delimiter. */
  widestLine: number;
  encoding: DecodedText["encoding"];
}

/** The text of a file's bytes; null where they are no text. */
export function sheetText(bytes: Uint8Array): SheetText | null {
  const decoded = decodeText(bytes);
  if (decoded === null) return null;
  const { encoding } = decoded;
  const text = withUnixLines(decoded.text);
  const widestLine = widestLineOf(text);
  const [line, mark] = /^"?sep=([,;\t|])"?(?:\n|$)/i.exec(text) ?? [];
  const named = delimiters.find((delimiter) => delimiter === mark);
  if (line !== undefined && named !== undefined) {
    return {
      text: text.slice(line.length),
      linesBefore: 1,
      delimiters: [named],
      widestLine,
      encoding,
    };
  }
  const occurring = delimiters.filter((delimiter) => text.includes(delimiter));
  return { text, linesBefore: 0, delimiters: occurring, widestLine, encoding };
}

function widestLineOf(text: string): number {
  let widest = 0;
  for (const line of text.split("\n")) {
    if (line.length < widest) continue;
    widest = Math.max(widest, (line.match(/[,;\t|]/g)?.length ?? 0) + 1);
  }
  return widest;
}

/** The text after so many lines. */
export function linesFrom(text: string, count: number): string {
  let start = 0;
  for (let line = 0; line < count; line++) {
    const end = text.indexOf("\n", start);
    if (end < 0) return "";
    start = end + 1;
  }
  return text.slice(start);
}
