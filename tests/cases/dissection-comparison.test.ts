import { describe, expect, test } from "vitest";
import { compareDiagnoses, compareNotation } from "../../src/cases/dissection-comparison.ts";
import { dissectionExtent } from "../../src/cases/dissection-extent.ts";
import { parseDissectionNotation } from "../../src/cases/dissection-notation.ts";
import type { Measurement } from "../../src/cases/patient-case.ts";
import {
  everyZone,
  sampleExam,
  type SampleFinding,
  sampleFindings,
  sampleLumen,
} from "./sample-dissection.ts";

function compare(
  words: string,
  rows: readonly SampleFinding[],
  measurements: readonly Measurement[] = [],
  repaired: ReadonlyMap<string, string> = new Map(),
) {
  const stated = parseDissectionNotation(words);
  const seen = dissectionExtent(sampleExam(), measurements, sampleFindings(rows));
  if ("problem" in stated || seen === null) throw new Error(`nothing to compare: ${words}`);
  return compareNotation(stated, seen, repaired);
}
const tear = (place: string): SampleFinding => [place, "entry tear", "present"];
const none: SampleFinding = ["thoracic-aorta", "entry tear", "not found"];

describe("compareNotation agrees", () => {
  test.each<[string, SampleFinding[]]>([
    ["A_9", [...everyZone(0, 9, "left"), tear("zone-0")]],
    ["B_3,9", [...everyZone(3, 9, "left"), tear("zone-3")]],
    ["B_0,10 left", [...everyZone(0, 10, "left"), tear("zone-3")]],
    ["I_8", [...everyZone(0, 8, "left"), none]],
    ["B_4,5", [...everyZone(4, 5, "left"), none]],
  ])("%s", (words, rows) => {
    expect(compare(words, rows)).toMatchObject({ verdict: "agrees", reasons: [], open: [] });
  });
});

describe("after a repair the exam can't show what was stated", () => {
  const graft = new Map([["0", "zone 0: graft since 2021"]]);

  test("a replaced zone without a dissection, and a tear further on, leave type A open", () => {
    const rows: SampleFinding[] = [["zone-0", "dissection", "absent"], tear("zone-2")];
    expect(compare("A_9", rows).verdict).toBe("contradicts");
    const comparison = compare("A_9", rows, [], graft);
    expect(comparison).toMatchObject({ verdict: "not contradicted", reasons: [] });
    expect(comparison.open.slice(0, 2)).toEqual([
      "stated type A; entry tear seen in zone 2 (since the repair it can't be seen: zone 0: graft since 2021)",
      "what is stated of repaired zones (since the repair it can't be seen: zone 0: graft since 2021)",
    ]);
  });

  test("a lumen beyond the stated end still contradicts", () => {
    const lumens = [sampleLumen("zone-10-left", "false")];
    expect(compare("A_9", [], lumens, graft).verdict).toBe("contradicts");
  });
});

describe("compareNotation contradicts", () => {
  test("a lumen beyond either end, each in words", () => {
    const lumens = [sampleLumen("zone-10-left", "false"), sampleLumen("zone-1", "true")];
    const comparison = compare("B_3,9", [], lumens);
    expect(comparison.verdict).toBe("contradicts");
    expect(comparison.reasons).toEqual([
      "stated from zone 3; a true lumen was measured in zone 1",
      "stated to zone 9; a false lumen was measured in zone 10 left",
    ]);
    expect(comparison.used).toEqual(lumens.map(({ key }) => key));
  });

  test.each<[string, SampleFinding[], string[]]>([
    ["A_9", [tear("zone-3")], ["stated type A; entry tear seen in zone 3"]],
    ["B_0,9", [tear("mid-ascending")], ["stated type B; entry tear seen in zone 0"]],
    [
      "I_8",
      [tear("proximal-descending")],
      [
        "stated type I (no entry tear found); entry tear seen at proximal descending aorta, 2 cm distal to the left subclavian",
      ],
    ],
    ["B", [tear("zone-0")], ["stated type B; entry tear seen in zone 0"]],
    [
      "B_3,5",
      [["zone-4", "dissection", "absent"]],
      ["stated B_3,5; no dissection was seen in zone 4"],
    ],
    [
      "A",
      [["ascending-aorta", "dissection", "absent"]],
      ["stated A; no dissection was seen in zone 0 (ascending aorta)"],
    ],
    [
      "B_3,5",
      [["abdominal-aorta", "dissection", "present"]],
      ["stated to zone 5; dissection was seen at abdominal aorta"],
    ],
    [
      "B_3,5",
      [["sinuses-of-valsalva", "false lumen", "patent"]],
      [
        "stated from zone 3; a patent false lumen was seen at sinuses of Valsalva, upstream of zone 0",
      ],
    ],
    [
      "B_3,10",
      [
        ["zone-10-left", "dissection", "absent"],
        ["zone-10-right", "dissection", "absent"],
      ],
      ["stated to zone 10; no dissection was seen in it on either side"],
    ],
  ])("%s, %j", (words, rows, reasons) => {
    expect(compare(words, rows)).toMatchObject({ verdict: "contradicts", reasons, open: [] });
  });
});

