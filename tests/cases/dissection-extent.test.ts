import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type DissectionExtent, dissectionExtent } from "../../src/cases/dissection-extent.ts";
import type { Measurement } from "../../src/cases/patient-case.ts";
import {
  examDate,
  everyZone,
  sampleExam,
  type SampleFinding,
  sampleFindings,
  sampleLumen,
} from "./sample-dissection.ts";

function extentOf(
  rows: readonly SampleFinding[],
  measurements: readonly Measurement[] = [],
): DissectionExtent {
  const extent = dissectionExtent(sampleExam(), measurements, sampleFindings(rows));
  if (!extent) throw new Error("the exam speaks of no dissection");
  return extent;
}
const zonesOf = ({ zones }: DissectionExtent) => zones.map(({ zone, state }) => `${zone} ${state}`);

describe("which zones are dissected", () => {
  test("a false and a true lumen, a false lumen's state and both tears show it", () => {
    const extent = extentOf(
      [
        ["zone-4", "false lumen", "completely thrombosed"],
        ["zone-3", "entry tear", "present"],
        ["zone-9", "re-entry tear", "present"],
      ],
      [sampleLumen("mid-ascending", "true"), sampleLumen("zone-10-left", "false")],
    );
    expect(zonesOf(extent)).toEqual([
      "0 dissected",
      "3 dissected",
      "4 dissected",
      "9 dissected",
      "10-left dissected",
    ]);
    expect(extent.zones.flatMap(({ because }) => because)).toEqual([
      "a true lumen was measured in zone 0 (mid-ascending aorta)",
      "the entry tear was seen in zone 3",
      "a completely thrombosed false lumen was seen in zone 4",
      "the re-entry tear was seen in zone 9",
      "a false lumen was measured in zone 10 left",
    ]);
  });

  test("the whole lumen, a branch fed by the false lumen and a lumen in a branch show nothing", () => {
    const rows: SampleFinding[] = [
      ["left-renal-artery", "fed by", "false lumen"],
      ["left-renal-artery", "malperfusion", "clinical"],
      ["innominate-artery", "dissection", "present"],
    ];
    const lumens = [sampleLumen("zone-4", "whole"), sampleLumen("innominate-artery", "false")];
    expect(dissectionExtent(sampleExam(), lumens, sampleFindings(rows))).toBeNull();
  });

  test("another exam's findings do not count", () => {
    const other = sampleFindings([["zone-4", "dissection", "present"]], "2020-01-01");
    expect(dissectionExtent(sampleExam(), [], other)).toBeNull();
  });

  test("an absence holds for a zone or range as a whole, and not for the zone around one level", () => {
    const extent = extentOf([
      ["aortic-arch", "dissection", "absent"],
      ["mid-ascending", "dissection", "absent"],
      ["suprarenal-aorta", "dissection", "absent"],
    ]);
    expect(zonesOf(extent)).toEqual([
      "1 not dissected",
      "2 not dissected",
      "6 not dissected",
      "7 not dissected",
    ]);
    expect(extent.notes).toEqual([
      "no dissection was seen at mid-ascending aorta, which counts for no single zone; it touches zone 0",
    ]);
  });

  test("a border and a range count for no single zone, and are said", () => {
    const extent = extentOf([
      ["proximal-descending", "dissection", "present"],
      ["descending-thoracic-aorta", "false lumen", "patent"],
      ["sinuses-of-valsalva", "dissection", "present"],
    ]);
    expect(extent.zones).toEqual([]);
    expect(extent.words).toBe("type not derivable");
    expect(extent.notes).toEqual([
      "dissection was seen at proximal descending aorta, 2 cm distal to the left subclavian, which counts for no single zone; it touches zone 3, zone 4",
      "a patent false lumen was seen at descending thoracic aorta, which counts for no single zone; it touches zone 3, zone 4, zone 5",
      "dissection was seen at sinuses of Valsalva, upstream of zone 0",
    ]);
  });

  test("contradictory statements make a zone unknown and are printed", () => {
    const extent = extentOf(
      [["zone-4", "dissection", "absent"]],
      [sampleLumen("zone-3", "false"), sampleLumen("zone-4", "false")],
    );
    expect(zonesOf(extent)).toEqual(["3 dissected", "4 contradictory"]);
    expect(extent.distal).toEqual({ zone: 3, isExact: false });
    expect(extent.notes).toEqual([
      "zone 4 is contradictory: a false lumen was measured in zone 4; no dissection was seen in zone 4",
    ]);
  });

  test("a free zone between dissected ones is printed", () => {
    const extent = extentOf([
      ["zone-3", "dissection", "present"],
      ["zone-4", "dissection", "absent"],
      ["zone-5", "dissection", "present"],
    ]);
    expect(extent.notes).toEqual(["zone 4 between dissected zones is not dissected"]);
  });

  test("everything it stands on is named by key", () => {
    const lumen = sampleLumen("zone-3", "false");
    const extent = extentOf([["zone-0", "entry tear", "not found"]], [lumen]);
    expect(extent.used).toEqual([lumen.key, `F0-${examDate}`]);
    expect(extent.zones[0]?.used).toEqual([lumen.key]);
    expect(extent.entry.used).toEqual([`F0-${examDate}`]);
  });
});

