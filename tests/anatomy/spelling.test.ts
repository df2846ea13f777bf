import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  plainKey,
  spellingIndex,
  spellingsOf,
  unorderedKey,
  wordKey,
} from "../../src/anatomy/spelling.ts";

describe("keys of spellings", () => {
  test("case, hyphens, underscores and spaces", () => {
    expect(wordKey("  Mid-\u2013_ascending\n aorta ")).toBe("mid ascending aorta");
    expect(wordKey("coe\u0301")).toBe("co\u00E9");
    expect(wordKey("-15 mm")).toBe("-15 mm");
  });

  test.each([
    ["Sinotubulärer Übergang", "sinotubularer ubergang"],
    ["tronc cœliaque", "tronc coeliaque"],
    ["AUSSEN", "aussen"],
    ["außen", "aussen"],
    ["A. carotis comm., links", "a carotis comm links"],
    ["crosse de l\u2019aorte", "crosse de l aorte"],
    ["Aorta (ascending)", "aorta ascending"],
    ["zone 1.0", "zone 1.0"],
    ["-ascending", "-ascending"],
    ["arch?", "arch?"],
  ])("%j is compared as %j", (words, key) => {
    expect(plainKey(words)).toBe(key);
  });

  test("the order of words does not count, the number of each does", () => {
    expect(unorderedKey("carotid, common, left")).toBe(unorderedKey("Left common carotid"));
    expect(unorderedKey("mid mid arch")).not.toBe(unorderedKey("mid arch"));
  });

  test.each([wordKey, plainKey, unorderedKey])("%o leaves a key as it is", (keyOf) => {
    fc.assert(
      fc.property(fc.string({ unit: "grapheme" }), (words) => {
        expect(keyOf(keyOf(words))).toBe(keyOf(words));
      }),
    );
  });
});

test("a pattern stands for every combination of its alternatives", () => {
  const alternatives = { side: ["left", "l"], artery: ["artery", ""] };
  expect(spellingsOf("<side> renal <artery>", alternatives)).toEqual([
    "left renal artery",
    "left renal ",
    "l renal artery",
    "l renal ",
  ]);
  expect(spellingsOf("arch", alternatives)).toEqual(["arch"]);
  expect(() => spellingsOf("<vein>", alternatives)).toThrow("<vein>");
});

test("a spelling of two meanings is caught; twice the same meaning is none", () => {
  const index = (second: string) =>
    spellingIndex(
      [
        ["Left common carotid", "a"],
        ["carotid common, LEFT", second],
      ],
      unorderedKey,
    );
  expect(index("a").size).toBe(1);
  expect(() => index("b")).toThrow('"carotid common, LEFT" has two meanings');
});
