/** A coded concept: coding scheme designator and code value. The meaning text is display only. */
export interface Code {
  scheme: string;
  value: string;
}

/** What a source says of one aspect of a reading: its words, and its code where it has one. */
export interface Term {
  words: string;
  code: Code | null;
}

/** Which part of the source named the place; the earlier in the list, the more trusted. */
export const placeOrigins = [
  "finding site",
  "finding",
  "enclosing container",
  "concept name",
  "tracking identifier",
  "sheet column",
] as const;
export type PlaceOrigin = (typeof placeOrigins)[number];

/** Everything a source says about where and what a number is, before it is understood. */
export interface ReadingTerms {
  /** Candidate places by origin; the most trusted non-empty origin decides. */
  places: { origin: PlaceOrigin; terms: Term[] }[];
  laterality: Term | null;
  /** Position, lumen, derivation and any other modifiers, in the order met. */
  modifiers: Term[];
  /** Measurement methods: used where the dictionary knows them, passed over where not. */
  methods?: Term[];
  quantity: Term;
  /** Sheet cells, or the statistic that the words of a report name; null where the source says nothing of it. */
  statistic: string | null;
  lumen: string | null;
  edge: string | null;
  /** Sheet cells for the plane and the cardiac phase; absent where the source has no such column. */
  plane?: string | null;
  phase?: string | null;
}

/** "Ascending aorta (54247002, SCT)" or the bare words. */
export function formatTerm(term: Term): string {
  return term.code === null
    ? `"${term.words}"`
    : `"${term.words}" (${term.code.value}, ${term.code.scheme})`;
}
