import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { graftInterval, graftInWindow } from "../../../src/planning/sizing/graft-interval.ts";
import { inventoryFit, windowPairs } from "../../../src/planning/sizing/inventory-fit.ts";
import {
  oversizingSituation,
  type SizingWindow,
} from "../../../src/planning/sizing/oversizing-windows.ts";
import { piecePairs } from "../../../src/planning/sizing/piece-pairs.ts";
import { row, workedInventory } from "./sizing-samples.ts";

const window = (more: Partial<SizingWindow> = {}): SizingWindow => ({
  id: "invented",
  ends: ["proximal", "distal"],
  lowPercent: 10,
  highPercent: 20,
  highOperator: "<=",
  printed: "10 to 20 %",
  source: "invented",
  confirmed: false,
  ...more,
});

const endOf = (
  end: "proximal" | "distal",
  diameterMm: number | null,
  windows: readonly SizingWindow[],
  errorMm = 0,
) => ({
  end,
  reference: diameterMm === null ? null : { diameterMm, errorMm },
  windows: windows.map((one) => ({
    window: one,
    interval: diameterMm === null ? null : graftInterval(diameterMm, errorMm, one),
  })),
});

const fitOf = (
  inventory = workedInventory,
  {
    proximalMm = 32,
    distalMm = 28,
    windows = [window()],
    errorMm = 0,
  }: {
    proximalMm?: number | null;
    distalMm?: number | null;
    windows?: readonly SizingWindow[];
    errorMm?: number;
  } = {},
) =>
  inventoryFit(
    inventory,
    {
      proximal: endOf("proximal", proximalMm, windows, errorMm),
      distal: endOf("distal", distalMm, windows, errorMm),
    },
    { leastMm: 160, mostMm: 180 },
  );

describe("inventoryFit", () => {
  test("rows stand in the order of the inventory, also those that fit", () => {
    const inventory = [row("Z", 38, 33), row("A", 36, 32), row("M", 36, 33)];
    const { rows, answers } = fitOf(inventory);
    expect(rows.map(({ id }) => id)).toEqual(["Z", "A", "M"]);
    expect(answers[0]?.fits).toEqual(["Z", "A", "M"]);
  });

  test("a miss says at which end, on which side and by how many mm", () => {
    const { rows } = fitOf([row("G", 34, 34)]);
    expect(rows[0]?.proximal.windows[0]?.missMm).toBeCloseTo(-1.2, 8);
    expect(rows[0]?.distal.windows[0]?.missMm).toBeCloseTo(0.4, 8);
  });

  test("the nearest rows of an end are all that miss by the least, too small or too large", () => {
    const { answers } = fitOf([row("A", 34.2, 20), row("B", 39.4, 20), row("C", 30, 30)]);
    expect(answers[0]?.ends[0]).toMatchObject({
      inside: [],
      nearest: [
        { id: "A", missMm: expect.closeTo(-1, 8) },
        { id: "B", missMm: expect.closeTo(1, 8) },
      ],
    });
    expect(answers[0]?.sentence).toContain("A 1.0 mm too small, B 1.0 mm too large");
  });

  test("one end that is not known: outside at the other is outside, inside is not judged", () => {
    const { rows, answers } = fitOf([row("in", 36, 30), row("out", 30, 30)], { distalMm: null });
    expect(rows.map(({ both }) => both[0]?.outcome)).toEqual(["not-assessable", "not-met"]);
    expect(answers[0]?.sentence).toBe(
      "Not to be judged at the distal end. By end: proximal inside: in.",
    );
  });

  test("an end without a window is not judged either", () => {
    const { rows } = inventoryFit(
      [row("G", 36, 30)],
      { proximal: endOf("proximal", 32, [window()]), distal: endOf("distal", 28, []) },
      null,
    );
    expect(rows[0]?.both).toEqual([
      { proximal: "invented", distal: null, outcome: "not-assessable", spansLimit: false },
    ]);
    expect(rows[0]?.onePiece).toBe("not-assessable");
  });

  test("an empty inventory says so", () => {
    expect(fitOf([]).answers[0]?.sentence).toBe("The inventory has no row.");
  });

  test("one piece is long enough for the most, too short for the least, or open between them", () => {
    const inventory = [row("A", 36, 32, 180), row("B", 36, 32, 159), row("C", 36, 32, 170)];
    expect(fitOf(inventory).rows.map(({ onePiece }) => onePiece)).toEqual([
      "met",
      "not-met",
      "not-assessable",
    ]);
  });

  test("warnings are named at more than 20 and 30 %, not at them", () => {
    const { rows } = fitOf([row("A", 36, 36), row("B", 37, 39), row("C", 40, 30)], {
      proximalMm: 30,
      distalMm: 30,
    });
    expect(rows.map(({ proximal, distal }) => [proximal.alarms, distal.alarms])).toEqual([
      [[], []],
      [["over-20"], ["over-20"]],
      [["over-20", "over-30"], []],
    ]);
  });

  test("the reading error that holds a limit is said on both sides of it", () => {
    const { rows } = fitOf(
      [row("in", 36, 32), row("near", 35, 32), row("far", 20, 32), row("one", 35, 20)],
      {
        errorMm: 1,
      },
    );
    expect(rows.map(({ both }) => [both[0]?.outcome, both[0]?.spansLimit])).toEqual([
      ["met", true],
      ["not-met", true],
      ["not-met", false],
      ["not-met", false],
    ]);
  });
});

