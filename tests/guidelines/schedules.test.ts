import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { placeById } from "../../src/anatomy/places.ts";
import { loadSchedules } from "../../src/guidelines/load-schedules.ts";
import { isRepairOfPart, isSizeOfPart, showsPart } from "../../src/guidelines/schedule-parts.ts";

const invented = `id: invented-2026-after-repair
title: An invented schedule
source:
  body: Invented
  year: 2026
  where: page 1
  doi: 10.0000/invented
recommendation: null
population:
  repaired: { part: thoracic, kinds: [graft] }
size:
  part: thoracic
  kind: diameter
  atLeast: 50
  unit: mm
  printed: "50 mm"
imaging:
  words: CT
  counts: [CT, MR]
  covers: [thoracic]
start:
  from: repair
due:
  at: [1, { from: 6, to: 12 }]
  phases:
    - every: 12
says: Nothing.
checked:
  how: from-memory
`;

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "schedules-"));
});
afterEach(() => rmSync(folder, { recursive: true }));

const name = "invented-2026-after-repair.yaml";
function write(text: string, under = "invented-2026", file = name): void {
  mkdirSync(join(folder, under), { recursive: true });
  writeFileSync(join(folder, under, file), text);
}

describe("a folder of schedules", () => {
  test("is read through its folders and sorted by id", () => {
    write(invented);
    write(invented.replace(/^id: .*$/m, "id: another"), "more", "another.yaml");
    expect(loadSchedules(folder).map(({ id }) => id)).toEqual([
      "another",
      "invented-2026-after-repair",
    ]);
  });

  const phases = "    - every: 12\n";
  test.each([
    ["no citation", invented.replace(/^source:(\n {2}.*)+\n/m, ""), /line 1 source: is missing/],
    ["no place in the source", invented.replace("  where: page 1\n", ""), /line 3 source\.where/],
    ["no doi", invented.replace("  doi: 10.0000/invented\n", ""), /line 3 source\.doi/],
    ["an empty doi", invented.replace("10.0000/invented", '""'), /line 7 source\.doi/],
    ["an unknown key", invented.replace("says:", "advice:"), /line 27 advice/],
    ["an unknown part", invented.replace("covers: [thoracic]", "covers: [aorta]"), /line 20 /],
    ["an unknown kind of repair", invented.replace("[graft]", "[stent]"), /line 10 .*kinds/],
    ["a wrong unit", invented.replace("unit: mm", "unit: cm/m2"), /line 15 size\.unit/],
    ["two lower bounds", invented.replace("atLeast: 50", "atLeast: 50\n  above: 40"), /two lower/],
    [
      "two upper bounds",
      invented.replace("atLeast: 50", "below: 50\n  atMost: 50"),
      /two upper bounds/,
    ],
    [
      "a span that ends before it begins",
      invented.replace("from: 6", "from: 12"),
      /line 24 due\.at/,
    ],
    [
      "no date",
      invented
        .replace("[1, { from: 6, to: 12 }]", "[]")
        .replace(`phases:\n${phases}`, "phases: []\n"),
      /line 23 due: names no date/,
    ],
    ["two phases without end", invented.replace(phases, phases + phases), /not the last/],
    [
      "a phase with an end but no one interval",
      invented.replace("every: 12", "every: { from: 6, to: 12 }\n      until: 60"),
      /needs one number/,
    ],
    [
      "fixed dates from the last exam",
      invented.replace("from: repair", "from: last exam"),
      /only an/,
    ],
    [
      "a repair to count from that it does not ask for",
      invented.replace(/^population:\n.*\n/m, "population: {}\n"),
      /counts from a repair/,
    ],
    [
      "another name than its id",
      invented.replace("id: inv", "id: Inv"),
      /not the name of the file/,
    ],
  ])("does not load with %s", (_, text, message) => {
    write(text);
    expect(() => loadSchedules(folder)).toThrow(message);
    expect(() => loadSchedules(folder)).toThrow(name);
  });

  test("does not load with the same id twice", () => {
    write(invented);
    write(invented, "other");
    expect(() => loadSchedules(folder)).toThrow("has the same id");
  });
});

describe("the schedules that ship", () => {
  const schedules = loadSchedules();

  test("a recalled one never claims a confirmed class or level", () => {
    for (const { id, checked, recommendation, due } of schedules) {
      const claimed = [recommendation, ...due.phases.map((phase) => phase.recommendation)];
      if (checked.how !== "from-memory") continue;
      expect(
        claimed.some((one) => one?.confirmed),
        id,
      ).toBe(false);
    }
  });

  test("an id says body and year", () => {
    for (const { id, source } of schedules) {
      const start = `${source.body.toLowerCase().replace("/", "-")}-${source.year}-`;
      expect(id.startsWith(start), id).toBe(true);
    }
  });

  test("a bound in mm is a printed number in mm or cm", () => {
    for (const { id, size } of schedules) {
      if (size?.unit !== "mm") continue;
      const perUnit = size.printed.includes("cm") ? 10 : 1;
      const printedMm = [...size.printed.matchAll(/\d+(?:\.\d)?/g)].map(([text]) =>
        Number((Number(text) * perUnit).toFixed(3)),
      );
      // "4.0 to 4.9 cm" and "40 to 44 mm" end below the next printed step.
      const step = size.below === undefined || !size.printed.includes(" to ") ? 0 : 1;
      const { above, atLeast, atMost, below } = size;
      const bounds = [above, atLeast, atMost, below === undefined ? below : below - step];
      expect(printedMm, `${id}: ${size.printed}`).toEqual(
        bounds.filter((bound) => bound !== undefined),
      );
    }
  });
});

describe("the parts of the aorta", () => {
  test.each([
    ["sinuses-of-valsalva", "root", true, true],
    ["aortic-annulus", "root", true, false],
    ["proximal-arch", "root or ascending", false, false],
    ["proximal-arch", "arch or descending", true, true],
    ["thoracic-aorta", "root", true, false],
    ["thoracic-aorta", "abdominal", false, false],
    ["at-coeliac-origin", "abdominal", false, true],
    ["at-coeliac-origin", "thoracic", false, false],
    ["abdominal-aorta", "thoracic", false, false],
    ["zone-6", "abdominal", true, true],
    ["zone-10-left", "abdominal", false, false],
    ["innominate-artery", "thoracic", false, false],
  ] as const)("%s shows the %s: %s, is a size of it: %s", (id, part, shows, isSize) => {
    expect(showsPart(placeById(id), part)).toBe(shows);
    expect(isSizeOfPart(placeById(id), part)).toBe(isSize);
  });

  test.each([
    [["root"], "root", true],
    [["0"], "root", false],
    [["5", "6"], "abdominal", false],
    [["5", "9"], "abdominal", true],
    [["5", "9"], "thoracic", true],
    [[], "thoracic", false],
  ] as const)("a repair of %j is one of the %s: %s", (zones, part, isOne) => {
    expect(isRepairOfPart(zones, part)).toBe(isOne);
  });
});
