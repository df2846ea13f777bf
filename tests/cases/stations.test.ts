import { describe, expect, test } from "vitest";
import { placeStations } from "../../src/cases/stations.ts";
import { stationWalls } from "../../src/cases/vocabulary.ts";
import type { StatedStation } from "../../src/readers/reading.ts";
import { sampleOptions, sampleStation } from "./sample-documents.ts";

const place = (...rows: Partial<StatedStation>[]) =>
  placeStations(
    rows.map((row, index) => sampleStation(10 * index, row)),
    sampleOptions.dictionary,
  );
const codesOf = ({ messages }: ReturnType<typeof place>) => messages.map(({ code }) => code);

describe("the vessel of a row", () => {
  test.each([
    [null, "aorta", "aorta"],
    ["Aorta", "aorta", "aorta"],
    ["right access path", "right access path", "right access path"],
    ["right iliofemoral access", "right access path", "right access path"],
    ["Left ilio-femoral access", "left access path", "left access path"],
    ["left femoral access route", "left access path", "left access path"],
    ["LSA", "left-subclavian-artery", "left subclavian artery"],
    ["coeliac artery", "coeliac-artery", "coeliac artery"],
  ])("%s is %s", (vessel, id, label) => {
    expect(place({ vessel }).placed).toMatchObject([{ vessel: id, label }]);
  });

  test.each(["elbow", "access path", "descending thoracic aorta", "renal artery", "constructor"])(
    "%s is none: the row is left out, and that is said once",
    (vessel) => {
      const result = place({ vessel }, { vessel });
      expect(result.placed).toEqual([]);
      expect(codesOf(result)).toEqual(["station-vessel-not-understood"]);
    },
  );
});

describe("the mark of a row", () => {
  test.each<[Partial<StatedStation>, string, string | null]>([
    [{ mark: "left subclavian artery" }, "left-subclavian-artery", null],
    [{ mark: "left subclavian artery, distal edge" }, "left-subclavian-artery", "distal edge"],
    [{ mark: "LSA, proximal" }, "left-subclavian-artery", "proximal edge"],
    [{ mark: "coeliac artery", markEdge: "Centre" }, "coeliac-artery", "centre"],
    [{ mark: "LSA, distal edge", markEdge: "distal" }, "left-subclavian-artery", "distal edge"],
    [{ mark: "sinotubular junction" }, "sinotubular-junction", null],
    [{ mark: "aortic bifurcation" }, "aortic-bifurcation", null],
  ])("%o", (row, id, edge) => {
    const result = place(row);
    expect(codesOf(result)).toEqual([]);
    expect(result.placed[0]?.station.mark).toMatchObject({ place: { id }, edge });
  });

  test.each<[Partial<StatedStation>, string, object | null]>([
    [{ mark: "elbow" }, "station-mark-not-understood", null],
    [{ mark: "zone 3" }, "station-mark-not-understood", null],
    [{ mark: "ascending aorta" }, "station-mark-not-understood", null],
    [{ mark: "LSA, distal edge", markEdge: "centre" }, "station-mark-edge-unfit", { edge: null }],
    [
      { mark: "sinotubular junction", markEdge: "distal edge" },
      "station-mark-edge-unfit",
      { edge: null },
    ],
    [{ mark: "LSA", markEdge: "rim" }, "station-word-not-understood", { edge: null }],
  ])("%o is said: %s", (row, code, mark) => {
    const result = place(row);
    expect(codesOf(result)).toEqual([code]);
    if (mark === null) expect(result.placed[0]?.station.mark).toBeNull();
    else expect(result.placed[0]?.station.mark).toMatchObject(mark);
  });
});

describe("wall, lumen, edge and position", () => {
  test.each(stationWalls.map((wall) => [wall.toUpperCase(), wall]))("%s", (word, wall) => {
    expect(place({ wall: word }).placed[0]?.station.wall).toBe(wall);
  });
  test.each([
    ["endograft", "stent graft"],
    ["IMH", "intramural haematoma"],
    ["intramural hematoma", "intramural haematoma"],
    ["PAU", "penetrating ulcer"],
    ["dissection", "dissected"],
  ])("%s is %s", (word, wall) => {
    expect(place({ wall: word }).placed[0]?.station.wall).toBe(wall);
  });

  test("a lumen that is not known leaves the row out; another word only itself, said once a word", () => {
    const result = place(
      { lumen: "TL", edge: "outer to outer" },
      { lumen: "third" },
      { edge: "rim", wall: "soft", patientPosition: "on the back", maximumMm: 30 },
      { edge: "rim", wall: "soft", patientPosition: "on the back" },
    );
    expect(codesOf(result)).toEqual([
      "station-lumen-not-understood",
      ...Array.from({ length: 3 }, () => "station-word-not-understood"),
    ]);
    expect(result.placed.map(({ station }) => [station.lumen, station.edge, station.wall])).toEqual(
      [
        ["true", "outer", null],
        ["unstated", "unstated", null],
        ["unstated", "unstated", null],
      ],
    );
    expect(result.placed[1]).toMatchObject({ patientPosition: null, station: { maximumMm: 30 } });
  });

  // Defined terms of Patient Position (0018,5100): DICOM PS3.3, C.7.3.1.1.2.
  test.each(["HFS", "ffs", "HFP", "FFP", "HFDR", "HFDL", "FFDR", "FFDL"])("%s is read", (term) => {
    expect(place({ patientPosition: term }).placed[0]?.patientPosition).toBe(term.toUpperCase());
  });
});

