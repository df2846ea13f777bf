import { describe, expect, test } from "vitest";
import type { CaseFacts } from "../../src/cases/patient-case.ts";
import { priorRepairsOf } from "../../src/cases/prior-repairs.ts";
import type { InventedDiameter } from "./invented-case.ts";
import { descending, judge } from "./judged.ts";

const chronicB = {
  diagnoses: ["type B dissection"],
  onsetDate: "2024-01-01",
} satisfies Partial<CaseFacts>;

describe("which size counts", () => {
  test("the largest diameter of the part, with its key, place, date and edge", () => {
    const found = descending([
      { place: "zone-4", mm: 51 },
      { place: "mid-descending", mm: 56 },
      { place: "zone-5", mm: 55.5, edge: "inner" },
    ]);
    expect(found).toMatchObject({
      outcome: "met",
      used: ["M1"],
      about: { id: "mid-descending" },
      value: { value: 56, low: null, high: null, unit: "mm" },
      spansLimit: false,
    });
    expect(found.reason).toBe(
      "Mid-descending aorta 56 mm (outer edge) on 2026-03-02: the limit >= 55 mm is met.",
    );
  });

  test("the latest exam with a usable diameter of the part, not the latest exam", () => {
    const found = descending([
      { place: "zone-4", mm: 58, exam: "2023-01-09" },
      { place: "zone-4", mm: 53, exam: "2024-01-09" },
      { place: "zone-4", mm: 60, exam: "2025-01-09", statistic: "mean" },
      { place: "sinuses-of-valsalva", mm: 60, exam: "2026-01-09" },
    ]);
    expect(found).toMatchObject({ outcome: "not-met", used: ["M1"] });
    expect(found.reason).toContain("53 mm (outer edge) on 2024-01-09");
  });

  test("no exam after the as-of date", () => {
    const found = descending([
      { place: "zone-4", mm: 54 },
      { place: "zone-4", mm: 56, exam: "2026-06-02" },
    ]);
    expect(found).toMatchObject({ outcome: "not-met", used: ["M0"] });
  });

  test.each([
    { statistic: "minimum" },
    { statistic: "mean" },
    { lumen: "true" },
    { lumen: "false" },
    { quantity: "area" },
    { place: "coeliac-artery" },
    { place: "thoracic-aorta" },
  ] as const)("never %o", (given) => {
    const found = descending([{ place: "zone-4", mm: 80, ...given }]);
    expect(found).toMatchObject({
      outcome: "not-assessable",
      about: null,
      missing: ["largest diameter: descending thoracic aorta"],
    });
  });

  test("a statistic and an edge that are not stated are said", () => {
    const given = { statistic: "unstated", edge: "unstated", lumen: "unstated" } as const;
    const found = descending([{ place: "zone-4", mm: 56, ...given }]);
    expect(found.outcome).toBe("met");
    expect(found.reason).toContain("(edge not stated, not said to be the maximum)");
  });

  test("the abdominal aorta begins at the coeliac artery", () => {
    const places = ["at-coeliac-origin", "zone-6", "suprarenal-aorta", "zone-8", "zone-9"];
    for (const place of places) {
      const [found] = judge("esc-2024-abdominal-men-55-mm", [{ place, mm: 55 }]);
      expect(found, place).toMatchObject({ outcome: "met", about: { id: place } });
    }
  });

  test("each part of a rule is judged for itself", () => {
    const found = judge(
      "acc-aha-2022-marfan-arch-descending-abdominal-50-mm",
      [
        { place: "mid-arch", mm: 49 },
        { place: "zone-9", mm: 51 },
      ],
      { aetiology: "Marfan" },
    );
    expect(found.map(({ outcome, about }) => [outcome, about?.id])).toEqual([
      ["not-met", "mid-arch"],
      ["not-assessable", undefined],
      ["met", "zone-9"],
    ]);
  });

  test("above a band in one place of a part, the part is above the band", () => {
    const [, ascending] = judge(
      "acc-aha-2022-bicuspid-50-to-54-mm-low-risk",
      [
        { place: "mid-ascending", mm: 56 },
        { place: "zone-0", mm: 52 },
      ],
      { aetiology: "bicuspid valve" },
    );
    expect(ascending).toMatchObject({ outcome: "not-met", about: { id: "mid-ascending" } });
  });
});

