import { describe, expect, test } from "vitest";
import { openCharacterSets } from "../../../src/readers/dicom-sr/character-sets.ts";

const bytesOf = (hex: string): Buffer => Buffer.from(hex.replaceAll(" ", ""), "hex");

// The bytes were made with the codecs of Python 3.11 (iso2022_jp, euc_kr, gb18030, iso8859_2 …); the escape
// sequences are those of DICOM PS3.3, tables C.12-3 and C.12-4.
const samples: [set: string, text: string, hex: string][] = [
  ["ISO_IR 192", "Größe", "4772c3b6c39f65"],
  ["ISO_IR 100", "Größe", "4772f6df65"],
  ["ISO_IR 101", "Wałęsa", "5761b3ea7361"],
  ["ISO_IR 144", "Люкceмбypг", "bbeeda6365dcd17970d3"],
  ["ISO_IR 126", "Διονυσιος", "c4e9efedf5f3e9eff2"],
  ["ISO_IR 127", "قباني", "e2c8c7e6ea"],
  ["ISO_IR 138", "שרון", "f9f8e5ef"],
  ["ISO_IR 166", "นามสกุล", "b9d2c1caa1d8c5"],
  ["ISO_IR 13", "ﾔﾏﾀﾞ", "d4cfc0de"],
  ["GB18030", "小东", "d0a1b6ab"],
  ["GBK", "小东", "d0a1b6ab"],
  ["\\ISO 2022 IR 87", "山田^太郎", "1b24423b3345441b28425e1b244242404f3a1b2842"],
  ["\\ISO 2022 IR 159", "丂", "1b242844 3021 1b2842"],
  ["ISO 2022 IR 13\\ISO 2022 IR 87", "ﾔﾏﾀﾞ=山", "d4cfc0de3d 1b2442 3b33 1b284a"],
  ["\\ISO 2022 IR 149", "Hong=홍^길동", "486f6e673d 1b242943 c8ab5e 1b242943 b1e6b5bf"],
  ["\\ISO 2022 IR 58", "王^小东", "1b242941 cdf5 5e 1b242941 d0a1b6ab"],
  ["ISO 2022 IR 100\\ISO 2022 IR 144", "Größe Люк", "4772f6df6520 1b2d4c bbeeda"],
];

describe("text is decoded by the declared character set", () => {
  test.each(samples)("%s: %s", (set, text, hex) => {
    const characterSets = openCharacterSets();
    expect(characterSets.decode(bytesOf(hex), set)).toBe(text);
    expect([...characterSets.doubts]).toEqual([]);
  });

  test("a set with several values and text without escape sequences uses the first", () => {
    const characterSets = openCharacterSets();
    expect(characterSets.decode(bytesOf("4772f6df65"), "ISO 2022 IR 100\\ISO 2022 IR 87")).toBe(
      "Größe",
    );
  });

  test("an escape sequence reaches as far as a line end, and in a name as far as its delimiters", () => {
    const set = "ISO 2022 IR 100\\ISO 2022 IR 144";
    const decoded = (hex: string, isName = false) =>
      openCharacterSets().decode(bytesOf(hex), set, isName);
    expect(decoded("1b2d4c bbeeda 0d0a f6")).toBe("Люк\r\nö");
    expect(decoded("1b2d4c bbeeda 5e f6", true)).toBe("Люк^ö");
    expect(decoded("1b2d4c bbeeda 3d f6", true)).toBe("Люк=ö");
    expect(decoded("1b2d4c bb 5e ee")).toBe("Л^ю");
  });

  test("a set that was not selected again after a line end goes on where the first set has no such letters", () => {
    const decoded = (set: string) =>
      openCharacterSets().decode(bytesOf("1b242943 c8ab 0d0a c8ab"), set);
    expect(decoded("\\ISO 2022 IR 149")).toBe("홍\r\n홍");
    expect(decoded("ISO 2022 IR 6\\ISO 2022 IR 149")).toBe("홍\r\n홍");
    expect(decoded("ISO 2022 IR 100\\ISO 2022 IR 149")).toBe("홍\r\nÈ«");
  });

  test("two-byte characters whose bytes look like delimiters are one run", () => {
    // 5E 3D in JIS X 0208 is one character (Python codec iso2022_jp).
    const set = "\\ISO 2022 IR 87";
    expect(openCharacterSets().decode(bytesOf("1b2442 5e3d 3d5e 1b2842"), set, true)).toBe("渊殉");
  });

  test("a term with other separators is the same term; words of the language are no terms", () => {
    expect(openCharacterSets().decode(bytesOf("bbeeda"), "ISO-IR 144")).toBe("Люк");
    expect(openCharacterSets().decode(bytesOf("bbeeda"), "ISO_IR_144")).toBe("Люк");
    expect(openCharacterSets().decode(bytesOf("f6"), "constructor")).toBe("ö");
  });

  test("a trail byte 5C of a two-byte character is no separator", () => {
    // U+4E57 in GB18030 is 81 5C (Python codec gb18030).
    expect(openCharacterSets().decode(bytesOf("815c"), "GB18030")).toBe("乗");
  });
});

describe("what can't be decoded with certainty is told", () => {
  const doubtsOf = (hex: string, set: string): string[] => {
    const characterSets = openCharacterSets();
    characterSets.decode(bytesOf(hex), set);
    return [...characterSets.doubts];
  };

  test("a term that means only one thing is read without doubt", () => {
    expect(openCharacterSets().decode(bytesOf("c3b6"), "UTF-8")).toBe("ö");
    expect(doubtsOf("c3b6", "UTF-8")).toEqual([]);
  });

  test("an unknown term", () => {
    expect(doubtsOf("f6", "KLINGON 1")).toEqual(['the character set "KLINGON 1" is not known']);
  });

  test("high bytes without a declared set", () => {
    expect(doubtsOf("f6", "")).toHaveLength(1);
    expect(doubtsOf("41", "")).toEqual([]);
    for (const set of ["ISO_IR 6", "\\ISO 2022 IR 149"]) {
      expect(doubtsOf("c8ab", set)).toEqual(["some letters are not of the declared character set"]);
    }
  });

  test("bytes that the set does not define, and an unknown escape sequence", () => {
    expect(doubtsOf("c3", "ISO_IR 192")).toHaveLength(1);
    expect(doubtsOf("1b2978c3", "\\ISO 2022 IR 87")).toHaveLength(1);
  });
});
