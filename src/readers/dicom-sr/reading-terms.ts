import type { PlaceOrigin, ReadingTerms, Term } from "../../anatomy/term.ts";
import { vascularMorphology } from "./concepts.ts";
import { maxWordsLength } from "./element-values.ts";
import { keyOf, type Level, maxStatements, type Site } from "./levels.ts";
import { statedStatistic } from "./stated-statistic.ts";

/** Schemes whose container names are the chapters of a report and never places. */
const chapterSchemes = new Set(["DCM", "UMLS", "LN"]);

/** A number's own level and those around it, nearest first. */
function* levelsFrom(level: Level): Generator<Level> {
  for (let next: Level | null = level; next; next = next.outer) yield next;
}

/** The nearest statement of one aspect; null where no level makes one. */
export function nearest<T>(level: Level, aspect: (level: Level) => T | null): T | null {
  for (const next of levelsFrom(level)) {
    const stated = aspect(next);
    if (stated !== null) return stated;
  }
  return null;
}

/** The nearest level with a finding site; null where none has one. */
export const siteLevelOf = (level: Level): Level | null =>
  nearest(level, (next) => (next.sites.length > 0 ? next : null));

/**
 * Collects what a report says of one number, from the number itself outward to the root. For each aspect the
 * nearest statement counts; statements that stand at the same level are all kept, so that a contradiction shows.
 */
export function readingTermsOf(level: Level, quantity: Term): ReadingTerms {
  const siteLevel = siteLevelOf(level);
  const modifiers: Term[] = positionsOf(level, siteLevel);
  const filled = new Set<string>();
  const methods: Term[] = [];
  for (const next of levelsFrom(level)) {
    if (next.outer === null) break;
    const here = next.modifiers.filter(({ slot }) => !filled.has(slot));
    for (const { slot, term } of here) {
      filled.add(slot);
      modifiers.push(term);
    }
    methods.push(...next.methods);
  }
  return {
    places: siteLevel
      ? [{ origin: "finding site", terms: siteLevel.sites.map(({ term }) => term) }]
      : placesWithoutSite(level),
    laterality: lateralityOf(level, siteLevel),
    modifiers,
    methods,
    quantity,
    statistic: statedStatistic(level),
    lumen: null,
    edge: null,
  };
}

/**
 * The places that stand in for a missing finding site. A finding that is a vessel disease is no place. The tracking
 * identifier is free text, and a word such as "isthmus" names more than one organ: it is offered only where no
 * code of a public terminology says what the group is about.
 */
function placesWithoutSite(level: Level): ReadingTerms["places"] {
  const places: ReadingTerms["places"] = [];
  const add = (origin: PlaceOrigin, terms: Term[]) => places.push({ origin, terms });
  const isPlace = (term: Term) => !vascularMorphology.has(keyOf(term));
  const findingLevel = nearest(level, (next) => (next.findings.some(isPlace) ? next : null));
  if (findingLevel) add("finding", findingLevel.findings.filter(isPlace));
  let isNamedByCode = findingLevel !== null;
  for (const { item, outer } of levelsFrom(level)) {
    const { concept } = item;
    if (places.length >= maxStatements) break;
    if (item.valueType !== "CONTAINER" || outer === null || !concept?.code) continue;
    const { scheme } = concept.code;
    if (chapterSchemes.has(scheme)) continue;
    add("enclosing container", [concept]);
    if (!/^99(?!SDM)/.test(scheme)) isNamedByCode = true;
  }
  const words = nearest(level, ({ trackingIdentifier }) => trackingIdentifier);
  if (words !== null && !isNamedByCode) {
    add("tracking identifier", [{ words: words.slice(0, maxWordsLength), code: null }]);
  }
  return places;
}

/** Topographical modifiers of the sites, and those that stand between the number and the sites. */
function positionsOf(level: Level, siteLevel: Level | null): Term[] {
  if (!siteLevel) return [];
  const positions = siteLevel.sites.flatMap((site) => site.positions);
  for (const next of levelsFrom(level)) {
    positions.push(...next.positions);
    if (next === siteLevel) break;
  }
  return positions;
}

/**
 * The side: stated by the site's own child, else by the nearest level that states one. Above the site a level with
 * a site of its own speaks of that one. Two different sides count as none.
 */
function lateralityOf(level: Level, siteLevel: Level | null): Term | null {
  const own = siteLevel?.sites.flatMap((site: Site) => site.lateralities) ?? [];
  if (own.length > 0) return onlyOne(own);
  let isAbove = false;
  for (const next of levelsFrom(level)) {
    if (isAbove && next.sites.length > 0) return null;
    if (next.lateralities.length > 0) return onlyOne(next.lateralities);
    if (next === siteLevel) isAbove = true;
  }
  return null;
}

const onlyOne = (terms: Term[]): Term | null =>
  new Set(terms.map(keyOf)).size === 1 ? (terms[0] ?? null) : null;
