import { expect, test } from "vitest";
import { sheetCentrelines } from "../../src/cases/centrelines.ts";
import { stationLines, stationOf, usesOf } from "../../src/cli/verbs/trace.ts";
import type { Plan } from "../../src/report/plan.ts";
import { sampleOptions, sampleStation } from "../cases/sample-documents.ts";

const { centrelines } = sheetCentrelines(
  [
    sampleStation(0),
    sampleStation(120.25, {
      mark: "LSA, distal edge",
      wall: "native",
      lumen: "true",
      maximumMm: 31.5,
      thrombusArcDeg: 0,
      x: 1,
      y: -2.5,
      z: 300,
      axes: "LPS",
      source: { file: "line.csv", sha256: "12", at: "record 3, line 3, column distance_mm" },
    }),
  ],
  {
    key: "2025-01-02",
    studyUid: null,
    imagingDate: "2025-01-02",
    imagingDateOrigin: "sheet column",
    modality: "CT",
    gated: null,
    reportState: [],
  },
  {
    dictionary: sampleOptions.dictionary,
    bySite: { patientPosition: null, positionBy: null },
  },
);
const key = centrelines[0]?.stations[1]?.key ?? "";

test("a section of a centreline is traced to its file and place, with all that is stated of it", () => {
  const station = stationOf({ centrelines }, key);
  if (!station) throw new Error("not found");
  expect(stationLines(station)).toEqual([
    `${key}: section of the centreline of the aorta at 120.25 mm, edge unstated, lumen true`,
    "mark: left subclavian artery, distal edge",
    "wall: native",
    "maximum diameter: 31.5 mm",
    "thrombus arc: 0 degrees",
    "point: 1.00, -2.50, 300.00 mm",
    "exam: 2025-01-02",
    "file: line.csv, record 3, line 3, column distance_mm",
    "sha256: 12",
  ]);
});

test("a key that no centreline has, and a plan without centrelines, give none", () => {
  expect(stationOf({ centrelines }, "S0000000f")).toBeNull();
  expect(stationOf({}, key)).toBeNull();
});

test("whatever part of a plan lists the key among what it used is named", () => {
  const empty = { growth: [], assessments: [], derived: [], dissection: null, arch: null };
  const option = { zone: "3", soundLengths: [], diameterRange: null, reference: null };
  const plan = {
    ...empty,
    centrelines,
    options: [
      { ...option, segment: { stations: [key], used: [] } },
      { ...option, zone: "4", segment: { stations: ["S00000000"], used: [] } },
    ],
    accessRoutes: [{ checks: [{ used: ["M1", key] }] }],
    coverage: { used: ["M1"] },
  } as unknown as Plan;
  expect(usesOf(plan, key)).toEqual(["landing in zone 3", "access routes"]);
});
