import { describe, expect, test } from "vitest";
import { flagRows } from "../../../src/report/charts/flag-rows.ts";

describe("names to the right of upright lines", () => {
  test("names that reach no other line share the lowest row", () => {
    const flags = [
      { at: 0, until: 40 },
      { at: 50, until: 90 },
      { at: 90, until: 120 },
    ];
    expect(flagRows(flags)).toEqual([0, 0, 0]);
  });

  test("a name that reaches over a line stands above the name of it", () => {
    // Worked by hand: the third lies free; the second reaches over it, the first over the second alone.
    const flags = [
      { at: 0, until: 60 },
      { at: 50, until: 90 },
      { at: 80, until: 120 },
    ];
    expect(flagRows(flags)).toEqual([2, 1, 0]);
  });

  test("two names at one line stand in two rows", () => {
    const flags = [
      { at: 10, until: 40 },
      { at: 10, until: 60 },
    ];
    expect(flagRows(flags).toSorted()).toEqual([0, 1]);
    expect(flagRows([])).toEqual([]);
  });
});