describe("compareNotation leaves open", () => {
  test.each<[string, SampleFinding[], string[]]>([
    [
      "B_3,9",
      [tear("zone-3")],
      [
        "the proximal end: the exam does not say that the zone above it is free",
        "the distal end: stated zone 9; dissection shown as far as zone 3",
      ],
    ],
    ["A_9", [...everyZone(0, 9, "left"), none], ["stated type A; this exam found no entry tear"]],
    ["B_3,9", everyZone(3, 9, "left"), ["the type: nothing is said of an entry tear"]],
    ["A_10", [...everyZone(0, 10, "left"), tear("zone-0")], ["the side: stated none; shown left"]],
    [
      "A_11 right",
      [["zone-10-left", "dissection", "present"], tear("zone-0")],
      [
        "the distal end: stated zone 11; dissection shown as far as zone 10",
        "the side: stated right; shown left",
      ],
    ],
    ["A", [tear("zone-0")], ["the zones: the notation states no extent"]],
    [
      "B_3,9",
      [["abdominal-aorta", "dissection", "present"]],
      [
        "the type: nothing is said of an entry tear",
        "the proximal end: no single zone is shown to be dissected",
        "the distal end: no single zone is shown to be dissected",
      ],
    ],
  ])("%s, %j", (words, rows, open) => {
    expect(compare(words, rows)).toMatchObject({ verdict: "not contradicted", reasons: [], open });
  });

  test("a dissected root contradicts no dissection of zone 0", () => {
    const root: SampleFinding = ["sinuses-of-valsalva", "dissection", "present"];
    expect(compare("A_9", [root]).reasons).toEqual([]);
    expect(compare("B_0,9", [root]).reasons).toEqual([]);
  });

  test("a zone with contradictory statements contradicts no notation", () => {
    const lumen = sampleLumen("zone-6", "false");
    const { verdict } = compare("B_3,5", [["zone-6", "dissection", "absent"]], [lumen]);
    expect(verdict).toBe("not contradicted");
  });
});

describe("compareDiagnoses", () => {
  test.each([
    ["type A dissection", "B", "A", "agrees"],
    ["type B dissection", "B", "A", "agrees"],
    ["type B dissection", "B", "non-A-non-B", "agrees"],
    ["type A dissection", "I", "A", "agrees"],
    ["type B dissection", "I", "A", "contradicts"],
    ["type A dissection", "B", "B", "contradicts"],
    ["type B dissection", "A", "A", "contradicts"],
    ["type A dissection", "B", null, "not contradicted"],
    ["type B dissection", null, null, "not contradicted"],
  ] as const)(
    "%s beside %s by tear and %s by involvement: %s",
    (diagnosis, tear, type, verdict) => {
      const [comparison] = compareDiagnoses([diagnosis, "aneurysm"], tear, type);
      expect(comparison?.verdict).toBe(verdict);
      expect(comparison?.sentence).toBe(
        `the case sheet says ${diagnosis}; by entry tear (SVS/STS 2020) it is ${tear ?? "not assessable"}, by involvement (Stanford) ${type ?? "not assessable"}`,
      );
    },
  );

  test("other diagnoses are passed over", () => {
    expect(compareDiagnoses(["aneurysm", "intramural haematoma"], "A", "A")).toEqual([]);
  });
});
