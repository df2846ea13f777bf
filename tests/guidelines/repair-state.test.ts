import { expect, test } from "vitest";
import { placeById, placeDistalToLeftSubclavian } from "../../src/anatomy/places.ts";
import { repairState } from "../../src/guidelines/repair-state.ts";

const repairOf = (zones: string[] | null) => [{ words: "invented repair", date: null, zones }];

test.each([
  ["zone-3", ["3", "4"], "repaired"],
  ["zone-5", ["3", "4"], "native"],
  ["mid-arch", ["2"], "repaired"],
  ["proximal-descending", ["3", "4"], "repaired"],
  ["proximal-descending", ["2"], "native"],
  ["at-diaphragm", ["5"], "repaired"],
  ["aortic-arch", ["1", "2"], "repaired"],
  ["aortic-arch", ["0", "3"], "native"],
  ["sinuses-of-valsalva", ["1", "2"], "native"],
  ["abdominal-aorta", ["6", "7", "8", "9"], "repaired"],
  ["zone-9", ["10-left", "10-right"], "native"],
])("%s after a repair of zones %s is %s", (id, zones, state) => {
  expect(repairState(placeById(id), repairOf(zones))).toBe(state);
});

test.each([
  ["proximal-descending", ["3"]],
  ["at-coeliac-origin", ["6"]],
  ["aortic-arch", ["2"]],
  ["sinuses-of-valsalva", ["0"]],
  ["sinotubular-junction", ["0"]],
])("%s after a repair of zones %s is unclear", (id, zones) => {
  expect(repairState(placeById(id), repairOf(zones))).toHaveProperty("unclear");
});

test("several repairs count together", () => {
  const repairs = [...repairOf(["1"]), ...repairOf(["2"])];
  expect(repairState(placeById("aortic-arch"), repairs)).toBe("repaired");
});

test("a distance of more than 2 cm beyond the left subclavian may be zone 4 or 5", () => {
  const place = placeDistalToLeftSubclavian(60);
  expect(repairState(place, repairOf(["4"]))).toHaveProperty("unclear");
  expect(repairState(place, repairOf(["4", "5"]))).toBe("repaired");
});

test("a repair without zones leaves every place unclear, with its words", () => {
  expect(repairState(placeById("zone-9"), repairOf(null))).toEqual({
    unclear: 'which zones were repaired ("invented repair")',
  });
});
