import { readFileSync } from "node:fs";
import { stringify } from "csv-stringify/sync";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { buildDictionary } from "../../../src/anatomy/dictionary.ts";
import { measure } from "../../../src/cases/measure.ts";
import { readSheet } from "../../../src/readers/csv/read-sheet.ts";
import { parseSiteConfig, type SiteConfig } from "../../../src/site/site-config.ts";

const siteOf = (yaml: string): SiteConfig => {
  const { site, messages } = parseSiteConfig(yaml, "site.yaml");
  if (!site) throw new Error(messages.map(({ text }) => text).join("\n"));
  return site;
};
const example = siteOf(readFileSync("fixtures/site-example.yaml", "utf8"));
const read = (text: string, site: SiteConfig = example) =>
  readSheet(new TextEncoder().encode(text), "a.csv", "00ff", site);
const readingsIn = (text: string, site?: SiteConfig) =>
  read(text, site).documents.flatMap(({ readings }) => readings);
const placed = (text: string, site: SiteConfig = example) => {
  const dictionary = buildDictionary(site);
  return readingsIn(text, site).map((reading) => measure(reading, "", dictionary));
};

const titles = "Export of the example lab;;\n;\n";
const headings =
  "Pat.-No.;Scan date;Born;Ø sinus;Ø asc;Area asc;Ø zone 3 [mm];Sound zone 2;Remark;Internal";
const units = ";;;[mm];cm;(cm²);;;;";
const wide = (...rows: string[]) => `${titles}${headings}\n${units}\n${rows.join("\n")}\n`;

describe("a wide sheet of the site file", () => {
  test("gives a measurement per filled cell, in its place, quantity and unit", () => {
    const results = placed(wide("P1;3.2.2025;1950-01-31;38,0;4,15;13,5;33;21;a remark;x"));
    expect(results.flatMap(({ messages }) => messages)).toEqual([]);
    expect(
      results.map(({ measurement }) => [
        measurement?.place.id,
        measurement?.quantity,
        measurement?.statistic,
        measurement?.edge,
        measurement?.value,
        measurement?.unit,
        measurement?.asWritten,
        measurement?.source.at,
      ]),
    ).toEqual([
      [
        "sinuses-of-valsalva",
        "diameter",
        "maximum",
        "inner",
        38,
        "mm",
        "38,0 mm",
        "record 3, line 5, column Ø sinus",
      ],
      [
        "mid-ascending",
        "diameter",
        "maximum",
        "outer",
        41.5,
        "mm",
        "4,15 cm",
        "record 3, line 5, column Ø asc",
      ],
      [
        "mid-ascending",
        "area",
        "unstated",
        "unstated",
        1350,
        "mm2",
        "13,5 cm2",
        "record 3, line 5, column Area asc",
      ],
      [
        "zone-3",
        "diameter",
        "unstated",
        "outer",
        33,
        "mm",
        "33 mm",
        "record 3, line 5, column Ø zone 3 [mm]",
      ],
      [
        "zone-2",
        "sound-length",
        "unstated",
        "unstated",
        21,
        "mm",
        "21 mm",
        "record 3, line 5, column Sound zone 2",
      ],
    ]);
    expect(results[4]?.measurement?.path).toBe("centreline");
    expect(results[3]?.measurement?.lumen).toBe("whole");
  });

  test("states patient, birth date and exam; empty cells and those that say not measured are nothing", () => {
    const { documents, messages, kind } = read(
      wide("P1;3.2.2025;31.1.1950;38,0;-;N/A;;;;", "P2;20250203;;;;;;;;"),
    );
    expect(kind).toBe("measurement sheet");
    expect(documents).toHaveLength(1);
    expect(documents[0]).toMatchObject({
      patient: { id: "P1", birthDate: "1950-01-31" },
      exam: { imagingDate: "2025-02-03", imagingDateOrigin: "sheet column" },
    });
    expect(documents[0]?.readings).toHaveLength(1);
    expect(messages).toMatchObject([
      { code: "csv-heading-not-used", data: { headings: "Internal" } },
    ]);
  });

  test("a row of totals, whatever its length, is left out and said", () => {
    const { documents, messages } = read(
      wide("P1;3.2.2025;;38,0;;;;;;", "Total: 1;", "Meaning;3.2.2025;;40;;;;;;"),
    );
    expect(documents.map(({ patient }) => patient.id)).toEqual(["P1", "Meaning"]);
    expect(messages[0]).toMatchObject({
      code: "csv-row-total",
      place: { at: "record 4, line 6" },
      data: { met: "Total: 1" },
    });
  });

  test.each([
    ["38.0", "csv-number-point"],
    ["1.038,0", "csv-number-grouped"],
    ["3,8 cm", "csv-units-differ"],
    ["about 38", "csv-number-not-understood"],
  ])("the cell %s is refused at its place", (cell, code) => {
    const [reading] = readingsIn(wide(`P1;3.2.2025;;${cell};;;;;;`));
    expect(reading?.refused).toMatchObject({
      code,
      place: { at: "record 3, line 5, column Ø sinus" },
    });
  });

  test("a cell without a unit anywhere is not used", () => {
    const site = siteOf(
      "sheets:\n  - name: bare\n    columns:\n      id: patient_id\n      day: exam_date\n      asc: {place: mid-ascending, quantity: diameter}\n",
    );
    const results = placed("id,day,asc\nP1,2025-02-03,41\nP1,2025-03-03,42 mm\n", site);
    expect(results.map(({ messages }) => messages[0]?.code)).toEqual([
      "unit-not-stated",
      undefined,
    ]);
    expect(results[1]?.measurement?.value).toBe(42);
  });

  test("a row of patients where the units should stand sets the sheet aside", () => {
    const { setAside } = read(`${titles}${headings}\nP1;3.2.2025;;38,0;;;;;;\n`);
    expect(setAside?.code).toBe("csv-unit-row-missing");
  });

  test("a sheet without one of the declared headings names it", () => {
    const { setAside } = read(wide().replace("Area asc", "Areal asc"));
    expect(setAside).toMatchObject({
      code: "csv-declared-heading-missing",
      text: expect.stringContaining("not area asc; it has areal asc"),
    });
  });

  test("headings after another number of title lines are told", () => {
    const { setAside } = read(wide().replace("Export", "\n\nExport"));
    expect(setAside).toMatchObject({
      code: "csv-title-lines",
      data: { name: "aorta table of the example lab", met: 4, expected: 2 },
    });
  });

  test("headings are compared without case, extra spaces and way of composing letters", () => {
    const text = wide("P1;3.2.2025;;38,0;;;;;;")
      .replace("Pat.-No.", "  PAT.-NO. ")
      .replace("Ø asc", "Ø\u00A0\u00A0ASC");
    expect(readingsIn(text)).toHaveLength(1);
  });
});

