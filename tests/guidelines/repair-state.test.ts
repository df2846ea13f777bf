import { expect, test } from "vitest";
import { placeById, placeDistalToLeftSubclavian, placeTable } from "../../src/anatomy/places.ts";
import type { PriorRepair } from "../../src/cases/patient-case.ts";
import { priorRepairsOf } from "../../src/cases/prior-repairs.ts";
import { repairState } from "../../src/guidelines/repair-state.ts";

const repairOf = (zones: string[] | null): PriorRepair[] => [
  { words: "invented repair", date: null, zones, kinds: ["graft"] },
];

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
  ["sinuses-of-valsalva", ["root"], "repaired"],
  ["aortic-root", ["root", "0"], "repaired"],
  ["sinotubular-junction", ["root", "0"], "repaired"],
  ["mid-ascending", ["root", "1"], "native"],
  ["zone-1", ["root"], "native"],
])("%s after a repair of zones %s is %s", (id, zones, state) => {
  expect(repairState(placeById(id), repairOf(zones))).toBe(state);
});

test.each([
  ["proximal-descending", ["3"]],
  ["at-coeliac-origin", ["6"]],
  ["aortic-arch", ["2"]],
  ["sinuses-of-valsalva", ["0"]],
  ["sinotubular-junction", ["0"]],
  ["sinotubular-junction", ["root"]],
  ["mid-ascending", ["root"]],
  ["thoracic-aorta", ["0", "1", "2", "3", "4", "5"]],
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

test.each(["left carotid-subclavian bypass 2020", "aortic valve replacement 2020"])(
  "%s leaves every place native",
  (cell) => {
    const repairs = priorRepairsOf(cell) ?? [];
    for (const { place } of placeTable) expect(repairState(place, repairs)).toBe("native");
  },
);

test("around an elephant trunk the native wall may have been measured, until something else is in it", () => {
  const trunk = priorRepairsOf("elephant trunk zones 3 to 4, 2020") ?? [];
  expect(repairState(placeById("zone-4"), trunk)).toEqual({
    unclear: "whether the native wall around the elephant trunk was measured, zone 4",
  });
  const completed = [...trunk, ...(priorRepairsOf("TEVAR zones 3 to 5, 2021") ?? [])];
  expect(repairState(placeById("zone-4"), completed)).toBe("repaired");
});
