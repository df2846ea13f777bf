import { describe, expect, test } from "vitest";
import { readSheet } from "../../../src/readers/csv/read-sheet.ts";
import { noSiteConfig } from "../../../src/site/site-config.ts";

const read = (text: string | Uint8Array) =>
  readSheet(
    typeof text === "string" ? new TextEncoder().encode(text) : text,
    "a.csv",
    "00ff",
    noSiteConfig,
  );
const headings = "patient_id,exam_date,place,quantity,statistic,value,unit,edge,gated,comment";

describe("measurement sheet", () => {
  test("one document per patient and date, each reading with its text, unit, words and place", () => {
    const { kind, documents, messages } = read(
      `${headings}\nP1,2025-01-02,aortic arch,diameter,maximum,51.40,mm,outer,yes,\nP1,2025-01-02,zone 2,perimeter,,96,mm,,yes,\nP2,2025-01-02,arch,diameter,,5.1,cm,,,\n`,
    );
    expect(kind).toBe("measurement sheet");
    expect(messages).toEqual([]);
    expect(documents.map(({ patient, readings }) => [patient.id, readings.length])).toEqual([
      ["P1", 2],
      ["P2", 1],
    ]);
    expect(documents[0]?.exam).toMatchObject({ imagingDate: "2025-01-02", gated: true });
    expect(documents[1]?.exam.gated).toBeNull();
    expect(documents[0]?.readings[0]).toMatchObject({
      valueText: "51.40",
      unit: { words: "mm", code: null },
      source: { file: "a.csv", sha256: "00ff", at: "record 2, line 2, column value" },
      terms: { statistic: "maximum", edge: "outer", lumen: null },
    });
  });

  test("a quoted line break and empty lines do not shift the line of a place", () => {
    const { documents } = read(
      `${headings}\r\n\r\nP1,2025-01-02,arch,diameter,,51,mm,,,"two\r\nlines"\r\nP1,2025-01-02,arch,diameter,,52,mm,,,\r\n`,
    );
    expect(documents[0]?.readings.map(({ source }) => source.at)).toEqual([
      "record 2, lines 3 to 4, column value",
      "record 3, line 5, column value",
    ]);
  });

  test.each([
    ["P1,,arch,diameter,,51,mm,,,", "csv-cell-missing", "record 2, line 2, column exam_date"],
    [
      "P1,2025-02-30,arch,diameter,,51,mm,,,",
      "csv-date-not-iso",
      "record 2, line 2, column exam_date",
    ],
    [
      "P1,02/01/2025,arch,diameter,,51,mm,,,",
      "csv-date-ambiguous",
      "record 2, line 2, column exam_date",
    ],
  ])("leaves out the row %s and says where", (row, code, at) => {
    const { documents, messages } = read(`${headings}\n${row}\n`);
    expect(documents).toEqual([]);
    expect(messages).toMatchObject([{ code, place: { at } }]);
  });

  test.each([
    ["P1,2025-01-02,arch,diameter,,,mm,,,", "csv-cell-missing"],
    ["P1,2025-01-02,,diameter,,51,mm,,,", "csv-cell-missing", "place"],
    ["P1,2025-01-02,arch,diameter,,< 51,mm,,,", "csv-number-not-understood"],
    ['P1,2025-01-02,arch,diameter,,"5,1",cm,,,', "csv-number-comma"],
    ["P1,2025-01-02,arch,diameter,,51 mm,cm,,,", "csv-units-differ"],
  ])("the row %s is a reading that says why it can't be used", (row, code, column = "value") => {
    const { documents, messages } = read(`${headings}\n${row}\n`);
    expect(messages).toEqual([]);
    expect(documents[0]?.readings).toMatchObject([
      { refused: { code, place: { at: `record 2, line 2, column ${column}` } } },
    ]);
  });

  test("a unit may stand in the heading or in the cell; an empty unit stays not stated", () => {
    const text =
      "patient_id,exam_date,place,quantity,Value [mm],unit\nP1,2025-01-02,arch,diameter,51,\nP1,2025-01-02,arch,diameter,51 mm,mm\n";
    const [first, second] = read(text).documents[0]?.readings ?? [];
    expect(first).toMatchObject({ valueText: "51", unit: { words: "mm" } });
    expect(second).toMatchObject({ valueText: "51", unit: { words: "mm" } });
    const bare = text.replace(" [mm]", "");
    expect(read(bare).documents[0]?.readings[0]?.unit).toBeNull();
  });

  test("rows that say of a patient what others do not say are documents of their own", () => {
    const { documents } = read(
      `birth_date,${headings}\n1950-01-31,P1,2025-01-02,arch,diameter,,51,mm,,,\n1951-01-31,P1,2025-01-02,arch,diameter,,52,mm,,,\n`,
    );
    expect(documents.map(({ patient }) => patient.birthDate)).toEqual(["1950-01-31", "1951-01-31"]);
  });

  test("rows of one exam that disagree on gating are documents of their own, and that is said", () => {
    const { documents, messages } = read(
      `${headings}\nP1,2025-01-02,arch,diameter,,51,mm,,yes,\nP1,2025-01-02,arch,area,,9,cm2,,no,\nP1,2025-01-02,arch,perimeter,,99,mm,,yes,\n`,
    );
    expect(documents.map(({ exam, readings }) => [exam.gated, readings.length])).toEqual([
      [true, 2],
      [false, 1],
    ]);
    expect(messages.map(({ code }) => code)).toEqual(["csv-gated-differs"]);
  });

  test.each([";", "\t", "|"])("finds the delimiter %j in the heading line", (delimiter) => {
    const text = `${headings.replaceAll(",", delimiter)}\n${"P1,2025-01-02,arch,diameter,,51.5,mm,,,".replaceAll(",", delimiter)}\n`;
    expect(read(text).documents[0]?.readings[0]?.valueText).toBe("51.5");
  });

  test("keeps a leading zero of a patient ID", () => {
    const { documents } = read(`${headings}\n0071,2025-01-02,arch,diameter,,51,mm,,,\n`);
    expect(documents[0]?.patient.id).toBe("0071");
  });
});

