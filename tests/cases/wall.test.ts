import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { placeById } from "../../src/anatomy/places.ts";
import type { PriorRepair } from "../../src/cases/patient-case.ts";
import { priorRepairsOf } from "../../src/cases/prior-repairs.ts";
import { repairKinds } from "../../src/cases/vocabulary.ts";
import { wallAt, wallsAt } from "../../src/cases/wall.ts";

const day = "2021-06-15";
const at = (placeId: string, cell: string, moment: "exam" | "present" = "exam") =>
  wallAt(placeById(placeId), priorRepairsOf(cell), day, moment);

describe("wallAt", () => {
  test("the wall names its repair", () => {
    expect(at("mid-arch", "TEVAR zones 2 to 4, 2020-02-03")).toEqual({
      kind: "stent graft",
      since: "2020-02-03",
      words: "TEVAR zones 2 to 4, 2020-02-03",
    });
    expect(at("zone-5", "TEVAR zones 2 to 4, 2020-02-03")).toEqual({
      kind: "native",
      since: null,
      words: null,
    });
  });

  test.each([
    ["zone-4", "elephant trunk zones 3 to 4, 2020-01-01", "elephant trunk"],
    ["zone-4", "FET zones 0 to 4, 2020-01-01", "frozen elephant trunk"],
    ["zone-4", "operation zones 3 to 4, 2020-01-01", "repaired, kind not stated"],
    ["zone-3", "graft zone 3, 2021-06-15", "graft"],
    ["zone-3", "graft zone 3, 2021-06-16", "native"],
    ["zone-3", "graft zone 3, 2021-05", "graft"],
    ["zone-3", "graft zone 3, 2022", "native"],
    ["zone-3", "graft zone 3, 2010; stent graft zone 3, 2015-03", "stent graft"],
    ["zone-3", "graft zone 3, 2010; stent graft zone 3, 2024", "graft"],
    ["zone-3", "operation, 2010; stent graft zone 3, 2015", "stent graft"],
    ["zone-3", "graft zone 3, 2010; graft zone 3, 2021", "graft"],
    ["zone-3", "operation, 2024", "native"],
    ["zone-3", "left carotid-subclavian bypass; AVR 2019", "native"],
    ["proximal-descending", "graft zones 3 to 4, 2020", "graft"],
    ["aortic-arch", "graft zone 1, 2018; graft zone 2, 2019", "graft"],
    ["sinuses-of-valsalva", "Bentall 2019", "graft"],
    ["aortic-root", "Bentall 2019", "graft"],
    ["sinotubular-junction", "Bentall, graft zone 0, 2019", "graft"],
    ["zone-1", "Bentall 2019", "native"],
    ["left-subclavian-artery", "graft zone 2, 2019", "graft"],
    ["right-subclavian-artery", "graft zone 0, 2019", "native"],
  ])("%s after %s: %s", (placeId, cell, kind) => {
    expect(at(placeId, cell)).toHaveProperty("kind", kind);
  });

  test.each([
    ["zone-3", "graft zone 3, 2021", 'whether "graft zone 3, 2021" was before or after 2021-06-15'],
    ["zone-3", "graft zone 3", 'whether "graft zone 3" was before or after 2021-06-15'],
    ["zone-3", "graft, 2020", 'which zones were repaired ("graft, 2020")'],
    [
      "zone-3",
      "graft zone 3, 2020; stent graft zone 3, 2020-05",
      'which came last, "graft zone 3, 2020" or "stent graft zone 3, 2020-05"',
    ],
    [
      "zone-3",
      "replacement and elephant trunk zones 0 to 3, 2020",
      'whether "replacement and elephant trunk zones 0 to 3, 2020" left elephant trunk or graft at zone 3',
    ],
    [
      "proximal-descending",
      "graft zone 3, 2020",
      "whether the repair takes in the place measured, proximal descending aorta, 2 cm distal to the left subclavian: graft or native",
    ],
    [
      "sinuses-of-valsalva",
      "graft zone 0, 2020",
      "whether the repair of zone 0 takes in the sinuses of Valsalva",
    ],
    [
      "zone-0",
      "Bentall 2020",
      "whether the repair of the root takes in the place measured, zone 0",
    ],
    [
      "sinotubular-junction",
      "Bentall 2020",
      "whether the repair of the root takes in the place measured, sinotubular junction",
    ],
  ])("%s after %s is unclear", (placeId, cell, unclear) => {
    expect(at(placeId, cell)).toEqual({ unclear });
  });

  test("a case sheet that is silent leaves every place unclear", () => {
    const walls = wallsAt(null, day).map(({ wall }) => wall);
    expect(new Set(walls.map((wall) => JSON.stringify(wall)))).toEqual(
      new Set(['{"unclear":"prior repair (or none)"}']),
    );
  });

  test("at present a repair without a date has happened", () => {
    expect(at("zone-3", "graft zone 3", "present")).toEqual({
      kind: "graft",
      since: null,
      words: "graft zone 3",
    });
    expect(at("zone-3", "graft zone 3; stent graft zone 3, 2019", "present")).toEqual({
      unclear: 'which came last, "graft zone 3" or "stent graft zone 3, 2019"',
    });
  });
});

