import { readFileSync } from "node:fs";
import { z } from "zod";
import { parseOwnDataFile } from "../data-file.ts";
import {
  edgeIds,
  lumenIds,
  pathIds,
  phaseIds,
  planeIds,
  quantityIds,
  statisticIds,
} from "../quantities/measured-quantity.ts";
import { type AorticPlace, placeById, placeTable } from "./places.ts";
import { plainKey, spellingIndex, spellingsOf, unorderedKey, wordKey } from "./spelling.ts";
import type { Code } from "./term.ts";

export { wordKey } from "./spelling.ts";

/** What one code or word says of a reading; a code may say several things at once. */
export const meaningSchema = z.strictObject({
  place: z.string().optional(),
  quantity: z.enum(quantityIds).optional(),
  statistic: z.enum(statisticIds).optional(),
  lumen: z.enum(lumenIds).optional(),
  edge: z.enum(edgeIds).optional(),
  path: z.enum(pathIds).optional(),
  plane: z.enum(planeIds).optional(),
  phase: z.enum(phaseIds).optional(),
});
type Meaning = z.infer<typeof meaningSchema>;

const wordTable = <T>(means: z.ZodType<T>) =>
  z.array(z.strictObject({ means, words: z.array(z.string()) }));

const codesFile = z.strictObject({
  srt: z.record(z.string(), z.string()),
  quantities: z.record(z.string(), meaningSchema),
  modifiers: z.record(z.string(), meaningSchema),
  positions: z.record(z.string(), z.array(z.string()).min(1)),
  alternatives: z.record(z.string(), z.array(z.string())),
  words: z.strictObject({
    quantities: wordTable(meaningSchema),
    statistics: wordTable(z.enum(statisticIds)),
    lumens: wordTable(z.enum(lumenIds)),
    edges: wordTable(z.enum(edgeIds)),
    planes: wordTable(z.enum(planeIds)),
    phases: wordTable(z.enum(phaseIds)),
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

/** The meanings in force: the program's tables with the site's own codes and words added. */
export interface Dictionary {
  codes: ReadonlyMap<string, Meaning>;
  /** Sites that a modifier or side makes precise, keyed "SITE + MODIFIER". */
  combinedCodes: ReadonlyMap<string, AorticPlace>;
  /** Codes of arteries that exist on both sides: the side must be stated. */
  pairedSites: ReadonlySet<string>;
  /** The program's spellings and the site's own, by `wordKey`. */
  placeWords: ReadonlyMap<string, AorticPlace>;
  /** The program's spellings in any order of words, by `unorderedKey`. */
  unorderedPlaceWords: ReadonlyMap<string, AorticPlace>;
  /** The tables below are by `plainKey`. */
  quantityWords: ReadonlyMap<string, Meaning>;
  statisticWords: ReadonlyMap<string, (typeof statisticIds)[number]>;
  lumenWords: ReadonlyMap<string, (typeof lumenIds)[number]>;
  edgeWords: ReadonlyMap<string, (typeof edgeIds)[number]>;
  planeWords: ReadonlyMap<string, (typeof planeIds)[number]>;
  phaseWords: ReadonlyMap<string, (typeof phaseIds)[number]>;
  /** Words of a position ("prox") to its code. */
  positionWords: ReadonlyMap<string, string>;
}

/** Site additions: `codes` keyed SCHEME:VALUE, `words` from the lab's spelling to a place id. */
export interface DictionaryAdditions {
  codes: Readonly<Record<string, Meaning>>;
  words: Readonly<Record<string, string>>;
}

/** The codes of the two sides, as keys. */
export const sideKeys = { right: "SCT:24028007", left: "SCT:7771000" } as const;
const sides: ReadonlySet<string> = new Set(Object.values(sideKeys));

const placeSpellings = placeTable.flatMap(({ place, words }) =>
  words.map((spelling) => [spelling, place] as const),
);
const placesBySpelling = spellingIndex(placeSpellings, wordKey);
const placesByUnorderedWords = spellingIndex(placeSpellings, unorderedKey);

const indexed = <T>(table: { means: T; words: string[] }[]): Map<string, T> =>
  spellingIndex(
    table.flatMap(({ means, words }) =>
      words
        .flatMap((pattern) => spellingsOf(pattern, file.alternatives))
        .map((spelling) => [spelling, means] as const),
    ),
    plainKey,
  );
const positionWords = spellingIndex(
  Object.entries(file.positions).flatMap(([code, words]) => words.map((word) => [word, code])),
  plainKey,
);
const cellWords = {
  quantityWords: indexed(file.words.quantities),
  statisticWords: indexed(file.words.statistics),
  lumenWords: indexed(file.words.lumens),
  edgeWords: indexed(file.words.edges),
  planeWords: indexed(file.words.planes),
  phaseWords: indexed(file.words.phases),
  positionWords,
};

/** The word of a position code as `places.yaml` writes it ("mid"), or null for another code. */
export const positionWord = (code: string): string | null => file.positions[code]?.[0] ?? null;

/** Builds the dictionary. A site's code or word for a place that does not exist throws; the site file is checked before. */
export function buildDictionary(additions: DictionaryAdditions): Dictionary {
  const codes = new Map<string, Meaning>([
    ...Object.entries(file.quantities),
    ...Object.entries(file.modifiers),
  ]);
  const combinedCodes = new Map<string, AorticPlace>();
  const pairedSites = new Set<string>();
  const placeWords = new Map<string, AorticPlace>(placesBySpelling);
  for (const row of placeTable) {
    for (const code of row.codes) {
      const [site = code, modifier] = code.split(" + ");
      if (modifier === undefined) codes.set(code, { place: row.place.id });
      else combinedCodes.set(code, row.place);
      if (modifier !== undefined && sides.has(modifier)) pairedSites.add(site);
    }
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
    unorderedPlaceWords: placesByUnorderedWords,
    ...cellWords,
  };
}

/** The meaning of a numeric value qualifier (DICOM context group 42), or null for a code outside the group. */
export function qualifierMeaning(code: Code): string | null {
  return file.qualifiers[codeKey(code)] ?? null;
}
