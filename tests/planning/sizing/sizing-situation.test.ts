import { describe, expect, test } from "vitest";
import {
  endSituation,
  type EndFacts,
  type SituationFacts,
} from "../../../src/planning/sizing/sizing-situation.ts";

const asOf = "2026-01-15";
const native: EndFacts = { wall: "native", isDissected: false };
const facts = (more: Partial<SituationFacts> = {}): SituationFacts => ({
  diagnoses: ["type B dissection"],
  onsetDate: "2026-01-10",
  asOf,
  speaksOfDissection: true,
  ...more,
});

describe("the wall comes first", () => {
  test.each([
    ["graft", ["surgical-graft"]],
    ["stent graft", ["stent-graft"]],
  ] as const)("%s, whatever the diagnosis", (wall, ids) => {
    for (const diagnoses of [null, ["arch aneurysm"], ["type B dissection"]]) {
      expect(endSituation("proximal", { wall, isDissected: false }, facts({ diagnoses }))).toEqual({
        ids,
        lumen: "whole",
        missing: [],
      });
    }
  });

  test("a wall that is not clear says what would have to be known", () => {
    const wall = 'unclear: which zones were repaired ("invented repair")';
    expect(endSituation("distal", { wall, isDissected: false }, facts())).toMatchObject({
      ids: [],
      missing: ['the wall at the distal end (which zones were repaired ("invented repair"))'],
    });
  });
});

describe("dissection, by its age where the wall is not dissected", () => {
  // Days 14 and 15, 90 and 91: acute to 14, subacute to 90, chronic beyond (SVS/STS 2020 as printed by ESC 2024).
  test.each([
    ["2026-01-01", ["acute-dissection"], []],
    ["2025-12-31", [], ["an oversizing window for a subacute dissection: no source gives one"]],
    ["2025-10-17", [], ["an oversizing window for a subacute dissection: no source gives one"]],
    ["2025-10-16", ["chronic-dissection"], []],
    [null, [], ["onset date of the dissection (the onset date is not stated)"]],
    ["2026-02-01", [], [expect.stringContaining("is after 2026-01-15")]],
  ])("onset %s", (onsetDate, ids, missing) => {
    for (const end of ["proximal", "distal"] as const) {
      expect(endSituation(end, native, facts({ onsetDate }))).toEqual({
        ids,
        lumen: "whole",
        missing,
      });
    }
  });

  test("a distal end in dissected wall is sized by the true lumen at any age", () => {
    for (const onsetDate of [null, "2025-12-01", "2020-01-01"]) {
      const there = { wall: "native", isDissected: true } as const;
      expect(endSituation("distal", there, facts({ onsetDate }))).toEqual({
        ids: ["true-lumen-end"],
        lumen: "true",
        missing: [],
      });
    }
  });

  test("a proximal end in dissected wall has no window", () => {
    expect(endSituation("proximal", { ...native, isDissected: true }, facts())).toMatchObject({
      ids: [],
      lumen: "whole",
      missing: ["an oversizing window for a proximal end in dissected wall: no source gives one"],
    });
  });

  test("not known whether it is dissected: the distal end stops, the proximal one says so", () => {
    const unknown = { ...native, isDissected: null };
    expect(endSituation("distal", unknown, facts())).toMatchObject({
      ids: [],
      missing: ["whether the wall at the distal end is dissected"],
    });
    expect(endSituation("proximal", unknown, facts())).toMatchObject({
      ids: ["acute-dissection"],
      missing: ["whether the wall at the proximal end is dissected"],
    });
  });
});

describe("other diagnoses", () => {
  const other = (diagnoses: string[] | null, more: Partial<SituationFacts> = {}) =>
    facts({ diagnoses, speaksOfDissection: false, onsetDate: null, ...more });

  test.each([
    [null, [], ["diagnosis"]],
    [[], [], ["diagnosis"]],
    [["arch aneurysm"], ["aneurysm"], []],
    [["blunt traumatic injury"], ["blunt-trauma"], []],
    [
      ["penetrating ulcer"],
      [],
      ["an oversizing window for penetrating ulcer: no source gives one"],
    ],
    [["coarctation"], [], ["an oversizing window for coarctation: no source gives one"]],
    [
      ["aneurysm", "arch aneurysm", "coarctation"],
      ["aneurysm"],
      ["an oversizing window for coarctation: no source gives one"],
    ],
    [
      ["intramural haematoma"],
      [],
      ["onset date of the intramural haematoma (the onset date is not stated)"],
    ],
  ])("%j", (diagnoses, ids, missing) => {
    expect(endSituation("proximal", native, other(diagnoses))).toEqual({
      ids,
      lumen: "whole",
      missing,
    });
  });

  test("a haematoma has a window at the proximal end while it is acute", () => {
    const of = (end: "proximal" | "distal", onsetDate: string) =>
      endSituation(end, native, other(["intramural haematoma"], { onsetDate }));
    expect(of("proximal", "2026-01-10").ids).toEqual(["acute-haematoma"]);
    expect(of("proximal", "2025-01-10").missing).toEqual([
      "an oversizing window for a chronic intramural haematoma: no source gives one",
    ]);
    expect(of("distal", "2026-01-10").missing).toEqual([
      "an oversizing window for intramural haematoma: no source gives one",
    ]);
  });

  test("a dissection that the diagnosis does not name stops the window", () => {
    const spoken = other(["arch aneurysm"], { speaksOfDissection: true });
    expect(endSituation("proximal", native, spoken)).toMatchObject({
      ids: [],
      missing: ["the dissection in the diagnosis: other parts of the case speak of one"],
    });
  });
});
