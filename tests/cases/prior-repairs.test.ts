import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { priorRepairsOf } from "../../src/cases/prior-repairs.ts";
import { repairKinds } from "../../src/cases/vocabulary.ts";

const only = (cell: string) => {
  const [repair, ...others] = priorRepairsOf(cell) ?? [];
  if (!repair || others.length > 0) throw new Error(`one repair: ${cell}`);
  return repair;
};

describe("the cell", () => {
  test("says nothing, none, or several repairs in its own words", () => {
    expect(priorRepairsOf(null)).toBeNull();
    expect(priorRepairsOf(" ; ")).toBeNull();
    expect(priorRepairsOf("None")).toEqual([]);
    expect(priorRepairsOf("stent graft zones 3 to 5, 2023-06-15; hemiarch 2019;")).toEqual([
      {
        words: "stent graft zones 3 to 5, 2023-06-15",
        date: "2023-06-15",
        zones: ["3", "4", "5"],
        kinds: ["stent graft"],
      },
      { words: "hemiarch 2019", date: "2019", zones: null, kinds: ["graft"] },
    ]);
  });
});

describe("kinds", () => {
  test.each([
    ["frozen elephant trunk zones 0 to 3", ["frozen elephant trunk"]],
    ["FET 2020", ["frozen elephant trunk"]],
    ["elephant trunk", ["elephant trunk"]],
    ["stent-graft", ["stent graft"]],
    ["Stent Grafts", ["stent graft"]],
    ["stent grafting", ["stent graft"]],
    ["endograft", ["stent graft"]],
    ["TEVAR", ["stent graft"]],
    ["EVAR", ["stent graft"]],
    ["thoracic endovascular aortic repair", ["stent graft"]],
    ["tube graft", ["graft"]],
    ["interposition graft", ["graft"]],
    ["ascending replacement", ["graft"]],
    ["ascending aorta replaced", ["graft"]],
    ["hemi-arch", ["graft"]],
    ["Bentall", ["graft"]],
    ["valve-sparing root replacement", ["graft"]],
    ["carotid–subclavian bypass", ["bypass"]],
    ["coronary artery bypass graft", ["bypass"]],
    ["left subclavian transposition", ["bypass"]],
    ["arch debranching", ["bypass"]],
    ["AVR", ["valve"]],
    ["aortic valve replacement", ["valve"]],
    ["replacement of the aortic valve", ["valve"]],
    ["aortic valve replacement, then stent graft", ["valve", "stent graft"]],
    ["arch replacement with frozen elephant trunk", ["graft", "frozen elephant trunk"]],
    ["wrapping", []],
    ["graftless feverish tevaris", []],
  ])("%s: %j", (words, kinds) => {
    expect(only(words).kinds).toEqual(kinds);
  });

  test("every kind has its own name among its words", () => {
    for (const kind of repairKinds.filter((word) => word !== "valve")) {
      expect(only(kind).kinds).toEqual([kind]);
    }
  });
});

describe("zones", () => {
  test.each([
    ["graft zones 0–2", ["0", "1", "2"]],
    ["graft zones 0 - 2", ["0", "1", "2"]],
    ["graft zones 0, 1", ["0", "1"]],
    ["graft zones 0, 1 and 2, 2020-01", ["0", "1", "2"]],
    ["graft zone 2 to zone 4", ["2", "3", "4"]],
    ["graft zones 3, 5-7", ["3", "5", "6", "7"]],
    ["graft zone 0, stent graft zones 3 to 4", ["0", "3", "4"]],
    ["stent graft zone 3, 2023-06-15", ["3"]],
    ["stent graft zone 3, 15.6.2023", ["3"]],
    ["stent graft zone 3, 5 May 2023", ["3"]],
    ["stent graft zone 3, 01/2023", ["3"]],
    ["stent graft zones 3 to 5, 34 mm", ["3", "4", "5"]],
    ["graft zone 10 left", ["10-left"]],
    ["graft zone 10 left and right", ["10-left", "10-right"]],
    ["graft zone 9-10", ["9", "10-left", "10-right"]],
    ["graft zone 12", null],
    ["graft zones 5 to 3", null],
    ["graft zones 0 to 1 to 2", null],
    ["graft zones 10 left and 11 right", null],
    ["graft zones 3 and 4, landing zone two", null],
    ["graft of the ascending aorta", null],
    ["Bentall 2019", ["root"]],
    ["root and ascending replacement", ["root"]],
    ["root replacement and graft zone 0", ["root", "0"]],
    ["root replacement and hemiarch", null],
    ["ascending replacement, native root", null],
    ["graft zone 0, root preserved", ["0"]],
  ])("%s: %j", (words, zones) => {
    expect(only(words).zones).toEqual(zones);
  });

  test.each([
    "left carotid-subclavian bypass, March 2020",
    "AVR 2019",
    "aortic valve replacement",
    "arch debranching",
    "mitral valve replacement and coronary bypass",
  ])("%s replaces no aorta", (words) => {
    expect(only(words).zones).toEqual([]);
  });

  test.each([
    "bypass and stenting of the descending aorta",
    "bypass, zone 2",
    "aortic valve replacement and ascending wrap",
    "AVR with root enlargement",
    "switch for transposition of the great arteries",
  ])("%s may have replaced some aorta", (words) => {
    expect(only(words).zones).toBeNull();
  });

  test("a range of numbers is read as it is written, with any sign", () => {
    const sign = fc.constantFrom("-", "–", " to ", " – ");
    const ends = fc.tuple(fc.nat(9), fc.nat(9)).map((pair) => pair.toSorted((a, b) => a - b));
    fc.assert(
      fc.property(ends, sign, ([first = 0, last = 0], between) => {
        const zones = Array.from({ length: last - first + 1 }, (_, index) => `${first + index}`);
        expect(only(`graft zones ${first}${between}${last}, 2020-02-03`)).toMatchObject({
          zones,
          date: "2020-02-03",
        });
      }),
    );
  });
});

describe("dates", () => {
  test.each([
    ["graft zones 0 to 2, 2019-05-02", "2019-05-02"],
    ["graft zones 0 to 2, 2019-05", "2019-05"],
    ["graft (2019)", "2019"],
    ["graft 2019.", "2019"],
    ["graft", null],
    ["graft 01/2019", null],
    ["graft 2.5.2019", null],
    ["graft 2019/05/02", null],
    ["graft 2019-5-2", null],
    ["graft 2019-13", null],
    ["graft 2019-02-30", null],
    ["graft 2018–2020", null],
    ["graft 2018, extended 2020", null],
    ["graft 1234", null],
  ])("%s: %s", (words, date) => {
    expect(only(words).date).toBe(date);
  });
});
