/*
 * Sources, beside each group of checks below:
 * - Type and subscripts: SVS/STS 2020 reporting standard (J Vasc Surg 2020;71:723-47) as reproduced in ESC 2024
 *   (Eur Heart J 2024, doi 10.1093/eurheartj/ehae179), figure 29, page 3620; compared by the labels of the figure.
 * - Time bands: ESC 2024, section 9.3.1, page 3618; Booher et al., IRAD classification, Am J Med 2013;126:730.e19-24,
 *   abstract.
 * - Type, entry, malperfusion: Sievers et al., Interact Cardiovasc Thorac Surg 2020;30:451-7, abstract.
 * - DeBakey I to IIIb and Stanford: second-hand, from a reference text on aortic dissection of 2023.
 * The zones are those of the ACC/AHA 2022 figure (see zone-borders.test.ts). All cases are invented.
 */
import { describe, expect, test } from "vitest";
import { dissectionAge } from "../../src/cases/dissection-bands.ts";
import { compareNotation } from "../../src/cases/dissection-comparison.ts";
import { dissectionExtent } from "../../src/cases/dissection-extent.ts";
import {
  formatDissectionNotation,
  parseDissectionNotation,
} from "../../src/cases/dissection-notation.ts";
import { dissectionOf } from "../../src/cases/dissection.ts";
import {
  dissectionCase,
  everyZone,
  sampleExam,
  type SampleFinding,
  sampleFindings,
} from "../cases/sample-dissection.ts";

/**
 * Figure 29: A = entry tear in zone 0, distal subscript; B = entry tear in zone 1 or beyond, proximal and distal
 * subscript; I = no entry tear identified and zone 0 involved, distal subscript.
 */
const figure29 = [
  { entry: 0, first: 0, last: 0, notation: "A_0" },
  { entry: 0, first: 0, last: 2, notation: "A_2" },
  { entry: 0, first: 0, last: 5, notation: "A_5" },
  { entry: 0, first: 0, last: 9, notation: "A_9" },
  { entry: 0, first: 0, last: 11, notation: "A_11 left" },
  { entry: 1, first: 1, last: 4, notation: "B_1,4" },
  { entry: 1, first: 0, last: 9, notation: "B_0,9" },
  { entry: 2, first: 1, last: 5, notation: "B_1,5" },
  { entry: 2, first: 2, last: 2, notation: "B_2,2" },
  { entry: 3, first: 3, last: 9, notation: "B_3,9" },
  { entry: 3, first: 0, last: 10, notation: "B_0,10 left" },
  { entry: 3, first: 2, last: 8, notation: "B_2,8" },
  { entry: 4, first: 4, last: 5, notation: "B_4,5" },
  { entry: 5, first: 3, last: 6, notation: "B_3,6" },
  { entry: 9, first: 9, last: 9, notation: "B_9,9" },
  { entry: null, first: 0, last: 0, notation: "I_0" },
  { entry: null, first: 0, last: 8, notation: "I_8" },
  { entry: null, first: 0, last: 11, notation: "I_11 left" },
];
type Row = (typeof figure29)[number];

function seenFor({ entry, first, last }: Row) {
  const tear: SampleFinding =
    entry === null
      ? ["thoracic-aorta", "entry tear", "not found"]
      : [`zone-${entry}`, "entry tear", "present"];
  const findings = sampleFindings([...everyZone(first, last, "left"), tear]);
  const seen = dissectionExtent(sampleExam(), [], findings);
  if (!seen) throw new Error("nothing seen");
  return seen;
}
function read(words: string) {
  const parsed = parseDissectionNotation(words);
  if ("problem" in parsed) throw new Error(parsed.problem);
  return parsed;
}

