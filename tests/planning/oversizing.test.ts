import { describe, expect, test } from "vitest";
import { unknownFacts } from "../../src/cases/case-facts.ts";
import { graftInterval, oversizingWindow, rowsThatFit } from "../../src/planning/oversizing.ts";
import { holds } from "../../src/quantities/limit.ts";

const window = { lowPercent: 10, highPercent: 20 };

describe("graftInterval", () => {
  test("both ends belong to the window in spite of binary fractions", () => {
    const { graftLowMm, graftHighMm } = graftInterval(30, 0, window);
    expect([33, 34, 36].every((graft) => inside(graft, graftLowMm, graftHighMm))).toBe(true);
    expect([32, 38].some((graft) => inside(graft, graftLowMm, graftHighMm))).toBe(false);
  });

  test("a vessel of 28 mm takes a graft of 30.8 mm, which 28 times 1.1 in binary overshoots", () => {
    const { graftLowMm } = graftInterval(28, 0, window);
    expect(holds(30.8, ">=", graftLowMm)).toBe(true);
  });
});

test("worked by hand, a vessel of 30 mm with 10 to 20 %: 34 and 36 mm fit, 36 being exactly 20 %; 32 and 38 mm do not", () => {
  const inventory = [32, 34, 36, 38].map((proximalMm) => ({
    id: `G${proximalMm}`,
    proximalMm,
    distalMm: proximalMm,
    coveredLengthMm: 150,
    sheathOuterMm: 8,
  }));
  const fits = rowsThatFit(graftInterval(30, 1, window), inventory);
  expect(fits.map(({ id }) => id)).toEqual(["G34", "G36"]);
});

const inside = (graft: number, low: number, high: number): boolean =>
  holds(graft, ">=", low) && holds(graft, "<=", high);

describe("oversizingWindow", () => {
  const of = (diagnoses: string[] | null, onsetDate: string | null = null) =>
    oversizingWindow({ ...unknownFacts, diagnoses, onsetDate }, "2026-01-15");
  test.each([
    [null, null, { missing: "diagnosis" }],
    [["arch aneurysm"], null, { window: { id: "aneurysm" } }],
    [["type B dissection"], null, { missing: "onset date of the dissection" }],
    [["type B dissection"], "2026-01-01", { window: { id: "acute-dissection" } }],
    [
      ["type B dissection"],
      "2025-12-31",
      { missing: "an oversizing window for a subacute dissection" },
    ],
    [
      ["type B dissection"],
      "2025-10-17",
      { missing: "an oversizing window for a subacute dissection" },
    ],
    [["type B dissection"], "2025-10-16", { window: { id: "chronic-dissection" } }],
    [["coarctation"], null, { missing: "an oversizing window for coarctation" }],
  ])("%j with onset %s", (diagnoses, onset, expected) => {
    expect(of(diagnoses, onset)).toMatchObject(expected);
  });
});