describe("a long sheet of the site file", () => {
  const long = "Patientennummer,Datum,Ort,Größe,Wert [mm],EKG-getriggert\n";

  test("is read by its own headings, words and what always holds", () => {
    const text = `${long}P1,03.02.2025,Aorta ascendens,Durchmesser,41.5,ja\nP1,03.02.2025,zone 3,umfang,100,\n`;
    const [first, second] = placed(text);
    expect(first?.measurement).toMatchObject({
      place: { id: "ascending-aorta" },
      quantity: "diameter",
      statistic: "maximum",
      edge: "outer",
      value: 41.5,
      source: { at: "record 2, line 2, column Wert [mm]" },
    });
    expect(second?.measurement).toMatchObject({ quantity: "perimeter", value: 100 });
    expect(read(text).documents[0]?.exam).toMatchObject({ gated: true, modality: "CT" });
  });

  test("a word that no one declared is refused by what understands words", () => {
    const [result] = placed(`${long}P1,03.02.2025,Aorta ascendens,Wanddicke,41.5,\n`);
    expect(result?.messages.map(({ code }) => code)).toEqual(["quantity-not-understood"]);
  });

  test("without the site file it is not recognised", () => {
    expect(read(`${long}P1,03.02.2025,a,b,1,\n`, siteOf("{}")).setAside?.code).toBe(
      "file-not-recognised",
    );
  });
});

