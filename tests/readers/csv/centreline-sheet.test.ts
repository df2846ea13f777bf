import { describe, expect, test } from "vitest";
import { readSheet } from "../../../src/readers/csv/read-sheet.ts";
import { noSiteConfig, parseSiteConfig, type SiteConfig } from "../../../src/site/site-config.ts";

const read = (text: string, site: SiteConfig = noSiteConfig) =>
  readSheet(new TextEncoder().encode(text), "line.csv", "00ff", site);
const headings =
  "patient_id,exam_date,distance_mm,vessel,mark,mark_edge,wall,lumen,edge,max_diameter_mm,min_diameter_mm,perimeter_mm,area_mm2,thrombus_arc_deg,thrombus_mm,calcium_arc_deg,x_mm,y_mm,z_mm,axes,patient_position,reader,comment";
const stationsOf = (text: string, site?: SiteConfig) =>
  read(text, site).documents.flatMap(({ stations }) => stations);

describe("a centreline sheet", () => {
  test("one document per patient and date, one station per row with its numbers and words", () => {
    const { kind, documents, messages, setAside } = read(
      `${headings}\nP1,2025-01-02,-12.5,,left subclavian artery,distal edge,native,true,inner,31.2,28.0,93.1,690.5,0,0,45,1.5,-2,3,LPS,HFS,AB,seen\nP1,2025-01-02,0,right iliac access,,,,,,,,,,,,,,,,,,,\nP2,2025-01-02,5,,,,,,,30,,,,,,,,,,,,,\n`,
    );
    expect([kind, setAside, messages]).toEqual(["centreline sheet", null, []]);
    expect(
      documents.map(({ patient, readings, findings, stations }) => [
        patient.id,
        readings.length,
        findings.length,
        stations.length,
      ]),
    ).toEqual([
      ["P1", 0, 0, 2],
      ["P2", 0, 0, 1],
    ]);
    expect(documents[0]?.stations[0]).toEqual({
      source: { file: "line.csv", sha256: "00ff", at: "record 2, line 2, column distance_mm" },
      vessel: null,
      distanceMm: -12.5,
      mark: "left subclavian artery",
      markEdge: "distal edge",
      wall: "native",
      lumen: "true",
      edge: "inner",
      maximumMm: 31.2,
      minimumMm: 28,
      perimeterMm: 93.1,
      areaMm2: 690.5,
      thrombusArcDeg: 0,
      thrombusThicknessMm: 0,
      calciumArcDeg: 45,
      x: 1.5,
      y: -2,
      z: 3,
      axes: "LPS",
      patientPosition: "HFS",
      reader: "AB",
      comment: "seen",
      unusable: [],
    });
    expect(documents[0]?.stations[1]).toMatchObject({
      vessel: "right iliac access",
      distanceMm: 0,
    });
  });

  test("the required columns alone are one", () => {
    expect(stationsOf("patient_id,exam_date,distance_mm\nP1,2025-01-02,7\n")).toMatchObject([
      { distanceMm: 7, maximumMm: null, x: null, unusable: [] },
    ]);
  });

  test.each([
    ["25,4", "csv-number-comma"],
    ["1.234,5", "csv-number-grouped"],
    ["< 30", "csv-number-not-understood"],
    ["42 mm", "csv-number-not-understood"],
    ["NaN", "csv-number-not-understood"],
    ["４２", "csv-number-not-understood"],
    ["1e400", "csv-number-not-understood"],
  ])("a diameter of %s loses only itself, and says which column", (cell, code) => {
    const [station] = stationsOf(
      `patient_id,exam_date,distance_mm,max_diameter_mm,min_diameter_mm\nP1,2025-01-02,10,"${cell}",24\n`,
    );
    expect(station).toMatchObject({ distanceMm: 10, maximumMm: null, minimumMm: 24 });
    expect(station).not.toHaveProperty("refused");
    expect(
      station?.unusable.map((one) => [one.code, one.data["heading"], one.data["loss"]]),
    ).toEqual([[code, "max_diameter_mm", "cell"]]);
  });

  test.each([
    ["", "csv-cell-missing"],
    ["ten", "csv-number-not-understood"],
    ["1 000", "csv-number-grouped"],
  ])("a row with the distance '%s' is refused", (cell, code) => {
    const [station] = stationsOf(
      `patient_id,exam_date,distance_mm,max_diameter_mm\nP1,2025-01-02,${cell},30\n`,
    );
    expect(station).toMatchObject({
      distanceMm: null,
      refused: { code, data: { loss: "row", heading: "distance_mm" } },
    });
  });

  test.each([
    ["csv-cell-missing", ",2025-01-02,5"],
    ["csv-cell-missing", "P1,,5"],
    ["csv-date-ambiguous", "P1,02/01/2025,5"],
  ])("a row without a patient or a date is left out: %s", (code, row) => {
    const { documents, messages } = read(`patient_id,exam_date,distance_mm\n${row}\n`);
    expect([documents, messages.map((one) => one.code)]).toEqual([[], [code]]);
  });
});

