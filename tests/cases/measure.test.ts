import { describe, expect, test } from "vitest";
import { buildDictionary } from "../../src/anatomy/dictionary.ts";
import { measure } from "../../src/cases/measure.ts";
import { caseMessage } from "../../src/cases/messages.ts";
import type { Reading } from "../../src/readers/reading.ts";
import { sampleReading } from "./sample-documents.ts";

const dictionary = buildDictionary({ codes: {}, words: {} });
const measured = (reading: Reading) => measure(reading, "2025-01-02", dictionary);
const codesOf = (reading: Reading) => measured(reading).messages.map(({ code }) => code);

describe("measure", () => {
  test("places, parses and converts, and keeps what was written", () => {
    const { measurement } = measured(sampleReading("aortic arch", "4.15", { unit: "cm" }));
    expect(measurement).toMatchObject({
      value: 41.5,
      unit: "mm",
      asWritten: "4.15 cm",
      place: { id: "aortic-arch", kind: "range" },
      quantity: "diameter",
      statistic: "maximum",
      lumen: "unstated",
      edge: "outer",
    });
    expect(measurement?.key).toMatch(/^M[0-9a-f]{8}$/);
  });

  test("the key follows the place in the file, not the value", () => {
    const key = (value: string, at: string) =>
      measured(sampleReading("aortic arch", value, {}, at)).measurement?.key;
    expect(key("41", "record 2")).toBe(key("42", "record 2"));
    expect(key("41", "record 2")).not.toBe(key("41", "record 3"));
  });

  test.each([
    ["a decimal comma", sampleReading("aortic arch", "41,5"), "value-not-a-number"],
    ["a comparison", sampleReading("aortic arch", "< 30"), "value-not-a-number"],
    ["zero", sampleReading("aortic arch", "0"), "value-not-positive"],
    ["pixels", sampleReading("aortic arch", "41", { unit: "px" }), "unit-not-physical"],
    [
      "an area for a diameter",
      sampleReading("aortic arch", "41", { unit: "mm2" }),
      "unit-not-physical",
    ],
    ["a place off the aorta", sampleReading("liver", "41"), "place-not-understood"],
    [
      "a quantity that is none of ours",
      sampleReading("aortic arch", "41", { quantity: { words: "attenuation", code: null } }),
      "quantity-not-understood",
    ],
    [
      "a statistic that is none",
      sampleReading("aortic arch", "41", { statistic: "best" }),
      "statistic-not-understood",
    ],
    [
      "an edge that is none",
      sampleReading("aortic arch", "41", { edge: "somewhere" }),
      "edge-not-understood",
    ],
  ])("leaves out %s with its reason", (_, reading, code) => {
    expect(measured(reading).measurement).toBeNull();
    expect(codesOf(reading)).toEqual([code]);
  });

  test("a unit code of another scheme than UCUM is refused", () => {
    const reading = {
      ...sampleReading("aortic arch", "41"),
      unit: { words: "mm", code: { scheme: "99X", value: "mm" } },
    };
    expect(codesOf(reading)).toEqual(["unit-not-physical"]);
  });

  test("no unit, no value and a failed measurement are each told apart", () => {
    const reading = sampleReading("aortic arch", "41");
    const failure = { words: "Measurement failure", code: { scheme: "DCM", value: "114006" } };
    expect(codesOf({ ...reading, unit: null })).toEqual(["unit-not-stated"]);
    expect(codesOf({ ...reading, valueText: null })).toEqual(["value-missing"]);
    expect(codesOf({ ...reading, valueText: null, qualifier: failure })).toEqual(["value-missing"]);
    expect(codesOf({ ...reading, qualifier: failure })).toEqual(["value-qualified"]);
  });

  test("a diameter that is no aorta's, and would be one in another unit, is left out", () => {
    const { measurement, messages } = measured(sampleReading("aortic arch", "4.6"));
    expect(measurement).toBeNull();
    expect(messages).toMatchObject([
      {
        code: "value-of-another-unit",
        text: "diameter at aortic arch left out: 4.6 mm can't be the size of an aorta; 4.6 cm would be",
      },
    ]);
    expect(codesOf(sampleReading("left subclavian artery", "9"))).toEqual([]);
  });

  test("a diameter that is hardly an aorta's is used and doubted", () => {
    const { measurement, messages } = measured(sampleReading("aortic arch", "460"));
    expect(measurement?.value).toBe(460);
    expect(messages.map(({ code }) => code)).toEqual(["value-doubtful"]);
  });

  test("a declared decimal comma is shown as it was written", () => {
    const reading = {
      ...sampleReading("aortic arch", "4.15", { unit: "cm" }),
      valueAsWritten: "4,15",
    };
    expect(measured(reading).measurement).toMatchObject({ value: 41.5, asWritten: "4,15 cm" });
  });

  test("what its reader refused is refused with the reader's own reason", () => {
    const refused = caseMessage("unit-not-stated", null, { number: "Ø" });
    const reading = { ...sampleReading("aortic arch", "41"), refused };
    expect(measured(reading)).toEqual({ measurement: null, messages: [refused] });
  });
});
