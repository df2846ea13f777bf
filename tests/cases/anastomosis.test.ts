import { describe, expect, test } from "vitest";
import type { AorticPlace } from "../../src/anatomy/places.ts";
import { placeById } from "../../src/anatomy/places.ts";
import { locateAnastomoses, locateAnastomosis } from "../../src/cases/anastomosis.ts";
import type { Exam, Measurement } from "../../src/cases/patient-case.ts";
import { priorRepairsOf } from "../../src/cases/prior-repairs.ts";

const anastomosis = (end: "proximal" | "distal"): AorticPlace => ({
  id: `${end}-anastomosis`,
  kind: "landmark",
  label: `${end} anastomosis`,
  zones: [],
  region: null,
  position: 0,
  span: null,
  variant: null,
});

const reading = (place: AorticPlace, exam = "2022-01-10"): Measurement => ({
  key: `M-${place.id}-${exam}`,
  exam,
  place,
  placeOrigin: "sheet column",
  quantity: "diameter",
  statistic: "maximum",
  lumen: "whole",
  edge: "outer",
  path: "unstated",
  plane: "unstated",
  phase: "unstated",
  value: 32,
  unit: "mm",
  asWritten: "32 mm",
  derivedFrom: [],
  source: { file: "sheet.csv", sha256: "00", at: "record 2" },
  reader: null,
  comment: null,
});

const locate = (end: "proximal" | "distal", cell: string | null) =>
  locateAnastomosis(reading(anastomosis(end)), priorRepairsOf(cell), "2022-01-10");

describe("the place of an anastomosis", () => {
  test("is the end of the one open repair before the exam, on a border", () => {
    const found = locate("distal", "graft zones 0–2, 2019-05-02; graft zone 9, 2023");
    expect(found.measurement?.place).toEqual({
      id: "distal-anastomosis+0-2",
      kind: "landmark",
      label: "distal anastomosis of the graft of zones 0 to 2 (2019-05-02)",
      zones: [],
      region: null,
      position: 4,
      span: null,
      variant: null,
    });
    expect(found.message).toBeNull();
  });

  test.each([
    ["proximal", "graft zones 0 to 2, 2019", "0-2", 1, "graft of zones 0 to 2 (2019)"],
    ["distal", "graft zone 3, 2019", "3-3", 5, "graft of zone 3 (2019)"],
    ["proximal", "Bentall 2019", "root-root", 0, "graft of the root (2019)"],
    ["distal", "Bentall 2019", "root-root", 1, "graft of the root (2019)"],
    ["distal", "root, graft zones 0, 1, 2019", "root-1", 3, "graft of the root to zone 1 (2019)"],
    ["proximal", "graft zones 9 to 10, 2019", "9-10", 10, "graft of zones 9 to 10 (2019)"],
    [
      "distal",
      "graft zones 9 to 10 right, 2019",
      "9-10-right",
      12,
      "graft of zones 9 to 10 right (2019)",
    ],
    ["distal", "operation zone 0, 2019", "0-0", 2, "repair of zone 0 (2019)"],
    [
      "distal",
      "graft zone 0, 2019; stent graft zone 3, 2020; AVR 2018",
      "0-0",
      2,
      "graft of zone 0 (2019)",
    ],
    [
      "proximal",
      "FET zones 0 to 4, 2019",
      "0-4",
      1,
      "frozen elephant trunk of zones 0 to 4 (2019)",
    ],
    [
      "distal",
      "graft zones 0 to 2, 2019-05-02; FET zones 3 to 4, 2019-05-02",
      "0-2",
      4,
      "graft of zones 0 to 2 (2019-05-02)",
    ],
  ] as const)("%s of %s", (end, cell, ids, position, words) => {
    expect(locate(end, cell).measurement?.place).toMatchObject({
      id: `${end}-anastomosis+${ids}`,
      position,
      label: `${end} anastomosis of the ${words}`,
    });
  });

  test.each([
    [null, "no prior repair is stated, nor that there was none"],
    ["none", "no open repair of the aorta is stated before it"],
    ["left carotid-subclavian bypass 2019", "no open repair of the aorta is stated before it"],
    ["TEVAR zones 3 to 4, 2019", "no open repair of the aorta is stated before it"],
    ["graft zone 0, 2022-01-11", "no open repair of the aorta is stated before it"],
    [
      "graft zone 9, 2019; graft zone 0, 2018",
      'it may belong to "graft zone 0, 2018" or "graft zone 9, 2019"',
    ],
    ["graft zone 0, 2018; hemiarch", 'it may belong to "graft zone 0, 2018" or "hemiarch"'],
    ["graft zone 0", 'it is not stated whether "graft zone 0" was before it'],
    ["graft zone 0, 2022", 'it is not stated whether "graft zone 0, 2022" was before it'],
    ["hemiarch 2019", 'the zones of "hemiarch 2019" are not stated'],
    [
      "grafts zones 0 and 3, 2019",
      'the zones of "grafts zones 0 and 3, 2019" are apart from each other',
    ],
    ["graft zones 9 to 10, 2019", '"graft zones 9 to 10, 2019" has this end on both sides'],
    [
      "graft and stent graft zones 0 to 4, 2019",
      'which end of "graft and stent graft zones 0 to 4, 2019" is sewn is not stated',
    ],
    [
      "FET zones 0 to 4, 2019",
      'the zones of "FET zones 0 to 4, 2019" end with the trunk, not with the suture',
    ],
  ])("is not known after %j", (cell, why) => {
    const { measurement, message } = locate("distal", cell);
    expect(measurement).toBeNull();
    expect(message).toMatchObject({
      code: "anastomosis-not-located",
      place: { file: "sheet.csv", at: "record 2" },
      data: { number: "diameter at distal anastomosis", date: "2022-01-10", why },
    });
  });
});

describe("the readings of a case", () => {
  const exams = ["2018-01-10", "2020-01-10", "2022-01-10"].map((date): Exam => ({
    key: date,
    studyUid: null,
    imagingDate: date,
    imagingDateOrigin: "study date",
    modality: "CT",
    gated: null,
    reportState: [],
  }));
  const readings = exams.flatMap(({ key }) => [
    reading(anastomosis("distal"), key),
    reading(placeById("zone-4"), key),
  ]);

  test("keep their order and one place over the exams; those before the repair are left out", () => {
    const facts = { priorRepairs: priorRepairsOf("graft zones 0 to 2, 2019-05-02") };
    const { measurements, messages } = locateAnastomoses(readings, facts, exams);
    expect(measurements.map(({ exam, place }) => [exam, place.id])).toEqual([
      ["2018-01-10", "zone-4"],
      ["2020-01-10", "distal-anastomosis+0-2"],
      ["2020-01-10", "zone-4"],
      ["2022-01-10", "distal-anastomosis+0-2"],
      ["2022-01-10", "zone-4"],
    ]);
    expect(messages.map(({ data }) => data.date)).toEqual(["2018-01-10"]);
  });
});
