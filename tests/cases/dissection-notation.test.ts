import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type DissectionNotation,
  formatDissectionNotation,
  parseDissectionNotation,
  zonesOfNotation,
} from "../../src/cases/dissection-notation.ts";

const read = (words: string): DissectionNotation => {
  const parsed = parseDissectionNotation(words);
  if ("problem" in parsed) throw new Error(parsed.problem);
  return parsed;
};
const problemOf = (words: string): string => {
  const parsed = parseDissectionNotation(words);
  return "problem" in parsed ? parsed.problem : `read as ${formatDissectionNotation(parsed)}`;
};

describe("parseDissectionNotation", () => {
  test.each([
    ["A_9", "A_9"],
    ["A9", "A_9"],
    ["A 9", "A_9"],
    ["a(9)", "A_9"],
    ["A₉", "A_9"],
    ["A_0", "A_0"],
    ["B3-9", "B_3,9"],
    ["B3\u20139", "B_3,9"],
    ["B_3,9", "B_3,9"],
    ["B 3, 9", "B_3,9"],
    ["B 3 to 9", "B_3,9"],
    ["B(3,9)", "B_3,9"],
    ["B ( 3 , 9 )", "B_3,9"],
    ["B₃,₉", "B_3,9"],
    ["b_0,10 left", "B_0,10 left"],
    ["type B 1-5", "B_1,5"],
    ["TYPE\u00A0B", "B"],
    ["I_8", "I_8"],
    ["i8", "I_8"],
    ["A11 right", "A_11 right"],
    ["A_11 (right)", "A_11 right"],
    ["B(3,10), left", "B_3,10 left"],
    ["B3,11 both sides", "B_3,11 both sides"],
    ["B3,10", "B_3,10"],
  ])("%j is %s", (words, expected) => {
    expect(formatDissectionNotation(read(words))).toBe(expected);
  });

  test.each([
    ["B3,12", "no text seen defines a zone 12"],
    ["A12", "no text seen defines a zone 12"],
    ["B3,13", "there is no zone 13"],
    ["B9,3", "the proximal zone 9 lies beyond the distal zone 3"],
    ["A0,9", "type A has one zone, the distal one"],
    ["A3,9", "type A has one zone, the distal one"],
    ["I0-8", "type I has one zone, the distal one"],
    ["B9", "not said which one that is"],
    ["B39", "not said which one that is"],
    ["B0,0", "can't end in zone 0"],
    ["B3,9 left", "zone 9 has no side"],
    ["C_9", "is not a dissection type"],
    ["B3 9", "is not a dissection type"],
    ["B_3,", "is not a dissection type"],
    ["B(3,9", "is not a dissection type"],
    ["B3,9)", "is not a dissection type"],
    ["A09", "is not a dissection type"],
    ["A_9 extended", "is not a dissection type"],
    ["A11 rightleft", "is not a dissection type"],
    ["type", "is not a dissection type"],
    ["", "is not a dissection type"],
  ])("%j is refused and named: %s", (words, reason) => {
    expect(problemOf(words)).toContain(reason);
    expect(problemOf(words)).toContain(`"${words}"`);
  });
});

const zone = fc.integer({ min: 0, max: 11 });
const notations = fc
  .record({
    type: fc.constantFrom("A" as const, "B" as const, "I" as const),
    zones: fc.tuple(zone, zone),
    side: fc.constantFrom("left" as const, "right" as const, "both sides" as const, null),
    hasExtent: fc.boolean(),
  })
  .map(({ type, zones, side, hasExtent }): DissectionNotation => {
    if (!hasExtent) return { type, proximal: null, distal: null, side: null };
    const distal = Math.max(...zones, type === "B" ? 1 : 0);
    const proximal = type === "B" ? Math.min(...zones) : null;
    return { type, proximal, distal, side: distal >= 10 ? side : null };
  });

describe("properties", () => {
  test("what is formatted is read back as it was", () => {
    fc.assert(
      fc.property(notations, (notation) => {
        expect(read(formatDissectionNotation(notation))).toEqual(notation);
      }),
    );
  });

  test("formatting what was read changes nothing a second time", () => {
    const pieces = fc.constantFrom(
      "A",
      "b",
      "I",
      "3",
      "0",
      "9",
      "10",
      "12",
      "_",
      ",",
      "-",
      " ",
      "(",
      ")",
      "left",
    );
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 7 }), (parts) => {
        const parsed = parseDissectionNotation(parts.join(""));
        if ("problem" in parsed) return;
        const formatted = formatDissectionNotation(parsed);
        expect(formatDissectionNotation(read(formatted))).toBe(formatted);
      }),
      { numRuns: 2000 },
    );
  });

  test("the zones run without a gap from the proximal to the distal one, on each side once", () => {
    fc.assert(
      fc.property(notations, (notation) => {
        const { involved, unclear } = zonesOfNotation(notation);
        const numbers = new Set([...involved, ...unclear].map((id) => Number.parseInt(id, 10)));
        const { distal } = notation;
        if (distal === null) return;
        const first = notation.proximal ?? 0;
        expect([...numbers]).toEqual(
          Array.from({ length: distal - first + 1 }, (_, index) => first + index),
        );
        expect(new Set([...involved, ...unclear]).size).toBe(involved.length + unclear.length);
      }),
    );
  });
});

describe("zonesOfNotation", () => {
  test.each([
    ["B_3,5", ["3", "4", "5"], []],
    ["A_1", ["0", "1"], []],
    ["I_0", ["0"], []],
    ["B_9,11 right", ["9", "10-right", "11-right"], ["10-left", "11-left"]],
    ["B_9,10", ["9"], ["10-left", "10-right"]],
    ["B_10,10 both sides", ["10-left", "10-right"], []],
    ["B", [], []],
    ["A", ["0"], []],
  ])("%s", (words, involved, unclear) => {
    const zones = zonesOfNotation(read(words));
    expect(zones.involved.toSorted()).toEqual(involved.toSorted());
    expect(zones.unclear.toSorted()).toEqual(unclear.toSorted());
  });
});
