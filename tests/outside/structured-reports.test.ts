// Sources: the programs dsrdump and dcmconv of DCMTK and dciodvfy of dicom3tools (Debian packages dcmtk and
// dicom3tools), and the reader of the npm package dcmjs. None of their code takes part in the reading tested here.
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { coded, names } from "../../fixtures/content-items.ts";
import {
  type ReportedDocument,
  writeStructuredReport,
} from "../../fixtures/structured-report-writer.ts";
import { type DcmjsDataSet, DicomMessage } from "../../src/readers/dicom-sr/data-dictionary.ts";
import type { Reading } from "../../src/readers/reading.ts";
import {
  arch,
  ascending,
  diameter,
  diameterItem,
  group,
  invented,
  maximum,
  messageCodes,
  millimetre,
  read,
  readingsOf,
  reportBytes,
  site,
} from "../readers/dicom-sr/invented-report.ts";
import { numbersByDsrdump } from "./dcmtk.ts";
import { describeWithTools } from "./outside-tools.ts";

const folder = mkdtempSync(join(tmpdir(), "structured-reports-"));
afterAll(() => rmSync(folder, { recursive: true }));
const path = (name: string): string => join(folder, name);

/** A report that uses every part of the writer. */
const full: ReportedDocument = {
  ...invented,
  patient: { ...invented.patient, name: "Größe^Ångström" },
  verification: "VERIFIED",
  preliminary: "FINAL",
  predecessorUid: "2.25.900",
  images: {
    sopClassUid: "1.2.840.10008.5.1.4.1.1.2",
    seriesUid: "2.25.1004",
    instanceUids: ["2.25.1005", "2.25.1006"],
    modality: coded("DCM", "CT", "Computed Tomography"),
    studyDate: "20240104",
    acquisitionDate: "20240105",
  },
  groups: [
    {
      trackingIdentifier: "Größe \\ ascendens, erste Messung",
      trackingUid: "2.25.2001",
      finding: coded("SCT", "85659009", "Aneurysm"),
      findingSite: ascending,
      method: coded("99TEST", "OUTER", "Outer to outer"),
      numbers: [
        {
          concept: diameter,
          value: "41.25",
          unit: millimetre,
          modifiers: [{ name: names.derivation, value: maximum }],
        },
        {
          concept: coded("SCT", "42798000", "Area"),
          value: "1.3364E+03",
          unit: coded("UCUM", "mm2", "square millimeter"),
        },
        {
          concept: coded("SCT", "410668003", "Length"),
          value: null,
          unit: millimetre,
          qualifier: coded("DCM", "114007", "Measurement not attempted"),
        },
      ],
    },
    {
      trackingIdentifier: "arch",
      trackingUid: "2.25.2002",
      findingSite: arch,
      topographicalModifier: coded("SCT", "40415009", "Proximal"),
      numbers: [{ concept: diameter, value: "+0038.50", unit: millimetre }],
    },
    {
      trackingIdentifier: "side",
      trackingUid: "2.25.2003",
      findingSite: coded("SCT", "73634005", "Common iliac artery"),
      laterality: coded("SCT", "7771000", "Left"),
      numbers: [
        {
          concept: diameter,
          value: "1.1",
          unit: coded("UCUM", "cm", "centimeter"),
          method: coded("99TEST", "MPR", "Reformatted"),
        },
      ],
    },
  ],
};

/** What both sides are compared by: concept, value and unit of each number, in document order. */
type Line = [concept: string, value: string | null, unit: string | null];

const linesOf = (readings: Reading[]): Line[] =>
  readings.map(({ terms, valueText, unit }) => [
    terms.quantity.words,
    valueText,
    unit?.code ? `${unit.code.value} ${unit.code.scheme}` : null,
  ]);

/** The numbers that dsrdump prints. */
const printedByDsrdump = (file: string): Line[] =>
  numbersByDsrdump(file).map(({ concept, value, unit, scheme }) => [
    concept ?? "",
    value,
    unit === null ? null : `${unit} ${scheme}`,
  ]);

/** Lines of dciodvfy that begin with "Error". */
function errorsOf(file: string): string[] {
  const { stdout, stderr } = spawnSync("dciodvfy", [file], { encoding: "utf8" });
  const lines = `${stdout}\n${stderr}`.split("\n");
  expect(lines).toContain("EnhancedSR");
  return lines.filter((line) => line.startsWith("Error"));
}

const expected: Line[] = [
  ["Diameter", "41.25", "mm UCUM"],
  ["Area", "1.3364E+03", "mm2 UCUM"],
  ["Length", null, null],
  ["Diameter", "+0038.50", "mm UCUM"],
  ["Diameter", "1.1", "cm UCUM"],
];

