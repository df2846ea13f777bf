import { deflateRawSync } from "node:zlib";
import { describe, expect, test } from "vitest";
import { writeBytes } from "../../../fixtures/byte-writer.ts";
import { coded, type Elements, text } from "../../../fixtures/content-items.ts";
import { rootOf } from "../../../fixtures/structured-report-writer.ts";
import { maxReportBytes } from "../../../src/readers/dicom-sr/dicom-file.ts";
import {
  diameterItem,
  group,
  messageCodes,
  read,
  readContent,
  readingsOf,
  reportBytes,
} from "./invented-report.ts";

const measured = [group(diameterItem("42.5"))];
const ctImage = "1.2.840.10008.5.1.4.1.1.2";

describe("objects of another class are named, and not read however good their numbers look", () => {
  // SOP classes below 1.2.840.10008.5.1.4.1.1. Source: DICOM PS3.6, annex A.
  const objects: [end: string, what: string][] = [
    ["88.1", "a text report of a retired trial class"],
    ["88.2", "an audio report of a retired trial class"],
    ["88.3", "a report of a retired trial class"],
    ["88.4", "a report of a retired trial class"],
    ["88.40", "a procedure log"],
    ["88.50", "a report of computer-aided detection (mammography)"],
    ["88.59", "a key object selection, which marks images and holds no numbers"],
    ["88.65", "a report of computer-aided detection (chest)"],
    ["88.67", "an X-ray dose report"],
    ["88.68", "a radiopharmaceutical dose report"],
    ["88.69", "a report of computer-aided detection (colon)"],
    ["88.70", "an implantation plan"],
    ["88.71", "an acquisition context report"],
    ["88.72", "an echocardiography report"],
    ["88.73", "a patient radiation dose report"],
    ["88.74", "a report of planned contrast administration"],
    ["88.75", "a report of contrast administration"],
    ["88.76", "an X-ray dose report"],
    ["88.77", "a waveform annotation"],
    ["78.6", "an eye examination"],
    ["79.1", "an eye examination"],
    ["104.1", "an encapsulated PDF"],
    ["104.2", "an encapsulated document"],
    ["481.5", "a radiotherapy object"],
    ["1.1", "an X-ray image"],
    ["2", "a CT image"],
    ["2.1", "a CT image"],
    ["4", "an MR image"],
    ["6.1", "an ultrasound image"],
    ["7", "a secondary capture image"],
    ["9.1.1", "a waveform"],
    ["11.1", "a presentation state"],
    ["12.1", "an X-ray angiography image"],
    ["66", "raw data"],
    ["66.4", "a segmentation"],
    ["128", "a PET image"],
    ["9999", "an image or another DICOM object without measurements of the aorta"],
  ];
  test.each(objects)("%s: %s", (end, what) => {
    const file = readContent(measured, {
      "00080016": text("UI", `1.2.840.10008.5.1.4.1.1.${end}`),
    });
    expect(file).toMatchObject({ kind: "not for this program", documents: [], messages: [] });
    expect(file.setAside).toMatchObject({
      code: "not-a-measurement-report",
      severity: "note",
      data: { what },
    });
  });

  test("a class that the standard does not list, and one that is no UID", () => {
    for (const uid of ["1.2.3.4", "constructor", ".".repeat(60_000)]) {
      const file = readContent(measured, { "00080016": text("UI", uid) });
      expect(file.setAside?.data).toEqual({ what: "a DICOM object of another kind" });
    }
  });

  test("a number stays a number: the five general report classes are read", () => {
    for (const end of [11, 22, 33, 34, 35]) {
      const sopClass = text("UI", `1.2.840.10008.5.1.4.1.1.88.${end}`);
      expect(readingsOf(readContent(measured, { "00080016": sopClass }))).toHaveLength(1);
    }
  });
});

describe("a report whose title is that of another document", () => {
  const documents: [value: string, what: string][] = [
    ["113701", "an X-ray dose report"],
    ["113500", "a radiopharmaceutical dose report"],
    ["128401", "a patient radiation dose report"],
    ["125200", "an echocardiography report"],
    ["125100", "a vascular ultrasound report"],
    ["111036", "a report of computer-aided detection (mammography)"],
    ["112000", "a report of computer-aided detection (chest)"],
    ["112220", "a report of computer-aided detection (colon)"],
  ];
  test.each(documents)("root concept %s in an Enhanced SR: %s", (value, what) => {
    const file = readContent(measured, rootOf(measured, coded("DCM", value, "Any words")));
    expect(file).toMatchObject({ kind: "not for this program", setAside: { data: { what } } });
  });
});

describe("an object of another class need not be read to be known", () => {
  test("not to its end", () => {
    const bytes = reportBytes(measured, { "00080016": text("UI", ctImage) });
    expect(messageCodes(read(bytes.subarray(0, bytes.length - 100)))).toEqual([
      "not-a-measurement-report",
    ]);
  });

  test("a directory names its class in the file meta information alone", () => {
    const directory: Elements = {
      "00041130": text("CS", "INVENTED"),
      "00041220": { vr: "SQ", Value: [] },
    };
    const named = writeBytes({ "00080016": text("UI", "1.2.840.10008.1.3.10") }).subarray(0);
    const meta = named.subarray(0, named.length - bodyLength("1.2.840.10008.1.3.10"));
    const bytes = Buffer.concat([meta, writeBytes(directory, { meta: "none" })]);
    expect(read(bytes)).toMatchObject({
      kind: "not for this program",
      setAside: { data: { what: "a directory of DICOM files" } },
    });
  });

  test("a deflated image larger than a report may be", () => {
    const head = writeBytes(
      { "00080016": text("UI", ctImage) },
      { transferSyntax: "1.2.840.10008.1.2.1.99" },
    );
    const body = deflateRawSync(Buffer.alloc(maxReportBytes + 1));
    const bytes = Buffer.concat([head.subarray(0, head.length - bodyLength(ctImage)), body]);
    expect(read(bytes).setAside?.data).toEqual({ what: "a CT image" });
  });
});

/** Bytes that a data set with nothing but this SOP class takes. */
const bodyLength = (uid: string): number =>
  writeBytes({ "00080016": text("UI", uid) }, { meta: "none" }).length;
