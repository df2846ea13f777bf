import { describe, expect, test } from "vitest";
import { placeById, placeDistalToLeftSubclavian, placeTable } from "../../src/anatomy/places.ts";
import { unorderedKey } from "../../src/anatomy/spelling.ts";
import { zonesAround } from "../../src/anatomy/zones-around.ts";

describe("places", () => {
  test("ids are unique, and no code stands twice", () => {
    const unique = (values: string[]) => expect(new Set(values).size).toBe(values.length);
    unique(placeTable.map(({ place }) => place.id));
    unique(placeTable.flatMap(({ codes }) => codes));
  });

  test("no spelling stands for two places, in whatever order its words are", () => {
    const owners = Map.groupBy(
      placeTable.flatMap(({ place, words }) =>
        words.map((spelling) => ({ id: place.id, key: unorderedKey(spelling) })),
      ),
      ({ key }) => key,
    );
    for (const [key, rows] of owners) expect(new Set(rows.map(({ id }) => id)).size, key).toBe(1);
    expect(owners.size).toBeGreaterThan(1000);
  });

  test("ranges, and only ranges, have a span that holds their position", () => {
    for (const { place } of placeTable) {
      expect(place.span !== null, place.id).toBe(place.kind === "range");
      if (place.span === null) continue;
      expect(place.position).toBeGreaterThanOrEqual(place.span[0]);
      expect(place.position).toBeLessThanOrEqual(place.span[1]);
    }
  });

  test("a place on a border has no zone", () => {
    for (const id of ["proximal-descending", "mid-descending", "at-coeliac-origin"]) {
      expect(placeById(id).zones).toEqual([]);
    }
  });

  test("an unknown id is a defect", () => {
    expect(() => placeById("zone-12")).toThrow("zone-12");
  });
});

describe("zones around a place", () => {
  test.each([
    ["zone-4", ["4"]],
    ["mid-arch", ["2"]],
    ["proximal-descending", ["3", "4"]],
    ["mid-descending", ["4", "5"]],
    ["at-coeliac-origin", ["5", "6"]],
    ["aortic-bifurcation", ["9", "10-left", "10-right"]],
    ["sinuses-of-valsalva", []],
    ["aortic-root", []],
    ["sinotubular-junction", ["0"]],
    ["aortic-isthmus", ["3"]],
    ["aortic-arch", ["1", "2"]],
    ["descending-thoracic-aorta", ["3", "4", "5"]],
    ["thoracic-aorta", ["0", "1", "2", "3", "4", "5"]],
    ["abdominal-aorta", ["6", "7", "8", "9"]],
    ["zone-10-left", ["10-left"]],
    ["left-subclavian-artery", ["2"]],
    ["right-internal-iliac-artery", []],
    ["proximal-anastomosis", []],
    ["aberrant-right-subclavian-artery", []],
  ])("%s", (id, zones) => {
    expect(zonesAround(placeById(id))).toEqual(zones);
  });

  test.each([
    [15, ["3"]],
    [20, ["3", "4"]],
    [60, ["4", "5"]],
  ])("%i mm beyond the left subclavian", (distance, zones) => {
    expect(zonesAround(placeDistalToLeftSubclavian(distance))).toEqual(zones);
  });
});