describe("what tells a centreline sheet", () => {
  test.each([
    ["distance_mm", "patient_id,exam_date,distance_mm,comment", "centreline sheet", null],
    ["not without a date", "patient_id,distance_mm", "unreadable", "csv-heading-missing"],
    [
      "not beside a value",
      "patient_id,exam_date,place,quantity,value,distance_mm",
      "measurement sheet",
      null,
    ],
    [
      "not beside a finding",
      "patient_id,exam_date,place,finding,state,distance_mm",
      "finding sheet",
      null,
    ],
  ])("%s", (_, heading, kind, code) => {
    const cells = heading.split(",").map((name) => (name === "exam_date" ? "2025-01-02" : "x"));
    const result = read(`${heading}\n${cells.join(",")}\n`);
    expect([result.kind, result.setAside?.code ?? null]).toEqual([kind, code]);
  });
});

describe("a centreline sheet of the site file", () => {
  const siteOf = (yaml: string): SiteConfig => {
    const { site, messages } = parseSiteConfig(yaml, "site.yaml");
    if (!site) throw new Error(messages.map(({ text }) => text).join("\n"));
    return site;
  };
  const yaml = `
sheets:
  - name: lines
    decimal: comma
    dates: day-month-year
    unitRow: true
    notMeasured: ["-"]
    columns: { Fall: patient_id, Tag: exam_date, Abstand: distance_mm, Marke: mark, Wand: wall, Größe: max_diameter_mm, Fläche: area_mm2 }
    always: { vessel: aorta, axes: LPS, patient_position: HFS, edge: outer }
    words: { wall: { Prothese: graft }, mark: { LSA-Abgang: left subclavian artery } }
`;
  const sheet = (units: string) =>
    `Fall;Tag;Abstand;Marke;Wand;Größe;Fläche\n${units}\nP1;3.2.2025;12,5;LSA-Abgang;Prothese;31,4;-\n`;

  test("has headings, words, decimals, units and fixed values of its own", () => {
    const { kind, documents, messages } = read(sheet(";;mm;;;mm;mm²"), siteOf(yaml));
    expect([kind, messages]).toEqual(["centreline sheet", []]);
    expect(documents).toMatchObject([
      {
        exam: { imagingDate: "2025-02-03" },
        stations: [
          {
            vessel: "aorta",
            distanceMm: 12.5,
            mark: "left subclavian artery",
            wall: "graft",
            edge: "outer",
            maximumMm: 31.4,
            areaMm2: null,
            axes: "LPS",
            patientPosition: "HFS",
          },
        ],
      },
    ]);
  });

  test("a unit under a heading that the column does not hold is not converted unseen", () => {
    const [station] = stationsOf(sheet(";;mm;;;cm;mm²"), siteOf(yaml));
    expect(station?.maximumMm).toBeNull();
    expect(station?.unusable).toMatchObject([
      { code: "csv-unit-of-heading", data: { heading: "Größe", met: "cm", expected: "mm" } },
    ]);
    const [refused] = stationsOf(sheet(";;cm;;;mm;mm²"), siteOf(yaml));
    expect(refused?.refused).toMatchObject({ code: "csv-unit-of-heading", data: { loss: "row" } });
  });

  test("a row of units that states none sets the sheet aside", () => {
    expect(read(sheet(";;;;;;"), siteOf(yaml)).setAside?.code).toBe("csv-unit-row-missing");
  });

  test.each([
    [
      "Größe: max_diameter_mm",
      '"Größe [cm]": max_diameter_mm',
      "the heading states cm, and mm is declared",
    ],
    ["Marke: mark", "Marke: place", "place is not a field of a centreline sheet"],
    ["Tag: exam_date, ", "", "a centreline sheet needs a column for exam_date"],
  ])("a mistake of its declaration is named: %s", (before, after, what) => {
    const { messages } = parseSiteConfig(yaml.replace(before, after), "site.yaml");
    expect(messages.map(({ text }) => text).join("\n")).toContain(what);
  });
});
