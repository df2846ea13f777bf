import { describe, expect, test } from "vitest";
import type { CaseFacts, PatientCase } from "../../src/cases/patient-case.ts";
import { disagreements } from "../../src/guidelines/disagreements.ts";
import { evaluateRules } from "../../src/guidelines/evaluate-rules.ts";
import { loadRules } from "../../src/guidelines/load-rules.ts";
import { asOf, inventedCase, type InventedDiameter } from "./invented-case.ts";

const rules = loadRules();

function found(
  diameters: InventedDiameter[],
  facts: Partial<CaseFacts> = {},
  patient: Partial<PatientCase["patient"]> = {},
  among = rules,
) {
  const one = inventedCase(diameters, facts, patient);
  return disagreements(evaluateRules(one, among, { asOf, readingSdMmOf: () => null }), among);
}

describe("published limits that differ", () => {
  test("thoraco-abdominal: 60 against 55 mm, with outcome and mark", () => {
    const [only, ...others] = found([{ place: "zone-6", mm: 57 }], {
      diagnoses: ["thoraco-abdominal aneurysm"],
    });
    expect(others).toEqual([]);
    expect(only?.about.id).toBe("zone-6");
    expect(only?.statements).toEqual([
      {
        rule: "acc-aha-2022-thoraco-abdominal-60-mm",
        body: "ACC/AHA",
        year: 2022,
        outcome: "not-met",
        limit: ">= 6.0 cm (not confirmed against the source)",
      },
      {
        rule: "eacts-sts-2024-thoraco-abdominal-55-mm",
        body: "EACTS/STS",
        year: 2024,
        outcome: "met",
        limit: ">= 55 mm (not confirmed against the source)",
      },
      {
        rule: "esc-2024-thoraco-abdominal-60-mm",
        body: "ESC",
        year: 2024,
        outcome: "not-met",
        limit: ">= 60 mm",
      },
    ]);
    expect(only?.sentence).toBe(
      "Published limits differ (zone 6): ACC/AHA 2022 >= 6.0 cm (not confirmed against the source): not met; EACTS/STS 2024 >= 55 mm (not confirmed against the source): met; ESC 2024 >= 60 mm: not met.",
    );
  });

  test("chronic type B: a condition of one side is said", () => {
    const [only] = found([{ place: "zone-4", mm: 61 }], {
      diagnoses: ["type B dissection"],
      onsetDate: "2024-01-01",
    });
    expect(only?.statements.map(({ limit, outcome }) => [limit, outcome])).toEqual([
      [">= 5.5 cm (not confirmed against the source)", "met"],
      [">= 55 mm (not confirmed against the source)", "met"],
      [">= 60 mm, if reasonable surgical risk", "not-assessable"],
    ]);
  });

  test("with valve surgery: compared among themselves, also where every side is not met", () => {
    const [only, ...others] = found([{ place: "mid-ascending", mm: 44 }], {
      considered: ["aortic valve surgery"],
    });
    expect(others).toEqual([]);
    expect(only?.sentence).toContain("(mid-ascending aorta, with aortic valve surgery): ");
    expect(only?.statements.map(({ limit }) => limit)).toContain(">= 50 mm");
  });

  test("abdominal aneurysm of a woman: one body prints no limit of its own for women", () => {
    const [only] = found([{ place: "zone-9", mm: 52 }], {}, { sex: "F" });
    expect(only?.statements.map(({ body, outcome }) => [body, outcome])).toEqual([
      ["ACC/AHA", "met"],
      ["ESC", "met"],
      ["ESVS", "met"],
      ["NICE", "not-met"],
      ["SVS", "met"],
    ]);
  });

  test("a sign that differs is a difference", () => {
    const [only] = found([{ place: "sinuses-of-valsalva", mm: 45 }], {
      aetiology: "Loeys-Dietz TGFBR1",
    });
    expect(only?.statements.map(({ body, outcome }) => [body, outcome])).toEqual([
      ["ACC/AHA", "met"],
      ["EACTS/STS", "met"],
      ["ESC", "not-met"],
    ]);
  });
});

describe("no disagreement", () => {
  test("where all name the same limit", () => {
    expect(found([{ place: "mid-ascending", mm: 56 }])).toEqual([]);
    expect(found([{ place: "zone-9", mm: 56 }])).toEqual([]);
  });

  test("between 5.0 and 5.0 to 5.4 cm; beyond the band its document speaks by its other limit", () => {
    const withOwnLimit = rules.filter(({ source }) => source.body !== "NICE");
    const at52 = found([{ place: "zone-9", mm: 52 }], {}, { sex: "F" }, withOwnLimit);
    expect(at52).toEqual([]);
    const [beyond] = found([{ place: "zone-9", mm: 57 }], {}, { sex: "F" });
    expect(beyond?.statements.map(({ limit }) => limit)).toContain(
      ">= 5.5 cm, if fusiform aneurysm and low or acceptable surgical risk",
    );
  });

  test("between different populations: the abdominal limit of Marfan syndrome and the general one", () => {
    const marfan = found([{ place: "zone-9", mm: 52 }], { aetiology: "Marfan" });
    expect(marfan).toEqual([]);
  });

  test("where nothing can be answered", () => {
    const open = found([{ place: "zone-6", mm: 57 }], {
      diagnoses: ["thoraco-abdominal aneurysm"],
      priorRepairs: null,
    });
    expect(open).toEqual([]);
  });
});
