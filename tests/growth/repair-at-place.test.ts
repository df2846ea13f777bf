import { expect, test } from "vitest";
import { placeById } from "../../src/anatomy/places.ts";
import { priorRepairsOf } from "../../src/cases/prior-repairs.ts";
import { repairBetween } from "../../src/growth/repair-at-place.ts";

const between = (placeId: string, cell: string) =>
  repairBetween(placeById(placeId), priorRepairsOf(cell) ?? [], "2020-01-10", "2022-01-12");

test.each([
  ["zone-4", "TEVAR zones 3 to 5, 2021-05-02", "stent graft at this place on 2021-05-02"],
  ["zone-4", "operation zone 4, 2021", "repair at this place in 2021, day not stated"],
  ["zone-2", "graft zone 2", "graft at this place, date not stated"],
  [
    "zone-2",
    "arch replacement and FET zones 0 to 3, 2021-05-02",
    "graft and frozen elephant trunk at this place on 2021-05-02",
  ],
  ["sinuses-of-valsalva", "Bentall 2021-05-02", "graft at this place on 2021-05-02"],
  ["aortic-annulus", "graft zone 0, 2021-05-02", "graft at this place on 2021-05-02"],
  ["mid-ascending", "Bentall 2021-05-02", "graft at this place on 2021-05-02"],
  ["zone-1", "Bentall 2021-05-02", null],
  ["zone-4", "hemiarch 2021", 'repair in 2021, day not stated, zones not stated: "hemiarch 2021"'],
  ["zone-2", "left carotid-subclavian bypass 2021-05-02", null],
  ["sinuses-of-valsalva", "AVR 2021-05-02", null],
  ["zone-4", "graft zone 4, 2023", null],
])("%s and %s: %s", (placeId, cell, text) => {
  expect(between(placeId, cell)).toBe(text);
});