describe("coordinates", () => {
  test("are DICOM's where the sheet says LPS, change the signs of x and y from RAS, and are none without axes", () => {
    const xyz = { x: 10, y: -20, z: 30 };
    const result = place(
      { ...xyz, axes: "lps" },
      { ...xyz, axes: "RAS" },
      { x: 0, y: 0, z: 0, axes: "RAS" },
      { ...xyz },
      { ...xyz, axes: "XYZ" },
      { x: 10, y: -20, axes: "LPS" },
      {},
    );
    expect(result.placed.map(({ axes, station }) => [axes, station.point])).toEqual([
      ["LPS", [10, -20, 30]],
      ["RAS", [-10, 20, 30]],
      ["RAS", [0, 0, 0]],
      ["without axes", null],
      ["without axes", null],
      ["incomplete", null],
      ["none", null],
    ]);
    expect(codesOf(result)).toEqual(["station-word-not-understood"]);
  });
});

describe("sizes", () => {
  test.each<[Partial<StatedStation>, string, string]>([
    [{ maximumMm: 0 }, "maximumMm", "value-not-positive"],
    [{ minimumMm: -3 }, "minimumMm", "value-not-positive"],
    [{ areaMm2: 0 }, "areaMm2", "value-not-positive"],
    [{ perimeterMm: -1 }, "perimeterMm", "value-not-positive"],
    [{ thrombusArcDeg: 361 }, "thrombusArcDeg", "value-not-positive"],
    [{ calciumArcDeg: -1 }, "calciumArcDeg", "value-not-positive"],
    [{ thrombusThicknessMm: -0.5 }, "thrombusThicknessMm", "value-not-positive"],
    [{ maximumMm: 3.2 }, "maximumMm", "value-of-another-unit"],
    [{ areaMm2: 7 }, "areaMm2", "value-of-another-unit"],
  ])("%o is not used", (row, field, code) => {
    const result = place({ wall: "native", ...row });
    expect(result.placed[0]?.station).toMatchObject({ wall: "native", [field]: null });
    expect(codesOf(result)).toEqual([code]);
  });

  test("arcs of 0 and 360 degrees and no thickness are numbers like others", () => {
    const result = place({ thrombusArcDeg: 0, calciumArcDeg: 360, thrombusThicknessMm: 0 });
    expect(codesOf(result)).toEqual([]);
    expect(result.placed[0]?.station).toMatchObject({ thrombusArcDeg: 0, calciumArcDeg: 360 });
  });

  test("of a minimum over the maximum neither is used; the rest of the row is", () => {
    const result = place({ maximumMm: 30, minimumMm: 31, perimeterMm: 95 });
    expect(codesOf(result)).toEqual(["station-minimum-over-maximum"]);
    expect(result.placed[0]?.station).toMatchObject({
      maximumMm: null,
      minimumMm: null,
      perimeterMm: 95,
    });
    expect(codesOf(place({ maximumMm: 30, minimumMm: 30 }))).toEqual([]);
  });

  test.each<[Partial<StatedStation>, string[]]>([
    [{ maximumMm: 8, vessel: "right access path" }, []],
    [{ maximumMm: 0.5, vessel: "right access path" }, ["station-hard-to-believe"]],
    [{ maximumMm: 120, vessel: "LSA" }, ["station-hard-to-believe"]],
    [{ maximumMm: 160 }, ["value-doubtful"]],
    [{ maximumMm: 4, lumen: "true" }, []],
    [{ minimumMm: 5 }, ["value-doubtful"]],
  ])("%o is used, with a doubt where it is hard to believe", (row, codes) => {
    const result = place(row);
    expect(codesOf(result)).toEqual(codes);
    const { maximumMm, minimumMm } = result.placed[0]?.station ?? {};
    expect([maximumMm ?? null, minimumMm ?? null]).toEqual([
      row.maximumMm ?? null,
      row.minimumMm ?? null,
    ]);
  });
});

test("the key is made from the file's bytes and the place in it", () => {
  const source = { file: "line.csv", sha256: "12", at: "record 2" };
  const keyOf = (rest: object) =>
    place({ source: { ...source, ...rest } }).placed[0]?.station.key ?? "";
  expect(keyOf({})).toMatch(/^S[0-9a-f]{8}$/);
  expect(keyOf({ file: "renamed.csv" })).toBe(keyOf({}));
  expect(new Set([keyOf({}), keyOf({ at: "record 3" }), keyOf({ sha256: "13" })]).size).toBe(3);
});