describe("encodings", () => {
  const sheet = "patient_id,name,diagnosis\nP1,Größe,aneurysm\n";
  const utf16 = (littleEndian: boolean): Uint8Array => {
    const text = `\uFEFF${sheet}`;
    const view = new DataView(new ArrayBuffer(text.length * 2));
    for (const [index, unit] of [...text].entries()) {
      view.setUint16(index * 2, unit.charCodeAt(0), littleEndian);
    }
    return new Uint8Array(view.buffer);
  };
  test.each([
    ["UTF-8", new TextEncoder().encode(sheet)],
    ["UTF-8 with a byte-order mark", new TextEncoder().encode(`\uFEFF${sheet}`)],
    ["UTF-16 little endian", utf16(true)],
    ["UTF-16 big endian", utf16(false)],
  ])("reads %s", (_, bytes) => {
    const { caseRows, messages } = read(bytes);
    expect(caseRows[0]?.name).toBe("Größe");
    expect(messages).toEqual([]);
  });

  test("reads Windows-1252 and says so", () => {
    const bytes = Uint8Array.from(sheet, (letter) => letter.charCodeAt(0));
    const { caseRows, messages } = read(bytes);
    expect(caseRows[0]?.name).toBe("Größe");
    expect(messages.map(({ code }) => code)).toEqual(["csv-encoding-guessed"]);
  });
});

describe("case sheet", () => {
  test("reads a row; cells that can't be understood are reported and left empty", () => {
    const { kind, caseRows, messages } = read(
      'patient_id,sex,height_cm,birth_date,onset_date,question,dissection,malperfusion,arch_variant,symptoms\nP1,female,"1,70",1950-01-31,May 2020,Why?,B 3-5,left renal,usual,hoarseness; compression\n',
    );
    expect(kind).toBe("case sheet");
    expect(caseRows[0]).toMatchObject({
      patientId: "P1",
      sex: "F",
      heightCm: null,
      birthDate: "1950-01-31",
      onsetDate: null,
      question: "Why?",
      weightKg: null,
      dissection: "B 3-5",
      malperfusion: "left renal",
      archVariant: "usual",
      symptoms: "hoarseness; compression",
    });
    expect(messages.map(({ code }) => code)).toEqual(["csv-number-comma", "csv-date-not-iso"]);
  });
});

test("a sheet without any row is set aside", () => {
  const { setAside, kind } = read(`${headings}\n`);
  expect(kind).toBe("measurement sheet");
  expect(setAside?.code).toBe("csv-without-rows");
});

