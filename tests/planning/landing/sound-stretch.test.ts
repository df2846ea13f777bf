import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type SectionState, soundStretches } from "../../../src/planning/landing/sound-stretch.ts";

const exactly = (mm: number) => ({ at: mm, low: mm, high: mm });
const whole = { from: exactly(0), to: exactly(1000), bound: null };
const never = () => false;
const lengthOf = (stretch: { startMm: number; endMm: number } | null): number =>
  stretch === null ? 0 : stretch.endMm - stretch.startMm;
const letters: Record<string, SectionState> = {
  S: "surely sound",
  s: "sound",
  u: "unsound",
  U: "surely unsound",
};
/** Sections 10 mm apart from 0 on, one letter each. */
const samples = (
  states: string,
  isBrokenAt: (first: number, index: number) => boolean = never,
) => ({
  atMm: [...states].map((_, index) => index * 10),
  states: [...states].map((letter) => letters[letter] ?? "unsound"),
  isBrokenAt,
});
const lengths = (...given: Parameters<typeof soundStretches>) => {
  const { value, low, high } = soundStretches(...given);
  return { value: lengthOf(value), low: lengthOf(low), high: lengthOf(high) };
};

describe("worked by hand, sections 10 mm apart", () => {
  // Value between the first and last sound section, low between those surely sound, high between those surely unsound.
  test.each([
    ["USSSSU", { value: 30, low: 30, high: 50 }],
    ["UsSSsU", { value: 30, low: 10, high: 50 }],
    ["UuSSuU", { value: 10, low: 10, high: 50 }],
    ["SSSUSSSSU", { value: 30, low: 30, high: 50 }],
    ["UUU", { value: 0, low: 0, high: 10 }],
    ["SuS", { value: 0, low: 0, high: 20 }],
    ["USU", { value: 0, low: 0, high: 20 }],
  ])("%s", (states, expected) => {
    expect(lengths(samples(states), whole)).toEqual(expected);
  });

  test("a border between two sound sections cuts the gap: 13 to 40 mm", () => {
    const reach = { ...whole, from: exactly(13), to: exactly(25) };
    expect(lengths(samples("SSSSS"), reach)).toEqual({ value: 27, low: 27, high: 27 });
  });

  test("a border known to 2 mm either way: 13 (11 to 15) to 40 mm", () => {
    const reach = { ...whole, from: { at: 13, low: 11, high: 15 }, to: exactly(25) };
    expect(lengths(samples("SSSSS"), reach)).toEqual({ value: 27, low: 25, high: 29 });
  });

  test("after an unsound border the stretch begins within the zone, or not at all", () => {
    const reach = { ...whole, from: exactly(10) };
    expect(lengths(samples("SUSSS"), { ...reach, to: exactly(21) })).toMatchObject({ value: 20 });
    expect(lengths(samples("SUSSS"), { ...reach, to: exactly(20) })).toEqual({
      value: 0,
      low: 0,
      high: 30,
    });
  });

  test("it ends at the bound, and before the section that breaks it", () => {
    expect(lengths(samples("SSSSS"), { ...whole, bound: exactly(24) }).value).toBe(24);
    const broken = samples("SSSSS", (first, index) => first < 3 && index === 3);
    expect(lengths(broken, whole)).toEqual({ value: 20, low: 20, high: 30 });
  });
});

const randomLine = fc
  .array(
    fc.record({
      gap: fc.integer({ min: 1, max: 15 }),
      state: fc.constantFrom<SectionState>("surely sound", "sound", "unsound", "surely unsound"),
    }),
    { minLength: 1, maxLength: 25 },
  )
  .map((all) => {
    let at = 0;
    return {
      atMm: all.map(({ gap }) => (at += gap)),
      states: all.map(({ state }) => state),
      isBrokenAt: never,
    };
  });
const randomReach = fc
  .record({
    from: fc.integer({ min: 0, max: 150 }),
    zone: fc.integer({ min: 6, max: 60 }),
    error: fc.integer({ min: 0, max: 3 }),
    bound: fc.option(fc.integer({ min: 60, max: 400 })),
  })
  .map(({ from, zone, error, bound }) => {
    const spread = (at: number) => ({ at, low: at - error, high: at + error });
    return {
      from: spread(from),
      to: spread(from + zone),
      bound: bound === null ? null : spread(from + bound),
    };
  });

describe("on any line", () => {
  test("low <= value <= high", () => {
    fc.assert(
      fc.property(randomLine, randomReach, (line, reach) => {
        const { value, low, high } = lengths(line, reach);
        expect(low).toBeLessThanOrEqual(value);
        expect(value).toBeLessThanOrEqual(high);
      }),
      { numRuns: 3000 },
    );
  });

  test("a surely sound section in a gap never lowers the low end nor lengthens the high one", () => {
    fc.assert(
      fc.property(randomLine, randomReach, fc.nat(), (line, reach, where) => {
        const index = 1 + (where % line.atMm.length);
        const [before, after] = [line.atMm[index - 1], line.atMm[index]];
        if (before === undefined || after === undefined) return;
        const added = {
          ...line,
          atMm: line.atMm.toSpliced(index, 0, (before + after) / 2),
          states: line.states.toSpliced(index, 0, "surely sound"),
        };
        expect(lengths(added, reach).low).toBeGreaterThanOrEqual(lengths(line, reach).low);
        expect(lengths(added, reach).high).toBeLessThanOrEqual(lengths(line, reach).high);
      }),
      { numRuns: 3000 },
    );
  });

  test("without borders but its own ends the mirrored line has the same lengths", () => {
    const fromFirst = ({ atMm }: { atMm: readonly number[] }) => ({
      ...whole,
      from: exactly(atMm[0] ?? 0),
    });
    fc.assert(
      fc.property(randomLine, (line) => {
        const mirrored = {
          ...line,
          atMm: line.atMm.toReversed().map((mm) => -mm),
          states: line.states.toReversed(),
        };
        expect(lengths(mirrored, fromFirst(mirrored))).toEqual(lengths(line, fromFirst(line)));
      }),
    );
  });
});
