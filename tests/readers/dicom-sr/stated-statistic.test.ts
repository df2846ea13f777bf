import { describe, expect, test } from "vitest";
import {
  coded,
  container,
  type Elements,
  names,
  textItem,
} from "../../../fixtures/content-items.ts";
import { buildDictionary } from "../../../src/anatomy/dictionary.ts";
import { measure } from "../../../src/cases/measure.ts";
import {
  arch,
  diameterItem,
  maximum,
  minimum,
  modifier,
  readContent,
  readingsOf,
  site,
} from "./invented-report.ts";

const dictionary = buildDictionary({ codes: {}, words: {} });
const tracked = (words: string) => textItem("HAS OBS CONTEXT", names.trackingIdentifier, words);
const meaning = (words: string) =>
  textItem("HAS CONCEPT MOD", coded("DCM", "121050", "Equivalent Meaning"), words);
const derived = (value: typeof maximum) => modifier(names.derivation, value);
const groupNamed = (words: string, ...children: Elements[]) =>
  container(names.measurementGroup, [tracked(words), site(arch), ...children]);

/** The statistic of each number, or the text that says why it was left out. */
const statistics = (group: Elements): string[] =>
  readingsOf(readContent([group])).map((reading) => {
    const { measurement, messages } = measure(reading, "exam", dictionary);
    return measurement?.statistic ?? messages.map(({ text }) => text).join();
  });
const leftOut = "Diameter at Aortic arch left out: it is called both";

describe("words beside the derivation code", () => {
  test("name the statistic where no code does: at the number, or in the group of one number", () => {
    expect(statistics(groupNamed("arch max", diameterItem("42")))).toEqual(["maximum"]);
    expect(
      statistics(groupNamed("arch", diameterItem("42", [meaning("D min")]), diameterItem("43"))),
    ).toEqual(["minimum", "unstated"]);
  });

  test("say nothing of the numbers of a larger group, or of a group further out", () => {
    const two = [diameterItem("42"), diameterItem("40")];
    expect(statistics(groupNamed("arch max", ...two))).toEqual(["unstated", "unstated"]);
    const inner = container(coded("99TEST", "P", "Part"), [diameterItem("42")]);
    expect(statistics(groupNamed("arch max", inner))).toEqual(["unstated"]);
  });

  test("that say the same as the code are no news", () => {
    expect(statistics(groupNamed("arch max", diameterItem("42", [derived(maximum)])))).toEqual([
      "maximum",
    ]);
  });

  test("that contradict the code leave the number out, with the reason", () => {
    for (const group of [
      groupNamed("arch min", diameterItem("42", [derived(maximum)])),
      groupNamed("arch", diameterItem("42", [derived(maximum), meaning("min. diameter")])),
      groupNamed("arch min", diameterItem("42"), derived(maximum)),
    ]) {
      expect(statistics(group)).toEqual([expect.stringContaining(leftOut)]);
    }
  });

  test("that a number of the group bears out contradict none of the others", () => {
    const both = [diameterItem("42", [derived(maximum)]), diameterItem("39", [derived(minimum)])];
    expect(statistics(groupNamed("level of max", ...both))).toEqual(["maximum", "minimum"]);
    const none = [diameterItem("42", [derived(maximum)]), diameterItem("39")];
    expect(statistics(groupNamed("min", ...none))).toEqual([
      expect.stringContaining(leftOut),
      "unstated",
    ]);
    const two = [diameterItem("42"), diameterItem("40")];
    expect(statistics(groupNamed("min", derived(maximum), ...two))).toEqual([
      expect.stringContaining(leftOut),
      expect.stringContaining(leftOut),
    ]);
    expect(statistics(groupNamed("max", derived(maximum), ...two))).toEqual(["maximum", "maximum"]);
  });
});