describe("windowPairs", () => {
  const [a, b, c] = ["a", "b", "c"].map((id) => window({ id }));
  test("same with same, else with each of the other end", () => {
    expect(windowPairs([a!, b!], [a!, b!])).toEqual([
      { proximal: "a", distal: "a" },
      { proximal: "b", distal: "b" },
    ]);
    expect(windowPairs([a!, b!], [a!])).toEqual([
      { proximal: "a", distal: "a" },
      { proximal: "b", distal: "a" },
    ]);
    expect(windowPairs([a!], [b!, c!])).toEqual([
      { proximal: "a", distal: "b" },
      { proximal: "a", distal: "c" },
    ]);
    expect(windowPairs([], [])).toEqual([{ proximal: null, distal: null }]);
  });
});

describe("whatever the sizes", () => {
  const mm = fc.integer({ min: 200, max: 460 }).map((tenths) => tenths / 10);
  const anyRow = fc.tuple(mm, mm);
  const rows = fc
    .array(anyRow, { maxLength: 12 })
    .map((sizes) => sizes.map(([p, d], index) => row(`R${index}`, p, d)));

  test("a wider inventory never removes a fit", () => {
    fc.assert(
      fc.property(rows, rows, mm, mm, (some, more, proximalMm, distalMm) => {
        const added = more.map((one) => ({ ...one, id: `more ${one.id}` }));
        const sizes = { proximalMm, distalMm };
        const before = fitOf(some, sizes).answers[0]?.fits ?? [];
        const after = fitOf([...added, ...some], sizes).answers[0]?.fits ?? [];
        expect(after.filter((id) => !id.startsWith("more"))).toEqual(before);
      }),
    );
  });

  test("a wider window never removes a fit", () => {
    const points = fc.integer({ min: 0, max: 10 });
    fc.assert(
      fc.property(rows, mm, mm, points, points, (some, proximalMm, distalMm, lower, higher) => {
        const wide = window({ lowPercent: 10 - lower, highPercent: 20 + higher });
        const before = fitOf(some, { proximalMm, distalMm }).answers[0]?.fits ?? [];
        const after = fitOf(some, { proximalMm, distalMm, windows: [wide] }).answers[0]?.fits ?? [];
        expect(after).toEqual(expect.arrayContaining(before));
      }),
    );
  });

  test("a larger reading error never widens what is surely inside, nor moves what is inside", () => {
    const error = fc.integer({ min: 0, max: 50 }).map((tenths) => tenths / 10);
    fc.assert(
      fc.property(mm, mm, error, error, (graftMm, vesselMm, errorMm, moreMm) => {
        const small = graftInterval(vesselMm, errorMm, window());
        const large = graftInterval(vesselMm, errorMm + moreMm, window());
        expect(large.surelyInsideLowMm).toBeGreaterThanOrEqual(small.surelyInsideLowMm);
        expect(large.surelyInsideHighMm).toBeLessThanOrEqual(small.surelyInsideHighMm);
        const [near, far] = [small, large].map((one) => graftInWindow(graftMm, one, "<="));
        expect(far?.isInside).toBe(near?.isInside);
        if (far?.isSurelyInside) expect(near?.isSurelyInside).toBe(true);
      }),
    );
  });
});

describe("piecePairs", () => {
  const coverage = { leastMm: 200, mostMm: 250 };
  const pairsOf = (inventory: typeof workedInventory, overlapMm = 50) =>
    piecePairs(inventory, fitOf(inventory).rows, coverage, overlapMm);
  // Joint: 36 over 32 mm is 12.5 %, inside the recalled 10 to 20 % of one graft in another; 150 + 150 - 50 = 250 mm.
  const [inner, outer] = [row("inner", 36, 36), row("outer", 32, 32)];

  test("the proximal piece inside the distal one, with its joint and its length", () => {
    expect(pairsOf([inner, outer])).toEqual([
      {
        proximalRow: "inner",
        distalRow: "outer",
        jointPercent: expect.closeTo(12.5, 8),
        mostCoverMm: 250,
      },
    ]);
  });

  test.each([
    ["too short together", [{ ...inner, coveredLengthMm: 149 }, outer], 50],
    ["a joint under 10 %", [{ ...inner, distalMm: 35.1 }, outer], 50],
    ["a joint over 20 %", [{ ...inner, distalMm: 38.5 }, outer], 50],
    ["a piece no longer than the overlap", [inner, { ...outer, coveredLengthMm: 50 }], 50],
  ])("none where there is %s", (_, inventory, overlapMm) => {
    expect(pairsOf(inventory, overlapMm)).toEqual([]);
  });

  test("the joint is read by the window of a stent graft in another", () => {
    const [joint] = oversizingSituation("stent-graft").windows;
    expect(joint).toMatchObject({ lowPercent: 10, highPercent: 20, confirmed: false });
  });
});
