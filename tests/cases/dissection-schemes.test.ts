import { describe, expect, test } from "vitest";
import { dissectionExtent } from "../../src/cases/dissection-extent.ts";
import { parseDissectionNotation } from "../../src/cases/dissection-notation.ts";
import { pictureOf, schemesOf, type Scheme } from "../../src/cases/dissection-schemes.ts";
import { malperfusionOf } from "../../src/cases/malperfusion.ts";
import { everyZone, sampleExam, type SampleFinding, sampleFindings } from "./sample-dissection.ts";

function schemesFor(
  words: string | null,
  rows: readonly SampleFinding[] = [],
  malperfusion: string | null = null,
): Record<Scheme["scheme"], Scheme> {
  const notation = words === null ? null : parseDissectionNotation(words);
  if (notation !== null && "problem" in notation) throw new Error(notation.problem);
  const findings = sampleFindings(rows);
  const seen = dissectionExtent(sampleExam(), [], findings);
  const flow = malperfusionOf(malperfusion, [sampleExam()], findings);
  const schemes = schemesOf(pictureOf(notation, seen), flow);
  return Object.fromEntries(schemes.map((one) => [one.scheme, one])) as Record<
    Scheme["scheme"],
    Scheme
  >;
}
const tear = (place: string): SampleFinding => [place, "entry tear", "present"];

describe("Stanford", () => {
  test.each<[string | null, SampleFinding[], string | null]>([
    ["A_0", [], "A"],
    ["B_0,9", [], "A"],
    ["I_3", [], "A"],
    ["B_2,9", [], "non-A-non-B"],
    ["B_3,9", [], "B"],
    ["A", [], "A"],
    ["B", [], null],
    ["B", everyZone(3, 9, "left"), "B"],
    [null, everyZone(1, 2, "left"), "non-A-non-B"],
    [null, [["zone-4", "dissection", "present"]], null],
    [
      null,
      [
        ["zone-0", "dissection", "absent"],
        ["zone-2", "dissection", "present"],
      ],
      "non-A-non-B",
    ],
    [null, everyZone(12, 12, "left"), null],
  ])("%s %j: %s", (words, rows, value) => {
    expect(schemesFor(words, rows).Stanford.value).toBe(value);
  });
});

describe("DeBakey", () => {
  test.each<[string | null, SampleFinding[], string | null, string]>([
    ["A_1", [], "I", "goes beyond"],
    ["A_0", [], "II", "stays there"],
    ["A", [], null, "whether it goes beyond the ascending aorta is not known"],
    ["A", [["zone-1", "dissection", "absent"]], "II", "stays there"],
    ["B_3,5", [], "IIIa", "stays above"],
    ["B_3,6", [], "IIIb", "goes below"],
    ["B_3,10", [], "IIIb", "goes below"],
    ["B_2,9", [tear("zone-3")], null, "runs back into the arch"],
    ["B_2,9", [tear("zone-2")], null, "a start in the arch has no type"],
    ["B_2,9", [], null, "not clear"],
    ["B_0,9", [tear("zone-4")], null, "left to the reader"],
    ["B_7,9", [], null, "abdominal"],
    ["B_10,11", [], null, "not clear"],
    ["B", [], null, "not stated"],
    ["I_9", [], null, "no entry tear was found"],
    [null, [tear("zone-3")], null, "whether zones 0 to 2"],
    [
      null,
      [tear("zone-4"), ...everyZone(4, 5, "left").slice(0, 6)],
      null,
      "below the diaphragm is not known",
    ],
  ])("%s %j: %s, %s", (words, rows, value, because) => {
    const { DeBakey } = schemesFor(words, rows);
    expect(DeBakey.value).toBe(value);
    expect(DeBakey.because).toContain(because);
  });
});

describe("TEM", () => {
  test.each<[string | null, SampleFinding[], string | null, string | null]>([
    ["B_1,9", [], "none", "non-A-non-B E? M0"],
    ["B_1,9", [tear("zone-4")], "none", "non-A-non-B E3 M0"],
    ["B_0,9", [tear("zone-1"), tear("zone-2")], "none", "A E2 M0"],
    ["A_9", [tear("zone-0"), tear("zone-4")], "none", "A E? M0"],
    ["B_3,9", [tear("zone-10-left")], null, "B E? M?"],
    ["A_9", [], null, "A E1 M?"],
    ["A_9", [], "left renal absent", "A E1 M?"],
    ["A_9", [], "left renal", "A E1 M3"],
    ["A_9", [], "left renal silent, right leg clinical", "A E1 M3+"],
    ["A_9", [], "left renal silent, right leg", "A E1 M3"],
    ["A_9", [], "coronary clinical, left arm silent", "A E1 M1+ M2-"],
    ["A_9", [], "spinal cord clinical", "A E1 M?"],
    ["A_9", [], "spinal cord clinical, left leg silent", "A E1 M3-"],
    ["A_9", [["left-renal-artery", "malperfusion", "clinical"]], "none", "A E1 M?"],
    ["A_9", [["left-renal-artery", "malperfusion", "clinical"]], "left renal silent", "A E1 M3"],
    [null, [["thoracic-aorta", "entry tear", "not found"]], null, "type? E0 M?"],
    [null, [["proximal-descending", "entry tear", "present"]], null, "type? E3 M?"],
    ["B", [], null, null],
  ])("%s %j %s: %s", (words, rows, malperfusion, value) => {
    expect(schemesFor(words, rows, malperfusion).TEM.value).toBe(value);
  });
});

describe("SVS/STS 2020", () => {
  test.each<[string | null, SampleFinding[], string | null]>([
    ["B3-10 left", [], "B_3,10 left"],
    ["type B", [], "B"],
    [null, [tear("zone-3")], "type B, at least from zone 3, at least to zone 3"],
    [null, [["zone-3", "dissection", "present"]], null],
  ])("%s %j: %s", (words, rows, value) => {
    expect(schemesFor(words, rows)["SVS/STS 2020"].value).toBe(value);
  });

  test("a type by the rule that was not compared says so", () => {
    const rows: SampleFinding[] = [
      ["ascending-aorta", "dissection", "absent"],
      ["thoracic-aorta", "entry tear", "not found"],
    ];
    expect(schemesFor(null, rows)["SVS/STS 2020"]).toMatchObject({
      value: "type B",
      confirmed: false,
      because: expect.stringContaining("recalled, not compared"),
    });
    expect(schemesFor("B_3,9", rows)["SVS/STS 2020"].confirmed).toBe(true);
  });

  test("every scheme names its source", () => {
    for (const { source } of Object.values(schemesFor("A_9"))) expect(source).toMatch(/\d{4}/);
  });
});
