import type {
  EdgeId,
  LumenId,
  PathId,
  PhaseId,
  PlaneId,
  QuantityId,
  StatisticId,
} from "../quantities/measured-quantity.ts";
import { codeKey, type Dictionary } from "./dictionary.ts";
import type { AnatomyMessageCode } from "./messages.ts";
import { placeOfTerm } from "./place-of-term.ts";
import { type AorticPlace, placeById } from "./places.ts";
import { type InterpretationProblem, isProblem, problem } from "./problem.ts";
import { canBeSamePlace } from "./same-place.ts";
import { plainKey } from "./spelling.ts";
import {
  formatTerm,
  type PlaceOrigin,
  placeOrigins,
  type ReadingTerms,
  type Term,
} from "./term.ts";

/** What a number is and where, once its terms are understood. */
export interface Interpretation {
  place: AorticPlace;
  placeOrigin: PlaceOrigin;
  quantity: QuantityId;
  statistic: StatisticId;
  lumen: LumenId;
  edge: EdgeId;
  path: PathId;
  plane: PlaneId;
  phase: PhaseId;
}

/**
 * Understands what a source says of one number. Nothing is guessed: a word or code that is not in the
 * dictionary, a missing side or two different statements leave the number out, with the reason.
 */
export function interpret(
  terms: ReadingTerms,
  dictionary: Dictionary,
): Interpretation | InterpretationProblem {
  const quantity = quantityOf(terms.quantity, dictionary);
  if (isProblem(quantity)) return quantity;
  const methods = (terms.methods ?? []).filter((term) => hasAspect(term, dictionary));
  const modified = modifiersOf([...terms.modifiers, ...methods], dictionary);
  if (isProblem(modified)) return modified;
  const placed = placeOf(terms, quantity.place ?? null, modified.position, dictionary);
  if (isProblem(placed)) return placed;
  const statistic = agreed(
    [quantity.statistic, modified.statistic, wordOf(terms.statistic, dictionary.statisticWords)],
    terms.statistic,
    "statistic-not-understood",
  );
  if (typeof statistic === "object") return statistic;
  const lumen = agreed(
    [quantity.lumen, modified.lumen, wordOf(terms.lumen, dictionary.lumenWords)],
    terms.lumen,
    "lumen-not-understood",
  );
  if (typeof lumen === "object") return lumen;
  const edge = agreed(
    [modified.edge, wordOf(terms.edge, dictionary.edgeWords), quantity.edge],
    terms.edge,
    "edge-not-understood",
  );
  if (typeof edge === "object") return edge;
  const path = agreed([quantity.path, modified.path], null, "terms-conflict");
  if (typeof path === "object") return path;
  const plane = agreed(
    [quantity.plane, modified.plane, wordOf(terms.plane, dictionary.planeWords)],
    terms.plane,
    "plane-not-understood",
  );
  if (typeof plane === "object") return plane;
  const phase = agreed(
    [quantity.phase, modified.phase, wordOf(terms.phase, dictionary.phaseWords)],
    terms.phase,
    "phase-not-understood",
  );
  if (typeof phase === "object") return phase;
  return {
    ...placed,
    quantity: quantity.quantity,
    statistic: statistic ?? "unstated",
    lumen: lumen ?? "unstated",
    edge: edge ?? "unstated",
    path: path ?? "unstated",
    plane: plane ?? "unstated",
    phase: phase ?? "unstated",
  };
}

/** A sheet cell through a word table: undefined for an empty or absent cell, null for a word not in it. */
function wordOf<T>(
  cell: string | null | undefined,
  words: ReadonlyMap<string, T>,
): T | null | undefined {
  if (cell === undefined || cell === null || cell.trim() === "") return undefined;
  return words.get(plainKey(cell)) ?? null;
}