describeWithTools(
  ["dsrdump", "dcmconv", "dciodvfy"],
  "written reports, checked with DCMTK and dicom3tools",
  () => {
    const write = (name: string, bytes: Uint8Array): string => {
      writeFileSync(path(name), bytes);
      return path(name);
    };

    for (const transferSyntax of ["explicit", "implicit"] as const) {
      test(`${transferSyntax}: valid, and read as dsrdump prints it`, () => {
        const bytes = writeStructuredReport(full, transferSyntax);
        const file = write(`${transferSyntax}.dcm`, bytes);
        expect(errorsOf(file)).toEqual([]);
        expect(printedByDsrdump(file)).toEqual(expected);
        expect(linesOf(readingsOf(read(bytes)))).toEqual(expected);
      });
    }

    test("an error is seen where there is one", () => {
      const broken = writeStructuredReport({ ...full, studyUid: "" });
      expect(errorsOf(write("broken.dcm", broken))).not.toEqual([]);
    });

    test.each([
      ["implicit little endian", "+ti"],
      ["explicit big endian", "+tb"],
      ["deflated", "+td"],
      ["defined lengths", "+te", "+e"],
      ["undefined lengths", "+te", "-e"],
      ["group lengths", "+g"],
      ["without file meta information", "-F", "+te"],
      ["implicit without file meta information", "-F", "+ti"],
      ["big endian without file meta information", "-F", "+tb"],
    ])("re-encoded by dcmconv: %s", (name, ...options) => {
      const bytes = writeStructuredReport(full);
      const original = write("original.dcm", bytes);
      const encoded = path(`${name}.dcm`);
      execFileSync("dcmconv", ["-q", ...options, original, encoded]);
      const reread = readFileSync(encoded);
      expect(Buffer.compare(reread, bytes)).not.toBe(0);
      expect(read(reread)).toEqual(read(bytes));
      expect(linesOf(readingsOf(read(reread)))).toEqual(expected);
    });

    test("bytes written without a library are read by both alike", () => {
      const content = [group(site(arch), diameterItem("40.5"), {}, diameterItem("41.5"))];
      for (const encoding of ["explicit", "implicit", "big-endian"] as const) {
        for (const lengths of ["defined", "undefined"] as const) {
          const bytes = reportBytes(content.slice(0, 1), {}, { encoding, lengths });
          const readings = linesOf(readingsOf(read(bytes)));
          expect(readings.map(([, value]) => value)).toEqual(["40.5", "41.5"]);
          const file = write(`${encoding}-${lengths}.dcm`, bytes);
          const printed = execFileSync("dcmdump", ["-q", "+P", "0040,a30a", file], {
            encoding: "utf8",
          });
          const values = [...printed.matchAll(/DS \[([^\]]*)\]/g)].map(([, value]) =>
            value?.trim(),
          );
          expect(values).toEqual(["40.5", "41.5"]);
        }
      }
    });

    test("a file that DCMTK calls truncated is not read", () => {
      const bytes = writeStructuredReport(full);
      for (const length of [1000, 2000, bytes.length - 8, bytes.length - 1]) {
        const cut = write("cut.dcm", bytes.subarray(0, length));
        expect(spawnSync("dcmdump", ["-q", cut]).status).not.toBe(0);
        expect(messageCodes(read(readFileSync(cut)))).toEqual(["report-truncated"]);
      }
    });
  },
);

describe("the same numbers as the reader of dcmjs", () => {
  /** Numeric Values in document order from the raw values of dcmjs, padding removed. */
  function numbersByDcmjs(bytes: Uint8Array): (string | null)[] {
    const numbersIn = (dataSet: DcmjsDataSet): (string | null)[] => {
      const items = (tag: string) => (dataSet[tag]?.Value ?? []) as DcmjsDataSet[];
      const [value] = items("0040A300");
      const raw = value?.["0040A30A"]?.["_rawValue"] as string[] | undefined;
      const own = dataSet["0040A300"] ? [raw?.[0]?.trim() ?? null] : [];
      return [...own, ...items("0040A730").flatMap(numbersIn)];
    };
    return numbersIn(DicomMessage.readFile(Uint8Array.from(bytes).buffer).dict);
  }

  test.each(["explicit", "implicit"] as const)("%s", (transferSyntax) => {
    const bytes = writeStructuredReport(full, transferSyntax);
    const values = readingsOf(read(bytes)).map(({ valueText }) => valueText);
    expect(numbersByDcmjs(bytes)).toEqual(values);
  });

  test.each(["explicit", "implicit", "big-endian"] as const)(
    "bytes written without a library: %s",
    (encoding) => {
      const content = [group(site(arch), diameterItem("40.5"), diameterItem("41.5"))];
      const bytes = reportBytes(content, {}, { encoding });
      const values = readingsOf(read(bytes)).map(({ valueText }) => valueText);
      expect(values).toEqual(["40.5", "41.5"]);
      expect(numbersByDcmjs(bytes)).toEqual(values);
    },
  );
});
