import { describe, expect, test } from "vitest";
import { buildDictionary } from "../../src/anatomy/dictionary.ts";
import { measure } from "../../src/cases/measure.ts";
import type { Measurement } from "../../src/cases/patient-case.ts";
import { repeatedReadings } from "../../src/cases/repeated-readings.ts";
import { sampleReading } from "./sample-documents.ts";

const dictionary = buildDictionary({ codes: {}, words: {} });

/** A diameter of the arch as a reader wrote it. */
function readAs(value: string, unit: string, reader: string | null, file = "a.dcm"): Measurement {
  const reading = sampleReading("aortic arch", value, { unit }, `${reader} ${value} ${file}`);
  const own = { ...reading, reader, source: { ...reading.source, file } };
  const { measurement } = measure(own, "2024-01-10", dictionary);
  if (!measurement) throw new Error(`${value} ${unit} was not placed`);
  return measurement;
}
const codesOf = (measurements: Measurement[]): string[] =>
  repeatedReadings(measurements, "2024-01-10").map(({ code }) => code);

describe("repeatedReadings", () => {
  test.each([
    ["50", "mm", "50", "mm", "readings-agree"],
    ["50", "mm", "50.0", "mm", "readings-agree"],
    ["50", "mm", "50.4", "mm", "readings-agree"],
    ["50", "mm", "49.6", "mm", "readings-agree"],
    ["50", "mm", "50.5", "mm", "readings-differ"],
    ["50", "mm", "51", "mm", "readings-differ"],
    ["50.3", "mm", "50.25", "mm", "readings-differ"],
    ["50.3", "mm", "50.26", "mm", "readings-agree"],
    ["5.0", "cm", "50.4", "mm", "readings-agree"],
    ["5.0", "cm", "50.6", "mm", "readings-differ"],
    ["5e1", "mm", "54", "mm", "readings-agree"],
    ["5e1", "mm", "56", "mm", "readings-differ"],
  ])("two readers: %s %s and %s %s: %s", (one, unit, other, otherUnit, expected) => {
    const pair = [readAs(one, unit, "Reader One"), readAs(other, otherUnit, "Reader Two")];
    expect(codesOf(pair)).toEqual([expected]);
    expect(codesOf(pair.toReversed())).toEqual([expected]);
  });

  test("the note counts the numbers that agree and names who read them", () => {
    const [message] = repeatedReadings(
      [readAs("50", "mm", "Reader One"), readAs("50", "mm", null, "b.csv")],
      "2024-01-10",
    );
    expect(message?.data).toEqual({
      date: "2024-01-10",
      count: 1,
      by: "Reader One (a.dcm); b.csv",
    });
    expect(message?.severity).toBe("note");
  });

  test("three readings of which two differ are said to differ", () => {
    const three = ["50", "50.4", "49.6"].map((value, index) => readAs(value, "mm", `R${index}`));
    expect(codesOf(three)).toEqual(["readings-differ"]);
  });

  test("one reader who gives one value twice says nothing new; who gives two values contradicts himself", () => {
    const twice = [readAs("50", "mm", "Reader One"), readAs("50", "mm", "Reader One", "a.dcm")];
    expect(codesOf(twice)).toEqual([]);
    expect(codesOf([readAs("50", "mm", "R"), readAs("50.3", "mm", "R")])).toEqual([
      "readings-differ",
    ]);
  });
});
