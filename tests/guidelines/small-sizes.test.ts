import { describe, expect, test } from "vitest";
import type { CaseFacts } from "../../src/cases/patient-case.ts";
import { priorRepairsOf } from "../../src/cases/prior-repairs.ts";
import { disagreements } from "../../src/guidelines/disagreements.ts";
import { loadRules } from "../../src/guidelines/load-rules.ts";
import type { InventedDiameter } from "./invented-case.ts";
import { judge } from "./judged.ts";

const archSymptoms = {
  diagnoses: ["arch aneurysm"],
  symptoms: ["hoarseness"],
} satisfies Partial<CaseFacts>;

describe("a criterion that holds at any size", () => {
  const arch = (stated: Partial<CaseFacts> = {}, diameters: InventedDiameter[] = []) =>
    judge("eacts-sts-2024-arch-any-size-with-symptoms", diameters, { ...archSymptoms, ...stated });

  test("is met without any measurement, names its part and the symptoms", () => {
    expect(arch()).toMatchObject([
      {
        outcome: "met",
        about: { id: "aortic-arch" },
        used: [],
        value: null,
        limit: null,
        spansLimit: false,
        missing: [],
        reason: "Stated: hoarseness. The criterion holds at any size.",
      },
    ]);
    expect(arch({}, [{ place: "mid-arch", mm: 70 }])).toEqual(arch());
  });

  test("with other conditions open says what speaks for it", () => {
    expect(judge("acc-aha-2022-arch-any-size-with-symptoms", [], archSymptoms)).toMatchObject([
      {
        outcome: "not-assessable",
        about: { id: "aortic-arch" },
        missing: ["low or intermediate surgical risk"],
        reason:
          "Stated: hoarseness. The criterion holds at any size; the other conditions are not stated.",
      },
    ]);
    const saccular = judge("svs-2018-abdominal-saccular-any-size", [], {
      diagnoses: ["abdominal aneurysm"],
    });
    expect(saccular).toMatchObject([
      { outcome: "not-assessable", about: null, missing: ["saccular aneurysm"] },
    ]);
  });

  test("is judged in the parts where an aneurysm is stated", () => {
    const parts = (...diagnoses: string[]) =>
      judge("acc-aha-2022-ascending-any-size-with-symptoms", [], {
        diagnoses,
        symptoms: ["compression"],
      }).map(({ outcome, about }) => [outcome, about?.id]);
    expect(parts("root aneurysm")).toEqual([["met", "aortic-root"]]);
    expect(parts("ascending aneurysm", "root aneurysm")).toEqual([
      ["met", "aortic-root"],
      ["met", "ascending-aorta"],
    ]);
  });

  test.each([
    ["graft zones 1 to 3, 2020", "not-applicable", []],
    ["graft zone 1, 2020", "not-assessable", ["whether the aneurysm was repaired: aortic arch"]],
    ["graft, 2020", "not-assessable", ["which zones were repaired"]],
    ["graft zone 9, 2020", "met", []],
  ])("after %s: %s", (words, outcome, missing) => {
    expect(arch({ priorRepairs: priorRepairsOf(words) })).toMatchObject([{ outcome, missing }]);
  });

  test("without a word on repairs stays open", () => {
    expect(arch({ priorRepairs: null })).toMatchObject([
      { outcome: "not-assessable", about: null, missing: ["prior repair (or none)"] },
    ]);
  });
});

describe("a criterion for sizes below a limit", () => {
  const of = (diameters: InventedDiameter[], stated: Partial<CaseFacts> = {}) => {
    const [found] = judge("acc-aha-2022-descending-below-55-mm-with-risk-factor", diameters, {
      diagnoses: ["descending thoracic aneurysm"],
      aetiology: "Marfan",
      ...stated,
    });
    if (!found) throw new Error("no assessment");
    return found;
  };

  test("is met below it where the sheet states a factor, and names the factor", () => {
    expect(of([{ place: "zone-4", mm: 54.9 }])).toMatchObject({
      outcome: "met",
      limit: { operator: "<", value: 55, below: null },
      reason:
        "Zone 4 54.9 mm (outer edge) on 2026-03-02: the limit < 5.5 cm is met; the case sheet states: heritable aortic disease.",
    });
    const symptomatic = { aetiology: "degenerative", symptoms: ["compression"] };
    expect(of([{ place: "zone-4", mm: 40 }], symptomatic).outcome).toBe("met");
  });

  test("without a stated factor is open below the limit, and not met from the limit on", () => {
    expect(of([{ place: "zone-4", mm: 54.9 }], { aetiology: "degenerative" })).toMatchObject({
      outcome: "not-assessable",
      missing: [
        "any one of: growth of 0.5 cm per year or more; symptoms from the aneurysm; saccular aneurysm; infected aneurysm",
      ],
    });
    const beyond = of([{ place: "zone-4", mm: 55 }]);
    expect(beyond.outcome).toBe("not-met");
    expect(beyond.reason).toContain("the limit < 5.5 cm is not met.");
  });

  test("the largest size decides, a small one beside it does not", () => {
    const small = { place: "zone-4", mm: 40 };
    expect(of([small, { place: "zone-5", mm: 56 }])).toMatchObject({
      outcome: "not-met",
      about: { id: "zone-5" },
    });
    const inDoubt = [small, { place: "zone-5", mm: 54 }, { place: "zone-5", mm: 56 }];
    expect(of(inDoubt)).toMatchObject({ outcome: "not-assessable", about: { id: "zone-5" } });
    const sure = [...inDoubt, { place: "zone-3", mm: 58 }];
    expect(of(sure)).toMatchObject({ outcome: "not-met", about: { id: "zone-3" } });
  });

  test("a large place that may be repaired leaves it open: another may be the largest", () => {
    const priorRepairs = priorRepairsOf("graft zone 3, 2020");
    expect(of([{ place: "descending-thoracic-aorta", mm: 60 }], { priorRepairs })).toMatchObject({
      outcome: "not-assessable",
      missing: [expect.stringContaining("whether the repair takes in")],
    });
  });

  test("takes no part in what published limits differ in", () => {
    const rules = loadRules();
    const ids = [
      "acc-aha-2022-descending-below-55-mm-with-risk-factor",
      "eacts-sts-2024-descending-below-55-mm-with-high-risk-feature",
      "esc-2024-descending-55-mm",
    ];
    const facts = { diagnoses: ["descending thoracic aneurysm"] };
    const found = ids.flatMap((id) => judge(id, [{ place: "zone-4", mm: 50 }], facts));
    expect(found.map(({ outcome }) => outcome)).toEqual([
      "not-assessable",
      "not-assessable",
      "not-met",
    ]);
    expect(disagreements(found, rules)).toEqual([]);
  });
});
