import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { isName, namesAgree, spellingOf } from "../../src/cases/person-name.ts";

describe("namesAgree", () => {
  test.each([
    ["the same text", "Invented, Ada", "Invented, Ada"],
    ["case", "Invented^Ada", "INVENTED^ADA"],
    ["sharp s in capitals", "Straße, Ada", "STRASSE, ADA"],
    ["Greek accents, which capitals do not have", "Επινοημένη, Άντα", "ΕΠΙΝΟΗΜΕΝΗ, ΑΝΤΑ"],
    ["a precomposed and a combining accent", "Müller, Zoë", "Mu\u0308ller, Zoe\u0308"],
    ["accents left out", "Müller, Zoë", "Muller, Zoe"],
    ["a stroke left out", "Sørensen, Łucja", "Sorensen, Lucja"],
    ["full-width letters", "Ｉｎｖｅｎｔｅｄ, Ａｄａ", "Invented, Ada"],
    ["an apostrophe", "O'Fiction, Ada", "OFiction, Ada"],
    ["a hyphen", "Made-Up, Ada", "Made Up, Ada"],
    ["spaces in a family name", "Van Der Fiction, Ada", "VANDERFICTION, ADA"],
    ["caret and comma", "Invented^Ada^Maria", "Invented, Ada Maria"],
    ["prefix and suffix", "Invented^Ada^^Dr^MD", "Invented, Ada"],
    ["words in any order beside an ordered name", "Ada Invented", "Invented, Ada"],
    ["words in any order, twice", "Ada Invented", "invented ada"],
    ["a middle name on one side", "Invented, Ada Maria", "Invented, Ada"],
    ["a middle initial on one side", "Invented, Ada M", "Invented, Ada"],
    ["a middle initial beside the name", "Invented, Ada M.", "Invented, Ada Maria"],
    ["a middle initial among loose words", "Ada M Invented", "Invented^Ada^Maria"],
    ["one of several middle names", "Invented, Ada Maria", "Invented, Ada Maria Luise"],
    ["the alphabetic group beside other groups", "Yamada^Tarou=山田^太郎", "Yamada, Tarou"],
    ["ideographic groups alone", "=山田^太郎", "=山田^太郎=やまだ^たろう"],
    ["Hebrew letters", "בדוי^עדה", "בדוי, עדה"],
  ])("%s", (_, one, other) => {
    expect(namesAgree(one, other)).toBe(true);
    expect(namesAgree(other, one)).toBe(true);
  });

  test.each([
    ["another first name", "Invented, Ada", "Invented, Eva"],
    ["another family name, as after a marriage", "Invented, Ada", "Fictive, Ada"],
    ["one family name of two", "Invented-Fictive, Ada", "Invented, Ada"],
    ["the first name as an initial alone", "Invented, A", "Invented, Ada"],
    ["another middle initial", "Invented, Ada M", "Invented, Ada Karin"],
    ["a middle name in place of the first", "Invented, Ada Maria", "Invented, Maria"],
    ["family and given name exchanged", "Thomas^Peter", "Peter^Thomas"],
    ["an umlaut written with e", "Müller, Ada", "Mueller, Ada"],
    ["no first name on one side", "Invented", "Invented, Ada"],
    ["an empty first name", "Invented^", "Invented^Ada"],
    ["loose words without the first name", "Invented M", "Invented, Ada M"],
    ["loose words, one more", "Ada Invented", "Ada Maria Invented"],
    ["a letter more", "Invented, Ada", "Invented, Adah"],
    ["Cyrillic letters that differ in a mark", "Бойко, Ада", "Боико, Ада"],
    ["kana that differ in a mark", "かた, さき", "がた, さき"],
    [
      "another alphabetic group, the same ideographic one",
      "Yamada^Tarou=山田^太郎",
      "Yamada^Jirou=山田^太郎",
    ],
    ["writings of which none is shared", "Yamada^Tarou", "=山田^太郎"],
  ])("%s is a clash", (_, one, other) => {
    expect(namesAgree(one, other)).toBe(false);
    expect(namesAgree(other, one)).toBe(false);
  });

  test("never depends on which name comes first, and never makes two names of one", () => {
    const word = fc.constantFrom(
      "Ada",
      "ADA",
      "A",
      "Eva",
      "Maria",
      "M.",
      "Zoë",
      "Zoe",
      "O'Neu",
      "",
    );
    const name = fc
      .tuple(word, word, word, fc.constantFrom("^", ", ", " "))
      .map(
        ([family, given, middle, mark]) =>
          `${family}${mark}${given}${mark === "^" ? mark : " "}${middle}`,
      );
    fc.assert(
      fc.property(name, name, (one, other) => {
        expect(namesAgree(one, other)).toBe(namesAgree(other, one));
        if (isName(one)) expect(namesAgree(one, one)).toBe(true);
      }),
      { seed: 20_260_115, numRuns: 2000 },
    );
  });
});

test.each([
  ["Invented, Ada", true],
  ["山田^太郎", true],
  ["^^^^", false],
  [" - ", false],
  ["", false],
])("%j holds a name: %s", (text, expected) => {
  expect(isName(text)).toBe(expected);
});

test("a spelling knows accents and middle names, not order, case and punctuation", () => {
  expect(spellingOf("Zoë Müller")).toBe(spellingOf("MÜLLER^ZOË"));
  expect(spellingOf("Müller, Zoë")).not.toBe(spellingOf("Muller, Zoe"));
  expect(spellingOf("Müller, Zoë")).not.toBe(spellingOf("Müller, Zoë M"));
});