test("wallsAt goes along the vessel, both sides of the iliac arteries apart", () => {
  const walls = wallsAt(priorRepairsOf("graft zones 9 to 10 left, 2019"), day);
  expect(walls.map(({ zone }) => zone)).toEqual(
    ["root", ..."0123456789", "10-right", "10-left", "11-right", "11-left"].map(String),
  );
  const repaired = walls.filter(({ wall }) => "kind" in wall && wall.kind === "graft");
  expect(repaired.map(({ label }) => label)).toEqual([
    "zone 9, infrarenal aorta",
    "zone 10, left common iliac artery",
  ]);
});

describe("for any repairs", () => {
  const date = fc
    .date({ min: new Date("2015-01-01"), max: new Date("2025-12-31"), noInvalidDate: true })
    .map((at) => at.toISOString().slice(0, 10));
  const zones = fc.uniqueArray(
    fc.constantFrom<string[]>("root", "0", "1", "2", "3", "9", "10-left"),
  );
  const repair = fc.record({
    words: fc.constantFrom("one", "two", "three"),
    date: fc.oneof(date, fc.constantFrom("2020", "2021", "2021-06", null)),
    zones: fc.oneof({ weight: 4, arbitrary: zones }, fc.constant(null)),
    kinds: fc.uniqueArray(fc.constantFrom(...repairKinds), { maxLength: 2 }),
  }) satisfies fc.Arbitrary<PriorRepair>;
  const moment = fc.constantFrom("exam" as const, "present" as const);

  test("their order never matters", () => {
    const shuffled = fc
      .array(repair, { maxLength: 5 })
      .chain((repairs) =>
        fc.tuple(fc.constant(repairs), fc.shuffledSubarray(repairs, { minLength: repairs.length })),
      );
    fc.assert(
      fc.property(shuffled, moment, ([repairs, others], moment) => {
        expect(wallsAt(others, day, moment)).toEqual(wallsAt(repairs, day, moment));
      }),
    );
  });

  test("one that is surely the last in its zones makes their wall", () => {
    fc.assert(
      fc.property(fc.array(repair.filter(({ date }) => date !== null)), zones, (repairs, zones) => {
        const last: PriorRepair = {
          words: "last",
          date: "2030-01-01",
          zones,
          kinds: ["stent graft"],
        };
        const walls = wallsAt([...repairs, last], "2030-01-01");
        const expected = { kind: "stent graft", since: "2030-01-01", words: "last" };
        for (const { wall } of walls.filter(({ zone }) => zones.includes(zone))) {
          expect(wall).toEqual(expected);
        }
      }),
    );
  });

  test("before the first, all walls are native", () => {
    const dated = fc
      .array(fc.tuple(repair, date))
      .map((pairs) => pairs.map(([one, date]): PriorRepair => ({ ...one, date })));
    fc.assert(
      fc.property(dated, (repairs) => {
        for (const { wall } of wallsAt(repairs, "2014-12-31")) {
          expect(wall).toEqual({ kind: "native", since: null, words: null });
        }
      }),
    );
  });
});
