/*
 * Source: ACC/AHA 2022 guideline on aortic disease (Circulation 2022;146:e334, doi 10.1161/CIR.0000000000001106),
 * figure of the landing zones as printed in the pocket edition, page 6 (after Czerny 2019): zones 0 to 11 with the
 * arteries that bound them; zone 0 ends at the distal edge of the innominate origin, zone 3 is the first 2 cm beyond the
 * left subclavian, zone 4 ends mid-descending at about T6. On which side of the other ostia a border lies and the
 * branches in the zones are recalled from the reporting standards of the vascular surgery societies, not compared.
 * Measuring levels: recalled from the figure of the ACCF/AHA 2010 guideline on thoracic aortic disease, not compared.
 */
import { describe, expect, test } from "vitest";
import { interpret } from "../../src/anatomy/interpret.ts";
import { buildDictionary } from "../../src/anatomy/dictionary.ts";
import { archScheme } from "../../src/anatomy/arch-variants.ts";
import { placeById, placeDistalToLeftSubclavian, placeTable } from "../../src/anatomy/places.ts";
import { zonesAround } from "../../src/anatomy/zones-around.ts";

const figure = [
  { zone: "zone-0", ends: "innominate artery", branches: ["innominate-artery"] },
  { zone: "zone-1", ends: "left common carotid", branches: ["left-common-carotid-artery"] },
  { zone: "zone-2", ends: "left subclavian", branches: ["left-subclavian-artery"] },
  { zone: "zone-3", ends: "2 cm", branches: [] },
  { zone: "zone-4", ends: "T6", branches: [] },
  { zone: "zone-5", ends: "coeliac", branches: [] },
  { zone: "zone-6", ends: "superior mesenteric", branches: ["coeliac-artery"] },
  { zone: "zone-7", ends: "renal", branches: ["superior-mesenteric-artery"] },
  { zone: "zone-8", ends: "infrarenal", branches: ["right-renal-artery", "left-renal-artery"] },
  { zone: "zone-9", ends: "aortic bifurcation", branches: ["inferior-mesenteric-artery"] },
  { zone: "zone-10-right", ends: "iliac bifurcation", branches: [] },
  { zone: "zone-10-left", ends: "iliac bifurcation", branches: [] },
  { zone: "zone-11-right", ends: "inguinal ligament", branches: [] },
  { zone: "zone-11-left", ends: "inguinal ligament", branches: [] },
];
const levels = [
  { level: "sinuses-of-valsalva", region: "root", zones: [], around: [] },
  { level: "sinotubular-junction", region: "root", zones: [], around: ["0"] },
  { level: "mid-ascending", region: "ascending", zones: ["0"], around: ["0"] },
  { level: "proximal-arch", region: "arch", zones: ["0"], around: ["0"] },
  { level: "mid-arch", region: "arch", zones: ["2"], around: ["2"] },
  { level: "proximal-descending", region: "descending", zones: [], around: ["3", "4"] },
  { level: "mid-descending", region: "descending", zones: [], around: ["4", "5"] },
  { level: "at-diaphragm", region: "descending", zones: ["5"], around: ["5"] },
  { level: "at-coeliac-origin", region: null, zones: [], around: ["5", "6"] },
];
const rowOf = (id: string) => placeTable.find(({ place }) => place.id === id);

describe("zones of the ACC/AHA 2022 figure", () => {
  test("there are the zones 0 to 11, the iliac ones on both sides, and no other", () => {
    const zones = placeTable.filter(({ place }) => place.kind === "zone");
    expect(zones.map(({ place }) => place.id)).toEqual(figure.map(({ zone }) => zone));
  });

  test.each(figure)("$zone ends at the $ends", ({ zone, ends, branches }) => {
    const borders = rowOf(zone)?.borders;
    expect(borders?.to).toContain(ends);
    const arising = placeTable
      .filter(({ place }) => place.kind === "branch" && place.zones[0] === zone.slice(5))
      .map(({ place }) => place.id);
    expect(arising.toSorted()).toEqual(branches.toSorted());
  });

  test.each(figure.slice(0, 10))("the zone after $zone begins where it ends", ({ zone, ends }) => {
    const next = Number(zone.slice(5)) + 1;
    const id = next < 10 ? `zone-${next}` : `zone-${next}-left`;
    expect(rowOf(id)?.borders?.from).toContain(ends);
  });

  test("zone n is the band from n + 1 to n + 2, and a branch lies in the band of its zone", () => {
    for (const { place } of placeTable) {
      const [zone] = place.zones;
      if (zone === undefined) continue;
      const number = Number.parseInt(zone, 10);
      expect(place.position, place.id).toBeGreaterThanOrEqual(number + 1);
      expect(place.position, place.id).toBeLessThanOrEqual(number + 2);
    }
  });

  test("zone 0 runs from the sinotubular junction to the distal edge of the innominate origin", () => {
    expect(rowOf("zone-0")?.borders).toEqual({
      from: "sinotubular junction",
      to: "distal edge of the innominate artery origin",
    });
  });

  test.each(figure.slice(0, 5))("the usual arch has in $zone what the figure shows", (row) => {
    const zone = row.zone.slice(5) as "0" | "1" | "2" | "3" | "4";
    const found = archScheme([], []).zones[zone];
    expect(found).toMatchObject(rowOf(row.zone)?.borders ?? {});
    expect(found?.branches).toEqual(row.branches.map((id) => placeById(id).label));
  });

  test("common and external iliac arteries are zones 10 and 11", () => {
    expect(placeById("zone-10-left").label).toContain("left common iliac artery");
    expect(placeById("zone-11-right").label).toContain("right external iliac artery");
  });
});

describe("measuring levels", () => {
  test("there are the nine of the figure, along the vessel", () => {
    const ids = placeTable.filter(({ place }) => place.kind === "level").map(({ place }) => place);
    expect(ids.map(({ id }) => id)).toEqual(levels.map(({ level }) => level));
    const positions = ids.map(({ position }) => position);
    expect(positions).toEqual(positions.toSorted((a, b) => a - b));
  });

  test.each(levels)("$level lies in zones $zones", ({ level, region, zones, around }) => {
    const place = placeById(level);
    expect(place).toMatchObject({ region, zones });
    expect(zonesAround(place)).toEqual(around);
  });
});

describe("distances from the left subclavian artery", () => {
  test("15 mm distal to its edge is zone 3", () => {
    expect(placeDistalToLeftSubclavian(15).zones).toEqual(["3"]);
  });

  test("the border at 20 mm, and what lies beyond, is no zone 3", () => {
    expect(placeDistalToLeftSubclavian(19.9).zones).toEqual(["3"]);
    expect(placeDistalToLeftSubclavian(20).zones).toEqual([]);
    expect(placeDistalToLeftSubclavian(150).zones).toEqual([]);
  });

  test("the words of a sheet lead to the same place", () => {
    const read = interpret(
      {
        places: [
          {
            origin: "sheet column",
            terms: [{ words: "15 mm distal to the left subclavian artery", code: null }],
          },
        ],
        laterality: null,
        modifiers: [],
        quantity: { words: "diameter", code: null },
        statistic: null,
        lumen: null,
        edge: null,
      },
      buildDictionary({ codes: {}, words: {} }),
    );
    expect(read).toMatchObject({ place: { zones: ["3"], kind: "distance" } });
  });
});