describe("which lumen", () => {
  const chronic = (diameters: InventedDiameter[]) =>
    judge("acc-aha-2022-chronic-dissection-55-mm", diameters, chronicB)[1];

  test("in a dissection the lumen must be stated", () => {
    const found = chronic([{ place: "zone-4", mm: 50, lumen: "unstated" }]);
    expect(found).toMatchObject({
      outcome: "not-assessable",
      missing: ["which lumen was measured (zone 4)"],
      value: { value: 50 },
    });
  });

  test("a whole-lumen reading of the place stands before an unstated one", () => {
    const found = chronic([
      { place: "zone-4", mm: 30, lumen: "unstated" },
      { place: "zone-4", mm: 52 },
    ]);
    expect(found).toMatchObject({ outcome: "not-met", used: ["M1"] });
  });

  test("an unstated lumen elsewhere leaves the part open, unless the limit is surely reached", () => {
    const unstated = { place: "zone-5", mm: 30, lumen: "unstated" } as const;
    expect(chronic([{ place: "zone-4", mm: 54 }, unstated])?.outcome).toBe("not-assessable");
    expect(chronic([{ place: "zone-4", mm: 55 }, unstated])?.outcome).toBe("met");
  });
});

describe("readings of the same exam that differ", () => {
  test("on both sides of the limit leave it open, with both values", () => {
    const found = descending([
      { place: "zone-4", mm: 56 },
      { place: "zone-4", mm: 54, edge: "inner" },
    ]);
    expect(found).toMatchObject({
      outcome: "not-assessable",
      used: ["M0", "M1"],
      missing: ["which reading is right (zone 4): 54 or 56 mm"],
    });
    expect(found.reason).toContain("readings of the same exam differ: 54 and 56 mm");
  });

  test("on one side of the limit give that outcome, and it is said", () => {
    const found = descending([
      { place: "zone-4", mm: 56 },
      { place: "zone-4", mm: 58, edge: "inner" },
    ]);
    expect(found).toMatchObject({ outcome: "met", used: ["M1", "M0"], value: { value: 58 } });
    expect(found.reason).toContain(
      "56 and 58 mm (inner edge and outer edge, 2 readings of the same exam)",
    );
  });

  test("do not hide another place that surely reaches the limit", () => {
    const found = descending([
      { place: "zone-4", mm: 56 },
      { place: "zone-4", mm: 54 },
      { place: "zone-5", mm: 55 },
    ]);
    expect(found).toMatchObject({ outcome: "met", about: { id: "zone-5" } });
  });
});

describe("after a repair", () => {
  const repair = (zones: string[] | null) => ({
    priorRepairs: [{ words: "invented repair", date: "2020", zones, kinds: ["graft" as const] }],
  });

  test("a repaired place is not judged, the rest of the part is", () => {
    const both = [
      { place: "zone-3", mm: 60 },
      { place: "zone-5", mm: 54 },
    ];
    expect(descending(both.slice(0, 1), repair(["3", "4"]))).toMatchObject({
      outcome: "not-applicable",
      reason: 'The place is repaired: descending thoracic aorta, "invented repair".',
    });
    expect(descending(both, repair(["3", "4"]))).toMatchObject({
      outcome: "not-met",
      used: ["M1"],
    });
  });

  test("only repairs of the place are named, and a bypass is none", () => {
    const priorRepairs = priorRepairsOf(
      "TEVAR zones 3 to 5, 2020; graft zone 0, 2018; left carotid-subclavian bypass 2020",
    );
    expect(descending([{ place: "zone-4", mm: 60 }], { priorRepairs })).toMatchObject({
      outcome: "not-applicable",
      reason: 'The place is repaired: descending thoracic aorta, "TEVAR zones 3 to 5, 2020".',
    });
    const bypass = { priorRepairs: priorRepairsOf("left carotid-subclavian bypass 2020") };
    expect(descending([{ place: "zone-4", mm: 60 }], bypass).outcome).toBe("met");
  });

  test("a border or a range that the repair may reach is open where the limit is reached", () => {
    const at = (place: string, mm: number) => descending([{ place, mm }], repair(["3", "4"]));
    expect(at("mid-descending", 55)).toMatchObject({ outcome: "not-assessable", used: ["M0"] });
    expect(at("mid-descending", 54).outcome).toBe("not-met");
    expect(at("descending-thoracic-aorta", 55).missing[0]).toContain("whether the repair");
  });

  test.each([
    [null, "prior repair (or none)"],
    [repair(null).priorRepairs, "which zones were repaired"],
  ])("%o leaves every place open", (priorRepairs, missing) => {
    expect(descending([{ place: "zone-4", mm: 40 }], { priorRepairs })).toMatchObject({
      outcome: "not-assessable",
      missing: [missing],
    });
  });
});