describe("meeting list", () => {
  test("is ordered by its order column", () => {
    const { kind, meetingRows } = read(
      "order,patient_id,presenter_role,question\n2,P2,,\n1,P1,vascular surgeon,Why?\n",
    );
    expect(kind).toBe("meeting list");
    expect(meetingRows.map(({ patientId }) => patientId)).toEqual(["P1", "P2"]);
    expect(meetingRows[0]).toMatchObject({
      presenterRole: "vascular surgeon",
      question: "Why?",
      depth: null,
    });
  });

  test("says how much of a case the packet holds; another word is reported, and the row stays", () => {
    const { meetingRows, messages } = read(
      "order,patient_id,depth\n1,P1,summary\n2,P2,Plan report\n3,P3,options\n4,P4,\n5,P5,deep\n",
    );
    expect(meetingRows.map(({ depth }) => depth)).toEqual([
      "summary",
      "plan report",
      "options",
      null,
      null,
    ]);
    expect(messages).toMatchObject([{ code: "csv-choice-not-understood", data: { met: "deep" } }]);
  });
});

describe("sheets that are set aside", () => {
  test.each([
    ["headings of another table", "a,b\n1,2\n", "file-not-recognised"],
    ["a heading that stands twice", `${headings},Value\n`, "csv-heading-twice"],
    ["a heading that is missing", "patient_id,quantity,value\n", "csv-heading-missing"],
    ["a row of another length", `${headings}\nP1,2025-01-02\n`, "csv-row-length"],
    [
      "a decimal comma without quotes in a sheet with commas",
      `${headings}\nP1,2025-01-02,arch,diameter,,5,1,cm,,,\n`,
      "csv-row-length",
    ],
    ["one cell too many, though empty, with commas", "patient_id,sex\nP1,F,\n", "csv-row-length"],
    ["a quote that is not closed", `${headings}\nP1,"2025-01-02\n`, "csv-broken"],
    ["control characters", `${headings}\nP\u0000\n`, "csv-not-text"],
  ])("%s", (_, text, code) => {
    const { setAside, documents } = read(text);
    expect(setAside?.code).toBe(code);
    expect(documents).toEqual([]);
  });

  test("a broken row names its line", () => {
    const { setAside } = read(`${headings}\nP1,2025-01-02,arch,diameter,,51,mm,,,\nP1,x\n`);
    expect(setAside?.place?.at).toBe("record 3, line 3");
  });

  test("a quote that is not closed names the line where its record begins", () => {
    const { setAside } = read(`${headings}\nP1,"2025\n\n\n`);
    expect(setAside?.place?.at).toBe("line 2");
  });

  test("a missing heading names one that is spelt like it", () => {
    const { setAside } = read(`${headings.replace("exam_date", "exam-date")}\n`);
    expect(setAside?.text).toContain("needs the heading exam_date; it has exam-date");
  });
});

test("columns that are not used are noted once, without a heading only where they hold something", () => {
  const { messages } = read("patient_id,sex,shoe_size,hat,,\nP1,F,38,7,,\nP2,F,38,7,,left\n");
  expect(messages).toMatchObject([
    {
      code: "csv-heading-not-used",
      data: { headings: "shoe_size, hat, column 6 (without a heading)", kind: "case sheet" },
    },
  ]);
});

test("a heading that is not used may stand twice", () => {
  const { setAside, caseRows } = read("patient_id,sex,note,note\nP1,F,,\n");
  expect(setAside).toBeNull();
  expect(caseRows).toHaveLength(1);
});

test("rows of empty cells are passed over and counted", () => {
  const { caseRows, messages } = read("patient_id,sex\n,\nP1,F\n , \n\n  \n");
  expect(caseRows).toHaveLength(1);
  expect(messages).toMatchObject([{ code: "csv-rows-empty", data: { count: 3, line: 2 } }]);
});

test("trailing delimiters other than commas are no cells", () => {
  const { caseRows, setAside } = read("patient_id;sex\nP1;F;;\n");
  expect(setAside).toBeNull();
  expect(caseRows[0]).toMatchObject({ patientId: "P1", sex: "F" });
});

test("a first line sep= names the delimiter and counts as a line", () => {
  const { caseRows } = read("sep=;\npatient_id;sex;name\nP1;F;Made,Up\n");
  expect(caseRows[0]).toMatchObject({ name: "Made,Up", source: { at: "record 2, line 3" } });
});

test.each([
  ["a million columns", `${"c,".repeat(1_000_000)}c\n`],
  ["a million columns in a data row", `patient_id,sex\n${"c;".repeat(1_000_000)}c\n`],
  ["more bytes than a list has", `patient_id,sex\n${"P1,F\n".repeat(1_100_000)}`],
])("a sheet of %s is set aside at once", (_, text) => {
  const started = performance.now();
  expect(read(text).setAside?.code).toBe("csv-too-large");
  expect(performance.now() - started).toBeLessThan(2000);
});
