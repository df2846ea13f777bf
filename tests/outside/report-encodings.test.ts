// Sources: the programs dsrdump, dsr2xml and dcmconv of DCMTK (Debian package dcmtk) and the Python library pydicom
// (Debian package python3-pydicom), which also writes the files in other character sets than UTF-8.
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { deflateRawSync } from "node:zlib";
import { expect, test } from "vitest";
import { writeBytes } from "../../fixtures/byte-writer.ts";
import {
  coded,
  codeElements,
  container,
  type Elements,
  measuredValue,
  names,
  numberItem,
  sequence,
  text,
  textItem,
} from "../../fixtures/content-items.ts";
import { headerOf, rootOf } from "../../fixtures/structured-report-writer.ts";
import {
  arch,
  ascending,
  diameterItem,
  group,
  invented,
  maximum,
  messageCodes,
  modifier,
  read,
  reportBytes,
  site,
} from "../readers/dicom-sr/invented-report.ts";
import { numbersByDsr2xml, numbersByDsrdump } from "./dcmtk.ts";
import { describeWithTools } from "./outside-tools.ts";
import { describeWithPydicom, type PydicomReport, recodeWithPydicom } from "./pydicom.ts";
import { byPydicom, once, ours, scratchFolder, withoutPlace } from "./report-comparison.ts";

const { newPath, write } = scratchFolder("report-encodings");

const length = coded("SCT", "410668003", "Length");
const area = coded("SCT", "42798000", "Area");
const squareCentimetre = coded("UCUM", "cm2", "square centimeter");
const failed = coded("DCM", "114006", "Measurement failure");

/** Numbers in every spelling that the value representation allows, with and without value and unit. */
const content = [
  container(names.imagingMeasurements, [
    group(
      site(ascending),
      diameterItem("41.25", [modifier(names.derivation, maximum)]),
      numberItem("CONTAINS", area, [measuredValue("1.3364E+01", squareCentimetre)]),
      numberItem("CONTAINS", length, [], [], failed),
    ),
    group(site(arch), diameterItem("+0038.50"), diameterItem("-1"), diameterItem(".5")),
  ]),
];
const numberCount = 6;

/** The report in each form that a file can have, by name. */
function forms(): [name: string, bytes: Uint8Array][] {
  const written: [string, Uint8Array][] = [];
  for (const encoding of ["explicit", "implicit", "big-endian"] as const) {
    for (const lengths of ["defined", "undefined"] as const) {
      for (const meta of ["preamble", "no preamble", "none"] as const) {
        const bytes = reportBytes(content, {}, { encoding, lengths, meta });
        written.push([`${encoding}, ${lengths} lengths, meta ${meta}`, bytes]);
      }
    }
  }
  for (const lengths of ["defined", "undefined"] as const) {
    const body = reportBytes(content, {}, { meta: "none", lengths });
    const transferSyntax = "1.2.840.10008.1.2.1.99";
    const whole = reportBytes(content, {}, { transferSyntax, lengths });
    const head = whole.subarray(0, whole.length - body.length);
    written.push([`deflated, ${lengths} lengths`, Buffer.concat([head, deflateRawSync(body)])]);
  }
  return written;
}

describeWithTools(["dsrdump", "dsr2xml"], "the same numbers in every form", () => {
  const files = forms().map(([name, bytes]) => ({ name, bytes, path: write(bytes) }));

  test.each(files)("$name: as dsrdump and dsr2xml print them", ({ bytes, path }) => {
    const numbers = withoutPlace(ours(bytes));
    expect(numbers).toHaveLength(numberCount);
    expect(numbersByDsrdump(path)).toEqual(numbers);
    expect(numbersByDsr2xml(path)).toEqual(numbers);
  });

  describeWithPydicom("and as pydicom reads them", () => {
    const reports = once(() => byPydicom(files.map(({ path }) => path)));
    test.each(files)("$name", ({ name, bytes }) => {
      const index = files.findIndex((file) => file.name === name);
      expect(reports()[index]).toEqual(ours(bytes));
    });
  });
});

