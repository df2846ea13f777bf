import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { z } from "zod";
import { nearestWord, parseDataFile, parseOwnDataFile } from "../src/data-file.ts";

const schema = z.strictObject({ limit: z.number(), source: z.strictObject({ year: z.number() }) });

const bomb = `a: &a [${"x,".repeat(9)}x]\nb: &b [${"*a,".repeat(9)}*a]\nc: &c [${"*b,".repeat(9)}*b]\nd: [*c,*c]\n`;

describe("parseDataFile", () => {
  test("gives the value of a file without mistakes", () => {
    const text = "limit: 55\nsource:\n  year: 2022\n";
    expect(parseDataFile(text, schema).value).toEqual({ limit: 55, source: { year: 2022 } });
  });

  test.each([
    ["a value of the wrong kind", "limit: 55\nsource:\n  year: soon\n", 3, "source.year"],
    ["an unknown key", "limit: 55\nsource:\n  year: 2022\n  colour: red\n", 4, "source.colour"],
    ["a missing key, at what should hold it", "limit: 55\nsource: {}\n", 2, "source.year"],
    ["a key that stands twice", "limit: 55\nlimit: 56\n", 2, ""],
    ["broken YAML", "limit: [55\n", 2, ""],
  ])("names the line of %s", (_, text, line, path) => {
    const { value, problems } = parseDataFile(text, schema);
    expect(value).toBeNull();
    expect(problems[0]).toMatchObject({ line, path });
  });

  test.each([
    ["an alias without its anchor", "limit: *a\n"],
    ["aliases that unfold without end", bomb],
  ])("%s is a problem, not a throw", (_, text) => {
    expect(parseDataFile(text, schema).problems).toMatchObject([{ line: 1, path: "" }]);
  });

  test("a misspelt key is on its own line, whatever stands below it, and the nearest key is named", () => {
    const text = "limit: 55\nsuorce:\n  year: 2022\n";
    expect(parseDataFile(text, schema).problems).toContainEqual({
      line: 2,
      path: "suorce",
      what: "suorce is not a key here; did you mean source?",
    });
  });

  test("all unknown keys are told, with the keys there are where none is near", () => {
    const text = "limit: 55\ncolour: red\nsource:\n  year: 2022\n  yera: 1\n";
    expect(parseDataFile(text, schema).problems).toMatchObject([
      { line: 2, what: "colour is not a key here; the keys are limit, source" },
      { line: 5, what: "yera is not a key here; did you mean year?" },
    ]);
  });

  const choice = z.strictObject({
    columns: z.record(
      z.string().regex(/^[a-z]+$/, "small letters only"),
      z.union([z.enum(["day", "patient"]), z.strictObject({ place: z.enum(["arch", "root"]) })]),
    ),
  });
  test.each([
    [
      "a word of a choice",
      "  a: daj",
      2,
      "columns.a",
      "daj is none of its values; did you mean day?",
    ],
    [
      "a key of a choice",
      "  a:\n    plac: arch",
      3,
      "columns.a.plac",
      "plac is not a key here; did you mean place?",
    ],
    [
      "a value of a choice",
      "  a:\n    place: rot",
      3,
      "columns.a.place",
      "rot is none of its values; did you mean root?",
    ],
    [
      "a list where a choice stands",
      "  a: [day]",
      2,
      "columns.a",
      "what stands here is none of its values; they are day, patient",
    ],
    [
      "nothing where a choice stands",
      "  a:",
      2,
      "columns.a",
      "is missing; it is one of day, patient",
    ],
    ["a key that is not allowed", "  A: day", 2, "columns.A", "small letters only"],
  ])("%s", (_, lines, line, path, what) => {
    const { problems } = parseDataFile(`columns:\n${lines}\n`, choice);
    expect(problems).toContainEqual({ line, path, what });
  });

  test("a mistake in a file that ships with the program throws with file and line", () => {
    expect(() => parseOwnDataFile("limit: a\nsource: {year: 1}", schema, "own.yaml")).toThrow(
      /own\.yaml does not load:\n {2}line 1 limit/,
    );
  });
});

describe("nearestWord", () => {
  test.each([
    ["isuer", ["paper", "issuer", "issue"], "issuer"],
    ["edg", ["edge", "lumen"], "edge"],
    ["EDGE", ["edge"], "edge"],
    ["egde", ["edge"], "edge"],
    ["yera", ["year"], "year"],
    ["zone-12", ["zone-1", "zone-3"], "zone-1"],
    ["colour", ["limit", "source"], null],
    ["", ["a"], null],
    ["ab", ["cd"], null],
  ])("of %j in %j is %j", (met, words, nearest) => {
    expect(nearestWord(met, words)).toBe(nearest);
  });

  test("a word with one letter changed, added or taken away finds the word again", () => {
    const word = fc.stringMatching(/^[a-z]{4,12}$/);
    const change = fc.record({
      word,
      at: fc.nat(11),
      letter: fc.constantFrom("#", ""),
      taken: fc.nat(1),
    });
    fc.assert(
      fc.property(change, ({ word, at, letter, taken }) => {
        const place = at % word.length;
        const met = word.slice(0, place) + letter + word.slice(place + taken);
        expect(nearestWord(met, ["0000", word])).toBe(word);
      }),
    );
  });
});