describe("which declared sheet fits", () => {
  const two = (first: string, second: string) =>
    siteOf(
      `sheets:\n  - name: one\n    columns: {id: patient_id, ${first}}\n  - name: two\n    columns: {id: patient_id, ${second}}\n`,
    );

  test("the one with the most headings goes first", () => {
    const site = two("born: birth_date", "born: birth_date, sex: sex");
    expect(read("id,born,sex\nP1,1950-01-31,F\n", site).caseRows[0]?.sex).toBe("F");
    expect(read("id,born\nP1,1950-01-31\n", site).caseRows[0]?.sex).toBeNull();
  });

  test("two that fit equally well set the sheet aside", () => {
    const site = two("born: birth_date", "sex: sex");
    expect(read("id,born,sex\nP1,1950-01-31,F\n", site).setAside).toMatchObject({
      code: "csv-sheets-fit",
      data: { name: "one", other: "two" },
    });
  });

  test("a comma inside a heading does not hide the delimiter", () => {
    const site = two('"born, on": birth_date', "x: sex");
    expect(read("id;born, on\nP1;1950-01-31\n", site).caseRows[0]?.birthDate).toBe("1950-01-31");
  });

  test("a meeting list can have headings of its own", () => {
    const site = siteOf("sheets:\n  - name: m\n    columns: {No.: order, Patient: patient_id}\n");
    expect(read("No.;Patient\n2;P2\n1;P1\n", site).meetingRows.map((row) => row.patientId)).toEqual(
      ["P1", "P2"],
    );
  });
});

test("decimal and dates of the whole site hold for sheets with this program's headings", () => {
  const text =
    "patient_id;exam_date;place;quantity;value;unit\nP1;03.02.2025;mid-ascending;diameter;4,15;cm\n";
  expect(
    placed(text, siteOf("decimal: comma\ndates: day-month-year\n"))[0]?.measurement?.value,
  ).toBe(41.5);
  expect(read(text, siteOf("{}")).messages.map(({ code }) => code)).toEqual(["csv-date-ambiguous"]);
});

test("no number of a wide table is lost, changed or put under another patient, date or place", () => {
  const places = ["zone-1", "zone-2", "zone-3", "zone-5"];
  const columns = places.map(
    (place) => `      Ø ${place}: {place: ${place}, quantity: diameter, unit: mm}`,
  );
  const site = (mark: string) =>
    siteOf(
      `sheets:\n  - name: t\n    decimal: ${mark}\n    columns:\n      id: patient_id\n      day: exam_date\n${columns.join("\n")}\n`,
    );
  const sites = { comma: site("comma"), point: site("point") };
  const size = fc.option(
    fc.integer({ min: 1000, max: 15_000 }).map((hundredths) => hundredths / 100),
  );
  const rows = fc.uniqueArray(
    fc.record({
      id: fc.constantFrom("P1", "P2", "P3"),
      day: fc.constantFrom("2024-01-01", "2025-01-01"),
      sizes: fc.tuple(size, size, size, size),
    }),
    { selector: ({ id, day }) => id + day, minLength: 1, maxLength: 6 },
  );
  const property = fc.property(
    rows,
    fc.shuffledSubarray([0, 1, 2, 3], { minLength: 4 }),
    fc.constantFrom("comma", "point"),
    fc.constantFrom(",", ";", "\t", "|"),
    (table, order, mark, delimiter) => {
      const text = stringify(
        [
          ["day", "id", ...order.map((index) => `Ø ${places[index]}`)],
          ...table.map(({ id, day, sizes }) => [
            day,
            id,
            ...order.map((index) =>
              String(sizes[index] ?? "").replace(".", mark === "comma" ? "," : "."),
            ),
          ]),
        ],
        { delimiter },
      );
      const site = sites[mark];
      const dictionary = buildDictionary(site);
      const met = read(text, site).documents.flatMap(({ patient, exam, readings }) =>
        readings.map((reading) => {
          const { measurement } = measure(reading, "", dictionary);
          return [patient.id, exam.imagingDate, measurement?.place.id, measurement?.value].join(
            " ",
          );
        }),
      );
      const expected = table.flatMap(({ id, day, sizes }) =>
        places.flatMap((place, index) =>
          sizes[index] === null ? [] : [[id, day, place, sizes[index]].join(" ")],
        ),
      );
      expect(met.toSorted()).toEqual(expected.toSorted());
    },
  );
  fc.assert(property, { numRuns: 300 });
});