describe("SVS/STS 2020, figure 29 of ESC 2024", () => {
  test.each(figure29)("entry tear in $entry, zones $first to $last: $notation", (row) => {
    const seen = seenFor(row);
    expect(seen.type).toBe(row.notation[0]);
    expect(seen.proximal).toEqual({ zone: row.first, isExact: true });
    expect(seen.distal).toEqual({ zone: row.last, isExact: true });
    expect(compareNotation(read(row.notation), seen, new Map())).toMatchObject({
      verdict: "agrees",
    });
  });

  test("each of these dissections agrees with its own notation and with no other", () => {
    for (const row of figure29) {
      const agreeing = figure29
        .map(({ notation }) => notation)
        .filter(
          (words) => compareNotation(read(words), seenFor(row), new Map()).verdict === "agrees",
        );
      expect(agreeing).toEqual([row.notation]);
    }
  });

  test.each([
    ["A", 1],
    ["B", 2],
    ["I", 1],
  ])("type %s has %i subscripts", (type, count) => {
    const own = figure29.filter(({ notation }) => notation.startsWith(type));
    for (const { notation } of own) {
      expect(formatDissectionNotation(read(notation)).match(/\d+/g)).toHaveLength(count);
    }
    expect(parseDissectionNotation(count === 1 ? `${type}_0,9` : `${type}_9`)).toHaveProperty(
      "problem",
    );
  });

  test("the figure's scales run to 12 and no text seen defines zone 12: it is refused with that reason", () => {
    expect(parseDissectionNotation("B_3,11")).not.toHaveProperty("problem");
    expect(parseDissectionNotation("B_3,12")).toMatchObject({
      problem: expect.stringContaining("no text seen defines a zone 12"),
    });
  });
});

describe("time bands", () => {
  /** ESC 2024, 9.3.1: hyperacute < 24 h, acute 1-14 d, subacute 15-90 d, chronic > 90 d. IRAD: 24 h, 7 d, 30 d. */
  test.each([
    [0, "hyperacute or acute", "hyperacute or acute"],
    [2, "acute", "acute"],
    [7, "acute", "acute"],
    [8, "acute", "subacute"],
    [14, "acute", "subacute"],
    [15, "subacute", "subacute"],
    [30, "subacute", "subacute"],
    [31, "subacute", "chronic"],
    [90, "subacute", "chronic"],
    [91, "chronic", "chronic"],
  ])("day %i: %s by SVS/STS 2020, %s by IRAD", (day, svs, irad) => {
    const date = new Date(Date.UTC(2024, 0, 10 + day)).toISOString().slice(0, 10);
    const { bands } = dissectionAge("2024-01-10", date);
    expect(bands.map(({ scheme, band }) => [scheme, band])).toEqual([
      ["SVS/STS 2020", svs],
      ["IRAD 2013", irad],
    ]);
  });
});

describe("schemes side by side", () => {
  /** TEM: E0 not visible, 1 ascending, 2 arch, 3 descending; M1 coronary, 2 supra-aortic, 3 visceral, renal or leg. */
  test.each([
    { words: "A_11 right", entry: 0, flow: "none", stanford: "A", tem: "A E1 M0", deBakey: "I" },
    {
      words: "A_0",
      entry: 0,
      flow: "coronary clinical",
      stanford: "A",
      tem: "A E1 M1+",
      deBakey: "II",
    },
    {
      words: "B_3,9",
      entry: 3,
      flow: "left renal on imaging",
      stanford: "B",
      tem: "B E3 M3-",
      deBakey: "IIIb",
    },
    { words: "B_0,10 left", entry: 3, flow: "none", stanford: "A", tem: "A E3 M0", deBakey: null },
    { words: "I_8", entry: null, flow: "none", stanford: "A", tem: "A E0 M0", deBakey: null },
    {
      words: "B_1,5",
      entry: 2,
      flow: "none",
      stanford: "non-A-non-B",
      tem: "non-A-non-B E2 M0",
      deBakey: null,
    },
    { words: "B_4,5", entry: 4, flow: "none", stanford: "B", tem: "B E3 M0", deBakey: "IIIa" },
    {
      words: "A_9",
      entry: 0,
      flow: "left arm clinical",
      stanford: "A",
      tem: "A E1 M2+",
      deBakey: "I",
    },
  ])("$words, entry tear in $entry, $flow", ({ words, entry, flow, stanford, tem, deBakey }) => {
    const rows: SampleFinding[] =
      entry === null
        ? [["thoracic-aorta", "entry tear", "not found"]]
        : [[`zone-${entry}`, "entry tear", "present"]];
    const facts = { dissectionWords: words, malperfusionWords: flow };
    const dissection = dissectionOf(dissectionCase(facts, rows), "2024-06-01");
    const schemes = dissection?.schemes.map(({ scheme, value }) => [scheme, value]);
    expect(schemes).toEqual([
      ["SVS/STS 2020", words],
      ["Stanford", stanford],
      ["TEM", tem],
      ["DeBakey", deBakey],
    ]);
  });
});
