import { describe, expect, test } from "vitest";
import type { ReadSize } from "../../src/growth/growth-line.ts";
import { rateChange } from "../../src/growth/rate-change.ts";
import { daysAfter } from "../../src/growth/when-tellable.ts";

// As in `growth-rate.test.ts`, a year of the worked examples is eight years, and sizes and SD are eight times as large.
const scale = 8;
const at = (years: number, mm: number, sdMm = 0.5): ReadSize => ({
  date: daysAfter("2020-01-01", years * scale * 365.25),
  valueMm: 40 + mm * scale,
  sdMm: sdMm * scale,
  offset: null,
});
const inDays = (...sizes: [days: number, mm: number][]): ReadSize[] =>
  sizes.map(([days, valueMm]) => ({
    date: daysAfter("2020-01-01", days),
    valueMm,
    sdMm: 0.5,
    offset: null,
  }));

describe("whether the rate is changing", () => {
  // By hand: the last exam against the line of the first three, carried on by a year. Variance of the difference: SD² times
  // 1 + 1/3 + 2²/2, so its 95 % half-width is 1.789 mm per year at SD 0.5 mm.
  test.each([
    {
      last: 7,
      answer: "faster lately",
      words: "5.0 mm per year since 2036-01-01, 1.0 before; difference 4.0 (95 % 2.2 to 5.8)",
    },
    {
      last: 0,
      answer: "slower lately",
      words: "difference \u22123.0 (95 % \u22124.8 to \u22121.2)",
    },
    {
      last: 4.5,
      answer: "no change that can be told",
      words: "difference 1.5 (95 % \u22120.3 to 3.3)",
    },
  ])("0, 1, 2 and $last mm: $answer", ({ last, answer, words }) => {
    const found = rateChange([at(0, 0), at(1, 1), at(2, 2), at(3, last)]);
    expect(found.answer).toBe(answer);
    expect(found.sentence).toContain(words);
    expect(found.sentence).toMatch(new RegExp(`: ${answer}\\.$`));
  });

  test("what a possible shift can make is no change", () => {
    const sizes = [at(0, 0), at(1, 1), at(2, 2), at(3, 7)];
    const offset = { lowMm: 0, highMm: 2 * scale, source: "invented" };
    const shifted = sizes.map((one, index) => (index < 3 ? { ...one, offset } : one));
    expect(rateChange(shifted).answer).toBe("no change that can be told");
  });

  test("several exams in the last half year all stand in the late line", () => {
    const { sentence } = rateChange(inDays([0, 40], [400, 41], [800, 42], [900, 43], [1000, 44]));
    expect(sentence).toContain("since 2022-03-11");
  });

  test.each([
    ["none", []],
    ["three", inDays([0, 40], [400, 41], [800, 48])],
    [
      "four on less than half a year before the bend",
      inDays([0, 40], [50, 40], [100, 41], [800, 48]),
    ],
    ["four within half a year", inDays([0, 40], [50, 40], [100, 41], [150, 48])],
    [
      "four, all but the first in the last half year",
      inDays([0, 40], [700, 45], [750, 46], [800, 48]),
    ],
  ])("too few exams: %s", (_, sizes) => {
    expect(rateChange(sizes).answer).toBe("too few exams");
  });
});
