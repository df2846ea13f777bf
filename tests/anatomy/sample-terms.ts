import type { Code, ReadingTerms, Term } from "../../src/anatomy/term.ts";

/** "SCT:54247002" as a coded term with invented words; bare words without a colon as a term without code. */
export function term(codeOrWords: string): Term {
  const code = codeOf(codeOrWords);
  return code ? { words: "words of the source", code } : { words: codeOrWords, code: null };
}

/** "SCT:54247002" as a code, or null for text without a colon. */
export function codeOf(key: string): Code | null {
  const [scheme = "", value] = key.split(":");
  return value === undefined ? null : { scheme, value };
}

/** Terms of a diameter in a structured report with this finding site. */
export function reportTerms(site: string, rest: Partial<ReadingTerms> = {}): ReadingTerms {
  return {
    places: [{ origin: "finding site", terms: [term(site)] }],
    laterality: null,
    modifiers: [],
    quantity: term("SCT:81827009"),
    statistic: null,
    lumen: null,
    edge: null,
    ...rest,
  };
}

/** Terms of a diameter in a measurement sheet with this place. */
export function sheetTerms(place: string, rest: Partial<ReadingTerms> = {}): ReadingTerms {
  return {
    places: [{ origin: "sheet column", terms: [term(place)] }],
    laterality: null,
    modifiers: [],
    quantity: term("diameter"),
    statistic: null,
    lumen: null,
    edge: null,
    ...rest,
  };
}
