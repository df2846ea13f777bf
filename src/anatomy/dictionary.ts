import { readFileSync } from "node:fs";
import { z } from "zod";
import { parseOwnDataFile } from "../data-file.ts";
import {
  edgeIds,
  lumenIds,
  pathIds,
  quantityIds,
  statisticIds,
} from "../quantities/measured-quantity.ts";
import { type AorticPlace, placeById, placeTable } from "./places.ts";
import type { Code } from "./term.ts";

/** What one code or word says of a reading; a code may say several things at once. */
export const meaningSchema = z.strictObject({
  place: z.string().optional(),
  quantity: z.enum(quantityIds).optional(),
  statistic: z.enum(statisticIds).optional(),
  lumen: z.enum(lumenIds).optional(),
  edge: z.enum(edgeIds).optional(),
  path: z.enum(pathIds).optional(),
});
type Meaning = z.infer<typeof meaningSchema>;

const codesFile = z.strictObject({
  srt: z.record(z.string(), z.string()),
  quantities: z.record(z.string(), meaningSchema),
  modifiers: z.record(z.string(), meaningSchema),
  words: z.strictObject({
    quantities: z.record(z.string(), meaningSchema),
    statistics: z.record(z.string(), z.enum(statisticIds)),
    lumens: z.record(z.string(), z.enum(lumenIds)),
    edges: z.record(z.string(), z.enum(edgeIds)),
  }),
  qualifiers: z.record(z.string(), z.string()),
});
const url = new URL("codes.yaml", import.meta.url);
const file = parseOwnDataFile(readFileSync(url, "utf8"), codesFile, "src/anatomy/codes.yaml");

/** The key under which a code is looked up; retired SRT spellings become SCT. */
export function codeKey(code: Code): string {
  const retired = code.scheme === "SRT" || code.scheme === "SNM3" || code.scheme === "99SDM";
  const value = retired ? (file.srt[code.value] ?? null) : null;
  return value === null ? `${code.scheme}:${code.value}` : `SCT:${value}`;
}

/** Spellings are compared in lower case, composed form, with hyphens, underscores and runs of space as one space. A leading hyphen stays: before a number it is a minus. */
export function wordKey(words: string): string {
  return words
    .normalize("NFC")
    .toLowerCase()
    .trim()
    .replaceAll(/(?<=.)[\s\-_\u2010-\u2014]+/gu, " ")
    .trim();
}

/** The meanings in force: the program's tables with the site's own codes and words added. */
export interface Dictionary {
  codes: ReadonlyMap<string, Meaning>;
  /** Sites that a modifier or side makes precise, keyed "SITE + MODIFIER". */
  combinedCodes: ReadonlyMap<string, AorticPlace>;
  /** Codes of arteries that exist on both sides: the side must be stated. */
  pairedSites: ReadonlySet<string>;
  placeWords: ReadonlyMap<string, AorticPlace>;
  quantityWords: ReadonlyMap<string, Meaning>;
  statisticWords: ReadonlyMap<string, (typeof statisticIds)[number]>;
  lumenWords: ReadonlyMap<string, (typeof lumenIds)[number]>;
  edgeWords: ReadonlyMap<string, (typeof edgeIds)[number]>;
}

/** Site additions: `codes` keyed SCHEME:VALUE, `words` from the lab's spelling to a place id. */
export interface DictionaryAdditions {
  codes: Readonly<Record<string, Meaning>>;
  words: Readonly<Record<string, string>>;
}

/** The codes of the two sides, as keys. */
export const sideKeys = { right: "SCT:24028007", left: "SCT:7771000" } as const;
const sides: ReadonlySet<string> = new Set(Object.values(sideKeys));

const keyedByWord = <T>(table: Record<string, T>): Map<string, T> =>
  new Map(Object.entries(table).map(([words, value]) => [wordKey(words), value]));

/** Builds the dictionary. A site's code or word for a place that does not exist throws; the site file is checked before. */
export function buildDictionary(additions: DictionaryAdditions): Dictionary {
  const codes = new Map<string, Meaning>([
    ...Object.entries(file.quantities),
    ...Object.entries(file.modifiers),
  ]);
  const combinedCodes = new Map<string, AorticPlace>();
  const pairedSites = new Set<string>();
  const placeWords = new Map<string, AorticPlace>();
  for (const row of placeTable) {
    for (const code of row.codes) {
      const [site = code, modifier] = code.split(" + ");
      if (modifier === undefined) codes.set(code, { place: row.place.id });
      else combinedCodes.set(code, row.place);
      if (modifier !== undefined && sides.has(modifier)) pairedSites.add(site);
    }
    for (const words of row.words) placeWords.set(wordKey(words), row.place);
  }
  for (const [code, meaning] of Object.entries(additions.codes)) codes.set(code, meaning);
  for (const [words, id] of Object.entries(additions.words)) {
    placeWords.set(wordKey(words), placeById(id));
  }
  return {
    codes,
    combinedCodes,
    pairedSites,
    placeWords,
    quantityWords: keyedByWord(file.words.quantities),
    statisticWords: keyedByWord(file.words.statistics),
    lumenWords: keyedByWord(file.words.lumens),
    edgeWords: keyedByWord(file.words.edges),
  };
}

/** The meaning of a numeric value qualifier (DICOM context group 42), or null for a code outside the group. */
export function qualifierMeaning(code: Code): string | null {
  return file.qualifiers[codeKey(code)] ?? null;
}