describe("ends", () => {
  test.each<[string, SampleFinding[], string]>([
    [
      "nothing on either side",
      [["zone-4", "dissection", "present"]],
      "at least from zone 4, at least to zone 4",
    ],
    [
      "both next zones free",
      [
        ["zone-3", "dissection", "absent"],
        ["zone-4", "dissection", "present"],
        ["zone-5", "dissection", "absent"],
      ],
      "from zone 4, to zone 4",
    ],
    [
      "zone 0 has nothing above it",
      [["zone-0", "dissection", "present"]],
      "from zone 0, at least to zone 0",
    ],
    [
      "below zone 9 both sides must be free",
      [
        ["zone-9", "dissection", "present"],
        ["zone-10-left", "dissection", "absent"],
      ],
      "at least from zone 9, at least to zone 9",
    ],
    [
      "zone 9 with both sides free",
      [
        ["zone-8", "dissection", "absent"],
        ["zone-9", "dissection", "present"],
        ["zone-10-left", "dissection", "absent"],
        ["zone-10-right", "dissection", "absent"],
      ],
      "from zone 9, to zone 9",
    ],
    [
      "zone 10 with the external iliac free and the other side free",
      [
        ["zone-9", "dissection", "present"],
        ["zone-10-left", "dissection", "present"],
        ["zone-11-left", "dissection", "absent"],
        ["zone-10-right", "dissection", "absent"],
      ],
      "at least from zone 9, to zone 10 left",
    ],
    [
      "zone 10 with the other side unknown",
      [
        ["zone-10-left", "dissection", "present"],
        ["zone-11-left", "dissection", "absent"],
      ],
      "at least from zone 10, at least to zone 10 left",
    ],
    [
      "zone 11 is the last, on either side",
      [
        ["zone-11-left", "dissection", "present"],
        ["zone-11-right", "dissection", "present"],
      ],
      "at least from zone 11, to zone 11 left and right",
    ],
  ])("%s", (_, rows, expected) => {
    expect(extentOf(rows).words).toBe(`type not derivable, ${expected}`);
  });
});

describe("type by entry tear", () => {
  const zeroDissected: SampleFinding = ["ascending-aorta", "dissection", "present"];
  const zeroFree: SampleFinding = ["ascending-aorta", "dissection", "absent"];
  const notFound: SampleFinding = ["thoracic-aorta", "entry tear", "not found"];
  const tear = (place: string): SampleFinding => [place, "entry tear", "present"];
  test.each<[string, SampleFinding[], DissectionExtent["type"], string]>([
    ["in zone 0", [tear("mid-ascending")], "A", "mid-ascending aorta, in zone 0"],
    ["in zone 0 and beyond", [tear("zone-3"), tear("zone-0")], "A", "in zone 0"],
    ["in zone 1", [tear("zone-1"), zeroDissected], "B", "zone 1, in zone 1 or beyond"],
    ["on the border of zones 3 and 4", [tear("proximal-descending")], "B", "in zone 1 or beyond"],
    ["somewhere in the thoracic aorta", [tear("thoracic-aorta")], null, "in no single zone"],
    ["in the root", [tear("sinuses-of-valsalva")], null, "in no single zone"],
    ["at a branch", [tear("left-subclavian-artery")], null, "in no single zone"],
    ["none found, zone 0 dissected", [notFound, zeroDissected], "I", "zone 0 dissected"],
    ["none found, zone 0 free", [notFound, zeroFree], "B", "recalled, not compared"],
    ["none found, zone 0 unknown", [notFound], null, "whether zone 0 is dissected"],
    ["not mentioned", [zeroDissected], null, "nothing is said of an entry tear"],
    [
      "seen and not found at one place",
      [tear("zone-3"), ["zone-3", "entry tear", "not found"]],
      null,
      "another found none",
    ],
    [
      "seen in one and not found in another",
      [tear("zone-3"), notFound],
      "B",
      "in zone 1 or beyond",
    ],
  ])("%s", (_, rows, type, because) => {
    const extent = extentOf(rows);
    expect(extent.type).toBe(type);
    expect(extent.typeBecause).toContain(because);
    expect(extent.typeConfirmed).toBe(!because.includes("recalled"));
  });
});

const zone = fc.integer({ min: 0, max: 11 });

describe("properties", () => {
  test("when every zone is stated, both ends are exact and are the stated ones", () => {
    fc.assert(
      fc.property(zone, zone, fc.constantFrom("left" as const, "right" as const), (a, b, side) => {
        const [first, last] = [Math.min(a, b), Math.max(a, b)];
        const { proximal, distal } = extentOf(everyZone(first, last, side));
        expect(proximal).toEqual({ zone: first, isExact: true });
        expect(distal).toEqual({ zone: last, isExact: true });
      }),
    );
  });

  test("leaving statements out never moves an end outwards and never makes a wrong one exact", () => {
    fc.assert(
      fc.property(
        fc.tuple(zone, zone).chain(([a, b]) => {
          const [first, last] = [Math.min(a, b), Math.max(a, b)];
          const some = fc.shuffledSubarray(everyZone(first, last, "left"), { minLength: 1 });
          return fc.record({ first: fc.constant(first), last: fc.constant(last), some });
        }),
        ({ first, last, some }) => {
          const { proximal, distal } = extentOf(some);
          if (proximal === null || distal === null) return;
          expect(proximal.zone).toBeGreaterThanOrEqual(first);
          expect(distal.zone).toBeLessThanOrEqual(last);
          if (proximal.isExact) expect(proximal.zone).toBe(first);
          if (distal.isExact) expect(distal.zone).toBe(last);
        },
      ),
    );
  });

  test("the order of the findings changes nothing but the order of keys", () => {
    fc.assert(
      fc.property(zone, zone, (a, b) => {
        const findings = sampleFindings(everyZone(Math.min(a, b), Math.max(a, b), "left"));
        const one = dissectionExtent(sampleExam(), [], findings);
        const other = dissectionExtent(sampleExam(), [], findings.toReversed());
        expect({ ...other, used: [] }).toEqual({ ...one, used: [] });
      }),
    );
  });
});
