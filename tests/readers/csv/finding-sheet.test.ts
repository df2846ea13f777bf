import { describe, expect, test } from "vitest";
import { readSheet } from "../../../src/readers/csv/read-sheet.ts";
import { noSiteConfig, parseSiteConfig, type SiteConfig } from "../../../src/site/site-config.ts";

const read = (text: string | Uint8Array, site: SiteConfig = noSiteConfig) =>
  readSheet(
    typeof text === "string" ? new TextEncoder().encode(text) : text,
    "a.csv",
    "00ff",
    site,
  );
const headings = "patient_id,exam_date,place,finding,state,gated,modality,reader,comment";

describe("finding sheet", () => {
  test("one document per patient and date, each finding in its own words, no reading", () => {
    const { kind, documents, messages } = read(
      `${headings}\nP1,2025-01-02,zone 3,Entry tear,present,yes,CT,AB,small\nP1,2025-01-02,zone 4,false lumen,patent,,CT,,\nP2,2025-01-02,zone 4,false lumen,patent,,,,\n`,
    );
    expect(kind).toBe("finding sheet");
    expect(messages).toEqual([]);
    expect(
      documents.map(({ patient, readings, findings }) => [
        patient.id,
        readings.length,
        findings.length,
      ]),
    ).toEqual([
      ["P1", 0, 2],
      ["P2", 0, 1],
    ]);
    expect(documents[0]).toMatchObject({
      source: { at: "record 2, line 2" },
      exam: { imagingDate: "2025-01-02", gated: true, modality: "CT" },
      report: null,
    });
    expect(documents[0]?.findings[0]).toEqual({
      source: { file: "a.csv", sha256: "00ff", at: "record 2, line 2, column finding" },
      place: "zone 3",
      finding: "Entry tear",
      state: "present",
      reader: "AB",
      comment: "small",
    });
  });

  test.each([
    ["finding", "P1,2025-01-02,zone 3,,present,,,,"],
    ["state", "P1,2025-01-02,zone 3,entry tear,,,,,"],
  ])("a row without a %s is a finding that says so", (heading, row) => {
    const { documents, messages } = read(`${headings}\n${row}\n`);
    expect(messages).toEqual([]);
    expect(documents[0]?.findings).toMatchObject([
      {
        refused: {
          code: "csv-cell-missing",
          text: `finding left out: ${heading} is empty`,
          place: { at: `record 2, line 2, column ${heading}` },
        },
      },
    ]);
  });

  test.each([
    ["csv-cell-missing", ",2025-01-02,zone 3,entry tear,present,,,,"],
    ["csv-cell-missing", "P1,,zone 3,entry tear,present,,,,"],
    ["csv-date-ambiguous", "P1,02/01/2025,zone 3,entry tear,present,,,,"],
  ])("a row without a patient or date is left out: %s", (code, row) => {
    const { documents, messages } = read(`${headings}\n${row}\n`);
    expect(documents).toEqual([]);
    expect(messages.map((message) => message.code)).toEqual([code]);
  });

  test("whether a place is needed is not for the reader to say", () => {
    const { documents } = read(`${headings}\nP1,2025-01-02,,arch variant,usual,,,,\n`);
    expect(documents[0]?.findings[0]).toMatchObject({ place: "", finding: "arch variant" });
    expect(documents[0]?.findings[0]).not.toHaveProperty("refused");
  });
});

describe("what tells a finding sheet", () => {
  test.each([
    ["finding", "patient_id,exam_date,place,finding,state", "finding sheet", null],
    [
      "finding, though the state is missing",
      "patient_id,exam_date,place,finding,stat",
      "unreadable",
      "csv-heading-missing",
    ],
    [
      "not finding beside quantity and value",
      "patient_id,exam_date,place,quantity,value,finding",
      "measurement sheet",
      null,
    ],
    [
      "finding beside one of the two",
      "patient_id,exam_date,place,finding,state,value",
      "finding sheet",
      null,
    ],
  ])("%s", (_, heading, kind, code) => {
    const cells = heading.split(",").map((name) => (name === "exam_date" ? "2025-01-02" : "x"));
    const result = read(`${heading}\n${cells.join(",")}\n`);
    expect([result.kind, result.setAside?.code ?? null]).toEqual([kind, code]);
  });

  test("the missing heading is named with the one that is spelt like it", () => {
    const { setAside } = read("patient_id,exam_date,place,finding,stat\n");
    expect(setAside?.text).toBe("set aside: a finding sheet needs the heading state; it has stat");
  });
});

describe("a finding sheet of the site file", () => {
  const siteOf = (yaml: string): SiteConfig => {
    const { site, messages } = parseSiteConfig(yaml, "site.yaml");
    if (!site) throw new Error(messages.map(({ text }) => text).join("\n"));
    return site;
  };
  const site = siteOf(`
sheets:
  - name: tears
    titleLines: 1
    dates: day-month-year
    notMeasured: ["-"]
    totalRows: [Summe]
    columns: { Fall: patient_id, Tag: exam_date, Höhe: place, Zustand: state }
    always: { finding: entry tear, modality: CT }
    words: { state: { gefunden: present } }
`);
  const sheet =
    "Liste\nFall;Tag;Höhe;Zustand\nP1;3.2.2025;zone 3;GEFUNDEN\nP1;3.2.2025;zone 4;-\nSumme;;;\n";

  test("has headings, words, dates, fixed values, empty cells and totals of its own, in any encoding", () => {
    for (const bytes of [
      new TextEncoder().encode(sheet),
      new Uint8Array(Buffer.from(`\uFEFF${sheet}`, "utf16le")),
    ]) {
      const { kind, documents, messages } = read(bytes, site);
      expect(kind).toBe("finding sheet");
      expect(messages.map(({ code }) => code)).toEqual(["csv-row-total"]);
      expect(documents).toMatchObject([{ exam: { imagingDate: "2025-02-03", modality: "CT" } }]);
      expect(documents[0]?.findings).toMatchObject([
        {
          place: "zone 3",
          finding: "entry tear",
          state: "present",
          source: { at: "record 2, line 3" },
        },
        { refused: { code: "csv-cell-missing", data: { heading: "Zustand" } } },
      ]);
    }
  });

  test("in Windows-1252 it is read, and that is said", () => {
    const { documents, messages } = read(new Uint8Array(Buffer.from(sheet, "latin1")), site);
    expect(messages.map(({ code }) => code)).toContain("csv-encoding-guessed");
    expect(documents[0]?.findings).toHaveLength(2);
  });
});