/** The one value that all statements agree on; undefined where nothing is stated. */
function agreed<T extends string>(
  statements: (T | null | undefined)[],
  cell: string | null | undefined,
  code: AnatomyMessageCode,
): T | undefined | InterpretationProblem {
  if (statements.includes(null)) return problem(code, { met: `"${cell ?? ""}"` });
  const stated = [...new Set(statements.filter((value) => value !== undefined))];
  if (stated.length > 1) {
    return problem("terms-conflict", { met: String(stated[0]), other: String(stated[1]) });
  }
  return stated[0] ?? undefined;
}

function quantityOf(term: Term, dictionary: Dictionary) {
  const meaning =
    term.code === null
      ? dictionary.quantityWords.get(plainKey(term.words))
      : dictionary.codes.get(codeKey(term.code));
  const quantity = meaning?.quantity;
  if (quantity === undefined) return problem("quantity-not-understood", { met: formatTerm(term) });
  return { ...meaning, quantity };
}

const aspects = ["statistic", "lumen", "edge", "path", "plane", "phase"] as const;

const meaningOf = (term: Term, dictionary: Dictionary) =>
  term.code === null ? undefined : dictionary.codes.get(codeKey(term.code));

/** Whether the dictionary gives the code a statistic, lumen, edge, path, plane or phase. */
function hasAspect(term: Term, dictionary: Dictionary): boolean {
  const meaning = meaningOf(term, dictionary);
  return meaning !== undefined && aspects.some((aspect) => meaning[aspect] !== undefined);
}

/** Splits the modifiers into those with a meaning of their own and those that make the place precise. */
function modifiersOf(modifiers: Term[], dictionary: Dictionary) {
  const found: Partial<Pick<Interpretation, (typeof aspects)[number]>> = {};
  const position: Term[] = [];
  for (const term of modifiers) {
    const meaning = meaningOf(term, dictionary);
    if (!meaning || !hasAspect(term, dictionary)) {
      position.push(term);
      continue;
    }
    for (const aspect of aspects) {
      const value = meaning[aspect];
      const earlier = found[aspect];
      if (value === undefined) continue;
      if (earlier !== undefined && earlier !== value) {
        return problem("terms-conflict", { met: earlier, other: value });
      }
      Object.assign(found, { [aspect]: value });
    }
  }
  return { ...found, position };
}

function placeOf(
  terms: ReadingTerms,
  conceptPlace: string | null,
  position: Term[],
  dictionary: Dictionary,
): Pick<Interpretation, "place" | "placeOrigin"> | InterpretationProblem {
  const named = conceptPlace === null ? null : placeById(conceptPlace);
  const nameTerm: Term = { words: named?.label ?? "", code: null };
  const origins = named
    ? [...terms.places, { origin: "concept name" as const, terms: [nameTerm] }]
    : terms.places;
  const stated = placeOrigins
    .flatMap((origin) => origins.filter((candidate) => candidate.origin === origin))
    .find((candidate) => isDecisive(candidate, dictionary));
  if (!stated) return problem("place-not-stated");
  const { origin } = stated;
  const results = stated.terms.map((term) =>
    term === nameTerm && named && position.length === 0
      ? named
      : placeOfTerm(term, origin, terms.laterality, position, dictionary),
  );
  const failed = results.find((result) => isProblem(result));
  if (failed) return failed;
  const [first, ...others] = results as AorticPlace[];
  if (!first) return problem("place-not-stated");
  const other = others.find(({ id }) => id !== first.id);
  if (other) return problem("place-conflict", { origin, met: first.label, other: other.label });
  if (named && !canBeSamePlace(first, named)) {
    return problem("terms-conflict", { met: first.label, other: named.label });
  }
  return { place: first, placeOrigin: origin };
}

/** A container is mostly a chapter of the report: it names a place only where the dictionary knows one. */
function isDecisive(
  { origin, terms }: ReadingTerms["places"][number],
  dictionary: Dictionary,
): boolean {
  if (origin !== "enclosing container") return terms.length > 0;
  return terms.some((term) => {
    const isPaired = term.code !== null && dictionary.pairedSites.has(codeKey(term.code));
    return isPaired || meaningOf(term, dictionary)?.place !== undefined;
  });
}
