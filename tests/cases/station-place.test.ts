import { expect, test } from "vitest";
import { placeById } from "../../src/anatomy/places.ts";
import type { Centreline, Station, StationMark } from "../../src/cases/patient-case.ts";
import { stationPlaces } from "../../src/cases/station-place.ts";

const station = (distanceMm: number, mark: StationMark | null = null): Station => ({
  key: `S${distanceMm}`,
  distanceMm,
  point: null,
  mark,
  wall: null,
  lumen: "whole",
  edge: "inner",
  maximumMm: 30,
  minimumMm: 28,
  perimeterMm: null,
  areaMm2: null,
  thrombusArcDeg: null,
  thrombusThicknessMm: null,
  calciumArcDeg: null,
  source: { file: "invented.csv", sha256: null, at: null },
  reader: null,
  comment: null,
});
const line = (vessel: string, stations: Station[]): Centreline => ({
  exam: "2024-05-06",
  vessel,
  label: vessel,
  patientPosition: null,
  positionBy: null,
  origin: "centreline sheet",
  stations,
});
const at = (id: string, edge: StationMark["edge"]): StationMark => ({ place: placeById(id), edge });

test("a station lies in the zone that begins at the last mark before it", () => {
  const places = stationPlaces(
    line("aorta", [
      station(0),
      station(80, at("innominate-artery", "proximal edge")),
      station(90, at("innominate-artery", "distal edge")),
      station(100, at("left-common-carotid-artery", "distal edge")),
      station(120, at("left-subclavian-artery", "distal edge")),
      station(130),
      station(230, at("mid-descending", null)),
      station(360, at("coeliac-artery", "proximal edge")),
    ]),
  );
  expect([...places].map(([key, { id }]) => `${key} ${id}`)).toEqual([
    "S0 zone-0",
    "S80 zone-0",
    "S90 zone-1",
    "S100 zone-2",
    "S120 zone-3",
    "S130 zone-3",
    "S230 mid-descending",
    "S360 zone-6",
  ]);
});

test.each([
  ["right access path", "zone-10-right"],
  ["left access path", "zone-10-left"],
])("%s is taken as the common iliac artery of its side", (vessel, id) => {
  expect(stationPlaces(line(vessel, [station(0)])).get("S0")?.id).toBe(id);
});
