/** Spellings are compared in lower case, composed form, with hyphens, underscores and runs of space as one space. A leading hyphen stays: before a number it is a minus. */
export function wordKey(words: string): string {
  return words
    .normalize("NFC")
    .toLowerCase()
    .trim()
    .replaceAll(/(?<=.)[\s\-_\u2010-\u2014]+/gu, " ")
    .trim();
}

const ligatures: Readonly<Record<string, string>> = { œ: "oe", æ: "ae", ß: "ss" };

/** A `wordKey` without accents, brackets, apostrophes and punctuation; a mark between two digits stays. */
export function plainKey(words: string): string {
  return wordKey(words)
    .normalize("NFD")
    .replaceAll(/\p{M}/gu, "")
    .replaceAll(/[œæß]/gu, (letter) => ligatures[letter] ?? letter)
    .replaceAll(/(?<!\d)[.,]|[.,](?!\d)|[()[\]:'\u2018\u2019]/gu, " ")
    .replaceAll(/\s+/gu, " ")
    .trim();
}

/** The words of a `plainKey` in alphabetical order: "aorta, ascending" and "Ascending aorta" have the same. */
export const unorderedKey = (words: string): string =>
  plainKey(words).split(" ").toSorted().join(" ");

/** Words that stand for each other in the spellings of one table; an empty one may be left out. */
export type Alternatives = Readonly<Record<string, readonly string[]>>;

/** All spellings of a pattern such as `<left> renal <artery>`. A name without alternatives throws. */
export function spellingsOf(pattern: string, alternatives: Alternatives): string[] {
  const [mark, name] = /<(\w+)>/u.exec(pattern) ?? [];
  if (mark === undefined || name === undefined) return [pattern];
  const words = alternatives[name];
  if (!words) throw new Error(`no alternatives for <${name}> in "${pattern}"`);
  return words.flatMap((word) => spellingsOf(pattern.replace(mark, word), alternatives));
}

/** Values by the key of their spellings. A spelling of two different values throws: it would be placed by chance. */
export function spellingIndex<T>(
  rows: Iterable<readonly [spelling: string, value: T]>,
  keyOf: (words: string) => string,
): Map<string, T> {
  const index = new Map<string, T>();
  for (const [spelling, value] of rows) {
    const key = keyOf(spelling);
    const earlier = index.get(key);
    if (earlier !== undefined && earlier !== value) {
      throw new Error(`the spelling "${spelling}" has two meanings`);
    }
    index.set(key, value);
  }
  return index;
}
