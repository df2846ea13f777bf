import { codeKey, type Dictionary, positionWord, sideKeys } from "./dictionary.ts";
import { type AorticPlace, placeById, placeDistalToLeftSubclavian } from "./places.ts";
import { type InterpretationProblem, problem } from "./problem.ts";
import { plainKey, unorderedKey, wordKey } from "./spelling.ts";
import { formatTerm, type PlaceOrigin, type Term } from "./term.ts";

const distancePattern =
  /^(\d+(?:\.\d+)?) ?mm distal to (?:the )?(?:left subclavian(?: artery)?|lsa)$/;

/**
 * The place that a code or words name, with the side and the positions stated beside it. A position that leads to no
 * place of the table is never passed over: with it the number stands for another place.
 */
export function placeOfTerm(
  term: Term,
  origin: PlaceOrigin,
  laterality: Term | null,
  position: Term[],
  dictionary: Dictionary,
): AorticPlace | InterpretationProblem {
  const met = formatTerm(term);
  const side = laterality?.code ? codeKey(laterality.code) : null;
  const { site, isPaired, withPosition } =
    term.code === null
      ? namesByWords(term.words, side, dictionary)
      : namesByCode(codeKey(term.code), side, dictionary);
  if (isPaired && !site) return problem("place-side-not-stated", { met });
  const [modifier, ...rest] = position;
  const positionKey = modifier ? positionKeyOf(modifier, dictionary) : null;
  const precise = rest.length === 0 && positionKey !== null ? withPosition(positionKey) : undefined;
  const place = modifier ? precise : site;
  if (!place) {
    return site && modifier
      ? problem("place-modifier-not-understood", { met, modifier: formatTerm(rest[0] ?? modifier) })
      : problem("place-not-understood", { met, origin });
  }
  if (laterality && side !== null && side === otherSideOf(place.id)) {
    return problem("terms-conflict", { met: place.label, other: formatTerm(laterality) });
  }
  return place;
}

/** What a name of a place, by code or by words, stands for. */
interface PlaceNames {
  /** The place that it names, with the side where one is stated. */
  site: AorticPlace | undefined;
  /** A name that both sides have. */
  isPaired: boolean;
  withPosition: (positionKey: string) => AorticPlace | undefined;
}

function namesByCode(key: string, side: string | null, dictionary: Dictionary): PlaceNames {
  const isPaired = dictionary.pairedSites.has(key);
  const id = dictionary.codes.get(key)?.place;
  const midline = id === undefined ? undefined : placeById(id);
  return {
    site: isPaired ? dictionary.combinedCodes.get(`${key} + ${side ?? ""}`) : midline,
    isPaired,
    withPosition: (positionKey) => dictionary.combinedCodes.get(`${key} + ${positionKey}`),
  };
}

function namesByWords(words: string, side: string | null, dictionary: Dictionary): PlaceNames {
  const find = (spelling: string) => placeOfWords(spelling, dictionary);
  const [left, right] = [find(`left ${words}`), find(`right ${words}`)];
  const site = find(words);
  const isPaired = !site && left !== undefined && right !== undefined;
  const sided = { [sideKeys.left]: left, [sideKeys.right]: right }[side ?? ""];
  return {
    site: isPaired ? sided : site,
    isPaired,
    withPosition: (positionKey) => {
      const position = positionWord(positionKey);
      return position === null ? undefined : find(`${position} ${words}`);
    },
  };
}

/** The place that the words name: as spelt, else the same words in another order or with other accents. */
function placeOfWords(words: string, dictionary: Dictionary): AorticPlace | undefined {
  const key = wordKey(words);
  const distance = distancePattern.exec(key);
  if (distance) return placeDistalToLeftSubclavian(Number(distance[1]));
  return dictionary.placeWords.get(key) ?? dictionary.unorderedPlaceWords.get(unorderedKey(words));
}

const positionKeyOf = (modifier: Term, dictionary: Dictionary): string | null =>
  modifier.code === null
    ? (dictionary.positionWords.get(plainKey(modifier.words)) ?? null)
    : codeKey(modifier.code);

/** The side code that contradicts a place on one side, or null for a place in the midline. */
function otherSideOf(placeId: string): string | null {
  const words = placeId.split("-");
  if (words.includes("left")) return sideKeys.right;
  return words.includes("right") ? sideKeys.left : null;
}
