import { inflateSync } from "node:zlib";
import { fontFile, subsetOf, type FontSubset, type FontWeight } from "./fonts.ts";

/** Advance widths of one font file, in font units by code point. */
interface FontMetrics {
  unitsPerEm: number;
  advances: Map<number, number>;
}

/** The tables of a WOFF file by tag. Source: W3C WOFF File Format 1.0, sections 3 to 5. */
function woffTables(bytes: Buffer): Map<string, Buffer> {
  const tables = new Map<string, Buffer>();
  const count = bytes.readUInt16BE(12);
  for (let index = 0; index < count; index++) {
    const entry = 44 + index * 20;
    const offset = bytes.readUInt32BE(entry + 4);
    const packed = bytes.readUInt32BE(entry + 8);
    const data = bytes.subarray(offset, offset + packed);
    const isPacked = packed < bytes.readUInt32BE(entry + 12);
    tables.set(bytes.toString("latin1", entry, entry + 4), isPacked ? inflateSync(data) : data);
  }
  return tables;
}

function table(tables: Map<string, Buffer>, tag: string): Buffer {
  const bytes = tables.get(tag);
  if (!bytes) throw new Error(`font has no ${tag} table`);
  return bytes;
}

/** Glyph numbers by code point from a format 4 subtable. Source: OpenType specification, cmap. */
function glyphNumbers(cmap: Buffer): Map<number, number> {
  const start = cmap.readUInt32BE(8);
  if (cmap.readUInt16BE(start) !== 4) throw new Error("font's first cmap subtable is not format 4");
  const segments = cmap.readUInt16BE(start + 6) / 2;
  const glyphs = new Map<number, number>();
  for (let segment = 0; segment < segments; segment++) {
    const at = start + 14 + segment * 2;
    const last = cmap.readUInt16BE(at);
    const first = cmap.readUInt16BE(at + segments * 2 + 2);
    const delta = cmap.readUInt16BE(at + segments * 4 + 2);
    const rangeAt = at + segments * 6 + 2;
    const range = cmap.readUInt16BE(rangeAt);
    for (let code = first; code <= last && code !== 0xffff; code++) {
      const glyph = range === 0 ? code : cmap.readUInt16BE(rangeAt + range + (code - first) * 2);
      glyphs.set(code, (glyph + delta) & 0xffff);
    }
  }
  return glyphs;
}

function readMetrics(bytes: Buffer): FontMetrics {
  const tables = woffTables(bytes);
  const widths = table(tables, "hmtx");
  const widthCount = table(tables, "hhea").readUInt16BE(34);
  const advances = new Map<number, number>();
  for (const [code, glyph] of glyphNumbers(table(tables, "cmap")))
    advances.set(code, widths.readUInt16BE(Math.min(glyph, widthCount - 1) * 4));
  return { unitsPerEm: table(tables, "head").readUInt16BE(18), advances };
}

const metrics = new Map<string, FontMetrics>();

function metricsOf(subset: FontSubset, weight: FontWeight): FontMetrics {
  const key = `${subset} ${weight}`;
  const known = metrics.get(key) ?? readMetrics(fontFile(subset, weight, "woff"));
  metrics.set(key, known);
  return known;
}

/** A character that the font lacks is drawn in another font: a full em is taken for it. */
const unknownWidthEm = 1;

function characterWidthEm(character: string, weight: FontWeight): number {
  const code = character.codePointAt(0) ?? 0;
  const subset = subsetOf(code);
  if (subset === null) return unknownWidthEm;
  const { unitsPerEm, advances } = metricsOf(subset, weight);
  const advance = advances.get(code);
  return advance === undefined ? unknownWidthEm : advance / unitsPerEm;
}

const characterWidths = { 400: new Map<string, number>(), 600: new Map<string, number>() };

/** Width of a line in points at a font size in points, from the font's own advance widths (no kerning). */
export function textWidthPt(text: string, sizePt: number, weight: FontWeight = 400): number {
  const known = characterWidths[weight];
  let em = 0;
  for (const character of text) {
    const width = known.get(character) ?? characterWidthEm(character, weight);
    known.set(character, width);
    em += width;
  }
  return em * sizePt;
}

/** Kerning and the browser's rounding may differ from the sum of advances by a little. */
const safety = 1.02;

/** Breaks a text into lines no wider than `widthPt`, at spaces (not at non-breaking ones); a longer word is broken anywhere. */
export function wrapText(
  text: string,
  widthPt: number,
  sizePt: number,
  weight: FontWeight = 400,
): string[] {
  const widest = widthPt / safety;
  const spacePt = textWidthPt(" ", sizePt, weight);
  const lines: string[] = [];
  let line = "";
  let usedPt = 0;
  const add = (part: string, partPt: number): void => {
    line += part;
    usedPt += partPt;
  };
  const endLine = (): void => {
    if (line !== "") lines.push(line);
    line = "";
    usedPt = 0;
  };
  for (const word of text.split(/[ \t\r\n]+/).filter((part) => part !== "")) {
    const wordPt = textWidthPt(word, sizePt, weight);
    if (line !== "" && usedPt + spacePt + wordPt <= widest) {
      add(` ${word}`, spacePt + wordPt);
      continue;
    }
    endLine();
    if (wordPt <= widest) {
      add(word, wordPt);
      continue;
    }
    for (const character of word) {
      const characterPt = textWidthPt(character, sizePt, weight);
      if (usedPt + characterPt > widest) endLine();
      add(character, characterPt);
    }
  }
  endLine();
  return lines;
}

/** No line of a page holds more characters than this; a longer text is cut before it is measured. */
const charactersInALine = 300;

/** The text cut to a number of lines, with `ending` where something was left out. */
export function shortenText(
  text: string,
  widthPt: number,
  sizePt: number,
  lineCount: number,
  ending = "…",
  weight: FontWeight = 400,
): string {
  const lineCountOf = (candidate: string): number =>
    wrapText(candidate, widthPt, sizePt, weight).length;
  const longest = lineCount * charactersInALine;
  if (text.length <= longest && lineCountOf(text) <= lineCount) return text;
  const characters = Array.from(text.slice(0, longest));
  let kept = 0;
  let tooMany = characters.length + 1;
  while (tooMany - kept > 1) {
    const middle = Math.floor((kept + tooMany) / 2);
    const candidate = characters.slice(0, middle).join("").trimEnd() + ending;
    if (lineCountOf(candidate) <= lineCount) kept = middle;
    else tooMany = middle;
  }
  return characters.slice(0, kept).join("").trimEnd() + ending;
}
