import { describe, expect, test } from "vitest";
import { archVariantIds } from "../../src/anatomy/arch-variants.ts";
import { understandCaseRow } from "../../src/cases/case-facts.ts";
import { symptomWords } from "../../src/cases/vocabulary.ts";
import { sampleCaseRow } from "./sample-documents.ts";

describe("words of a case sheet row", () => {
  test("dissection and malperfusion pass as they are written", () => {
    const { facts, messages } = understandCaseRow(
      sampleCaseRow({ dissection: "B 3-5", malperfusion: "left renal; gut" }),
    );
    expect(messages.map(({ code, text }) => [code, text])).toEqual([
      [
        "malperfusion-not-understood",
        'malperfusion: "gut" is no known territory with its state; the other territories stand',
      ],
    ]);
    expect(facts).toMatchObject({
      dissectionWords: "B 3-5",
      malperfusionWords: "left renal; gut",
      archVariants: null,
      archVariantWords: null,
    });
  });

  test.each([
    ["B_3,12", "lists zones 0 to 12"],
    ["beyond repair", "is not a dissection type"],
  ])("the notation %j is refused and kept as words", (dissection, why) => {
    const { facts, messages } = understandCaseRow(sampleCaseRow({ dissection }));
    expect(facts.dissectionWords).toBe(dissection);
    expect(messages).toMatchObject([{ code: "dissection-not-understood" }]);
    expect(messages[0]?.text).toContain(why);
    expect(understandCaseRow(sampleCaseRow({ dissection: "none" })).messages).toEqual([]);
  });

  test.each([
    [null, null, []],
    ["usual", [], []],
    ["Usual ; usual", [], []],
    ["right arch", ["right arch"], []],
    [
      "Left vertebral artery off the arch; right arch; right arch",
      ["left vertebral artery off the arch", "right arch"],
      [],
    ],
    ["gothic", null, ["gothic"]],
    ["right arch; gothic", null, ["gothic"]],
    ["usual; right arch", null, ["usual; right arch"]],
  ])("arch variant %j", (archVariant, expected, refused) => {
    const { facts, messages } = understandCaseRow(sampleCaseRow({ archVariant }));
    expect(facts.archVariants).toEqual(expected);
    expect(facts.archVariantWords).toBe(archVariant);
    expect(messages.map(({ code, data }) => [code, data["met"]])).toEqual(
      refused.map((met) => ["case-word-not-understood", `"${met}"`]),
    );
    for (const { remedy } of messages) {
      for (const id of archVariantIds) expect(remedy).toContain(id);
    }
  });

  test.each([
    [null, null, []],
    ["none", [], []],
    [
      "Hoarseness ; pain attributable to the aorta",
      ["hoarseness", "pain attributable to the aorta"],
      [],
    ],
    ["pain", null, ["pain"]],
    ["compression; rupture", null, ["rupture"]],
    ["none; compression", null, ["none; compression"]],
  ])("symptoms %j", (symptoms, expected, refused) => {
    const { facts, messages } = understandCaseRow(sampleCaseRow({ symptoms }));
    expect(facts.symptoms).toEqual(expected);
    expect(facts.symptomsWords).toBe(symptoms);
    expect(messages.map(({ code, data }) => [code, data["heading"], data["met"]])).toEqual(
      refused.map((met) => ["case-word-not-understood", "symptoms", `"${met}"`]),
    );
    for (const { remedy } of messages) {
      for (const word of ["none", ...symptomWords]) expect(remedy).toContain(word);
    }
  });

  test.each([
    [null, null],
    ["none", []],
    ["father, dissection", ["aortic dissection"]],
    ["not asked", null],
  ])(
    "family history %j stays as written, and no word of it is refused",
    (familyHistory, events) => {
      const { facts, messages } = understandCaseRow(sampleCaseRow({ familyHistory }));
      expect(facts).toMatchObject({ familyHistory, familyEvents: events });
      expect(messages).toEqual([]);
    },
  );
});
