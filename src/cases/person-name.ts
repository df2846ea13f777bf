/** Letters whose stroke Unicode does not take apart as a mark. */
const strokes: Record<string, string> = { Ø: "O", Đ: "D", Ł: "L" };

/** Capital letters; accents on Latin and Greek letters are dropped, marks of other scripts are letters of their own. */
const plain = (text: string): string =>
  text
    .normalize("NFKD")
    .replaceAll(/(?<=[\p{Script=Latin}\p{Script=Greek}]\p{M}*)\p{M}/gu, "")
    .toUpperCase()
    .replaceAll(/[ØĐŁ]/g, (letter) => strokes[letter] ?? letter)
    .normalize("NFC");

/** Words of letters and digits. Apostrophes belong to no word, all other punctuation ends one. */
const wordsOf = (text: string): string[] =>
  text.replaceAll(/['’‘`´]/g, "").match(/[\p{L}\p{M}\p{N}]+/gu) ?? [];

/** A name taken apart. `given` is null where the text does not say which word is the family name. */
interface NameParts {
  family: string[];
  given: string[] | null;
}

/** "Family^Given^Middle" as DICOM writes it, "Family, Given Middle" or words in an unknown order. */
function partsOf(name: string): NameParts {
  const separator = name.includes("^") ? "^" : ",";
  const [family = "", ...rest] = plain(name).split(separator);
  const given = separator === "^" ? rest.slice(0, 2) : rest;
  return { family: wordsOf(family), given: given.length === 0 ? null : wordsOf(given.join(" ")) };
}

/** Whether two given names can be one person's: the first is the same, further ones are the same, initials or left out. */
function givenNamesAgree(one: string[], other: string[]): boolean {
  if (one.length === 0 || other.length === 0) return one.length === other.length;
  if (one.join("") === other.join("")) return true;
  return one.every((word, index) => {
    const counterpart = other[index];
    if (counterpart === undefined || word === counterpart) return true;
    const isInitial = [...word].length === 1 || [...counterpart].length === 1;
    return index > 0 && isInitial && [...word][0] === [...counterpart][0];
  });
}

const sameWords = (one: string[], other: string[]): boolean =>
  one.toSorted().join(" ") === other.toSorted().join(" ");

/** The words without those of `taken`, each once; null where one of `taken` is not among them. */
function without(words: string[], taken: string[]): string[] | null {
  const rest = [...words];
  for (const word of taken) {
    const index = rest.indexOf(word);
    if (index === -1) return null;
    rest.splice(index, 1);
  }
  return rest;
}

function groupsAgree(one: string, other: string): boolean {
  const [a, b] = [partsOf(one), partsOf(other)];
  if (a.given !== null && b.given !== null) {
    return a.family.join("") === b.family.join("") && givenNamesAgree(a.given, b.given);
  }
  if (a.given === null && b.given === null) return sameWords(a.family, b.family);
  const [ordered, loose] = a.given === null ? [b, a.family] : [a, b.family];
  const [first = "", ...further] = ordered.given ?? [];
  const rest = without(loose, [...ordered.family, first]);
  return rest !== null && givenNamesAgree([first, ...further], [first, ...rest]);
}

/** The writings of a name (alphabetic, ideographic, phonetic), which DICOM separates by "=". */
const writingsOf = (name: string): string[] =>
  name.split("=").map((group) => (wordsOf(group).length > 0 ? group : ""));

/** Whether a cell or attribute holds any name at all. */
export const isName = (name: string): boolean => wordsOf(name).length > 0;

/**
 * Whether two texts can be one person's name. Case, accents on Latin and Greek letters, punctuation and the spaces in a
 * name change nothing; middle names may be initials or missing on one side; words without a comma or caret may stand in
 * any order. Everything else differs: another family name, another first name or its initial alone, family and given
 * name exchanged, "ue" for "ü". Where both have the same kind of writing, that one is compared.
 * Source of the groups and parts: DICOM PS3.5, 6.2.1 (Person Name).
 */
export function namesAgree(one: string, other: string): boolean {
  const [a, b] = [writingsOf(one), writingsOf(other)];
  const shared = a.findIndex((group, index) => group !== "" && (b[index] ?? "") !== "");
  if (shared !== -1) return groupsAgree(a[shared] ?? "", b[shared] ?? "");
  return false;
}

/** The letters of a name with their accents, in no order: equal for names that differ in order, case and punctuation only. */
export const spellingOf = (name: string): string =>
  wordsOf(name.normalize("NFC").toUpperCase()).toSorted().join(" ");