/** Letters of each character set, with the terms that declare it, and whether DCMTK as Debian builds it can convert it. */
const letters: [terms: string, sample: string, byDcmtk: boolean][] = [
  ["ISO_IR 100", "Größe Ångström ÿ", true],
  ["ISO_IR 101", "Wałęsa źdźbło Őr", true],
  ["ISO_IR 109", "Ĉiuĵaŭde Ħamrun", true],
  ["ISO_IR 110", "Ģirts ēķis Ųū", true],
  ["ISO_IR 144", "Люкcемб Ўрг", true],
  ["ISO_IR 127", "قباني لنزار", true],
  ["ISO_IR 126", "Διονυσιος Ώ", true],
  ["ISO_IR 138", "שרון דבורה", true],
  ["ISO_IR 148", "Işık Ğüneş", true],
  ["ISO_IR 166", "นามสกุล ชื่อ", true],
  ["ISO_IR 13", "ﾔﾏﾀﾞﾀﾛｳ", true],
  ["ISO_IR 192", "Größe 山田 홍 𠀋", true],
  ["GB18030", "小东 㐀 𠀋", true],
  ["GBK", "小东 王", true],
  ["ISO 2022 IR 6\\ISO 2022 IR 87", "Yamada 山田 太郎", false],
  ["ISO 2022 IR 13\\ISO 2022 IR 87", "ﾔﾏﾀﾞ山田やまだ", false],
  ["ISO 2022 IR 6\\ISO 2022 IR 159", "丂 仳", false],
  ["ISO 2022 IR 6\\ISO 2022 IR 149", "Hong 홍 길동", true],
  ["ISO 2022 IR 100\\ISO 2022 IR 144\\ISO 2022 IR 126", "Größe Люк Διο", true],
  ["ISO 2022 IR 6\\ISO 2022 IR 101\\ISO 2022 IR 127", "Wałęsa قباني", true],
  ["ISO 2022 IR 6\\ISO 2022 IR 138\\ISO 2022 IR 148\\ISO 2022 IR 166", "שרון Işık นาม", true],
  ["ISO 2022 IR 6\\ISO 2022 IR 109\\ISO 2022 IR 110", "Ĉiuĵ Ģirts", true],
];

/** A report with these letters in the patient's name, a concept name and a tracking identifier. */
const lettered = (sample: string): Elements => ({
  ...headerOf({ ...invented, patient: { ...invented.patient, name: `${sample}^${sample}` } }),
  ...rootOf([
    container(names.measurementGroup, [
      textItem("HAS OBS CONTEXT", names.trackingIdentifier, sample),
      diameterItem("42.5", [], coded("99TEST", "X", sample)),
    ]),
  ]),
});

/** Reports whose text pydicom has written in the character sets. */
function recodedByPydicom(wanted: [terms: string, sample: string][]) {
  const jobs = wanted.map(([terms, sample]) => ({
    from: write(writeBytes(lettered(sample))),
    to: newPath(),
    terms: terms.split("\\"),
  }));
  recodeWithPydicom(jobs);
  return jobs.map(({ to }) => ({ path: to, bytes: readFileSync(to) }));
}

/** What dcmconv makes of a file in UTF-8: read by this program, and its number as dsrdump prints it. */
function convertedByDcmtk(path: string): { report: PydicomReport; concept: string | null } {
  const converted = newPath();
  execFileSync("dcmconv", ["-q", "+U8", path, converted], { stdio: "pipe" });
  const [number] = numbersByDsrdump(converted);
  return { report: ours(readFileSync(converted)), concept: number?.concept ?? null };
}

// pydicom 2.3.1 parts a value at a byte 5C before it decodes it, so that DCMTK alone judges these.
const withBackslashByte: [terms: string, sample: string][] = [
  ["GB18030", "乗"],
  ["GBK", "乗"],
];

describeWithPydicom("every character set", () => {
  const files = once(() =>
    recodedByPydicom([
      ...letters.map(([terms, sample]): [string, string] => [terms, sample]),
      ...withBackslashByte,
    ]),
  );
  const fileOf = (index: number) => files()[index] ?? expect.fail("no file");
  const reports = once(() => byPydicom(files().map(({ path }) => path)));
  const cases = letters.map(([terms, sample, byDcmtk], index) => ({
    terms,
    sample,
    byDcmtk,
    index,
  }));

  test.each(cases)("$terms, written and read by pydicom: $sample", ({ terms, sample, index }) => {
    const { bytes } = fileOf(index);
    expect(bytes.includes(Buffer.from(sample)), "written in UTF-8").toBe(terms === "ISO_IR 192");
    const report = ours(bytes);
    expect(report.numbers[0]).toMatchObject({ concept: sample, value: "42.5", tracking: sample });
    expect(report.patientName).toBe(`${sample}, ${sample}`);
    expect(reports()[index]).toEqual(report);
    expect(messageCodes(read(bytes))).not.toContain("text-doubtful");
  });

  describeWithTools(["dcmconv", "dsrdump"], "converted to UTF-8 by dcmconv", () => {
    test.each(cases)("$terms: $sample", ({ sample, byDcmtk, index }) => {
      const { bytes, path } = fileOf(index);
      if (byDcmtk) expect(convertedByDcmtk(path)).toEqual({ report: ours(bytes), concept: sample });
      else expect(() => convertedByDcmtk(path)).toThrow("character encoding");
    });

    test.each(withBackslashByte)("a trail byte 5C in %s", (terms, sample) => {
      const { bytes, path } = fileOf(letters.length + (terms === "GBK" ? 1 : 0));
      expect(ours(bytes).numbers[0]?.concept).toBe(sample);
      expect(convertedByDcmtk(path)).toEqual({ report: ours(bytes), concept: sample });
    });
  });
});

/** A report in these sets whose name, concept name and tracking identifier are these bytes. */
function inSet(terms: string, encoded: string): Uint8Array {
  const letterBytes = Buffer.from(encoded.replaceAll(" ", ""), "hex");
  const dataSet = { ...lettered("@"), "00080005": text("CS", ...terms.split("\\")) };
  return writeBytes(
    { ...dataSet, "00100010": text("PN", "@") },
    { encodeText: (value) => (value === "@" ? letterBytes : Buffer.from(value)) },
  );
}

// Escape sequences: DICOM PS3.3, tables C.12-3 and C.12-4; bytes by the codecs gb2312, euc_kr, iso8859_5 and iso2022_jp of Python.
const escaped: [terms: string, encoded: string, sample: string][] = [
  ["\\ISO 2022 IR 58", "1b242941 cdf5 20 1b242941 d0a1b6ab", "王 小东"],
  ["\\ISO 2022 IR 149", "1b242943 c8ab 0d0a 1b242943 b1e6b5bf", "홍\r\n길동"],
  ["ISO 2022 IR 100\\ISO 2022 IR 144", "1b2d4c bbeeda 0d0a f6", "Люк\r\nö"],
  ["\\ISO 2022 IR 87", "1b2442 5e3d 3d5e 1b2842", "渊殉"],
];

describeWithPydicom("escape sequences written byte by byte", () => {
  const reports = once(() =>
    byPydicom(escaped.map(([terms, encoded]) => write(inSet(terms, encoded)))),
  );
  test.each(escaped)("%s: %s", (terms, encoded, sample) => {
    const report = ours(inSet(terms, encoded));
    expect(report.numbers[0]).toMatchObject({ concept: sample, tracking: sample });
    const index = escaped.findIndex(([other]) => other === terms);
    // pydicom 2.3.1 leaves the letters of the escape sequence of IR 58 in the text.
    const printed = JSON.stringify(reports()[index]?.numbers).replaceAll(/(?:\\u001b)?\$\)A/g, "");
    expect(JSON.parse(printed)).toEqual(report.numbers);
  });

  test("a set declared again inside an item holds for that item and what it contains", () => {
    const declared = {
      ...diameterItem("42.5"),
      "00080005": text("CS", "ISO_IR 126"),
      "0040A043": sequence({
        ...codeElements(coded("99TEST", "X", "")),
        "00080104": { vr: "LO", Value: [Buffer.from("c4e9efed", "hex")] },
      }),
    };
    const after = diameterItem("40", [], coded("99TEST", "Y", "Größe"));
    const bytes = reportBytes([group(declared, after)]);
    const report = ours(bytes);
    expect(report.numbers.map(({ concept }) => concept)).toEqual(["Διον", "Größe"]);
    expect(byPydicom([write(bytes)])).toEqual([report]);
  });
});
