import { deflateRawSync } from "node:zlib";
import { describe, expect, test } from "vitest";
import { writeBytes } from "../../../fixtures/byte-writer.ts";
import { text } from "../../../fixtures/content-items.ts";
import {
  looksLikeDicom,
  maxReportBytes,
  openDicomFile,
} from "../../../src/readers/dicom-sr/dicom-file.ts";
import {
  diameterItem,
  group,
  messageCodes,
  read,
  readingsOf,
  reportBytes,
} from "./invented-report.ts";

const content = [group(diameterItem("42.5"))];
const values = (bytes: Uint8Array) => readingsOf(read(bytes)).map(({ valueText }) => valueText);

describe("a file is known by its bytes", () => {
  for (const encoding of ["explicit", "implicit", "big-endian"] as const) {
    for (const meta of ["preamble", "no preamble", "none"] as const) {
      test(`${encoding}, ${meta}`, () => {
        const bytes = reportBytes(content, {}, { encoding, meta });
        expect(looksLikeDicom(bytes)).toBe(true);
        expect(values(bytes)).toEqual(["42.5"]);
      });
    }
  }

  test("the preamble may be left out before the letters DICM", () => {
    const bytes = reportBytes(content).subarray(128);
    expect(looksLikeDicom(bytes)).toBe(true);
    expect(values(bytes)).toEqual(["42.5"]);
  });

  test("a sheet, a text and other binary files are none", () => {
    for (const other of [
      "patient_id,exam_date,place",
      "%PDF-1.7",
      "",
      "\u0008",
      "PK\u0003\u0004",
    ]) {
      expect(looksLikeDicom(Buffer.from(other))).toBe(false);
    }
  });

  test("bytes that lie inside a larger buffer are read from their own start to their own end", () => {
    const bytes = reportBytes(content);
    const larger = Buffer.concat([Buffer.from("before"), bytes, Buffer.from("after")]);
    expect(values(larger.subarray(6, 6 + bytes.length))).toEqual(["42.5"]);
  });
});

/** A file in the deflated transfer syntax with these bytes after the file meta information. */
function deflatedFile(body: Uint8Array): Uint8Array {
  const head = writeBytes({}, { transferSyntax: "1.2.840.10008.1.2.1.99" });
  return Buffer.concat([head, body]);
}

describe("a deflated file", () => {
  const body = reportBytes(content, {}, { meta: "none" });

  test("is inflated", () => {
    expect(values(deflatedFile(deflateRawSync(body)))).toEqual(["42.5"]);
  });

  test("cut short is set aside", () => {
    const deflated = deflateRawSync(body);
    const cut = deflatedFile(deflated.subarray(0, deflated.length - 10));
    expect(messageCodes(read(cut))).toEqual(["report-truncated"]);
  });

  test("that is no deflate stream is set aside", () => {
    const bytes = deflatedFile(Buffer.from("this is not a deflate stream"));
    expect(messageCodes(read(bytes))).toEqual(["report-malformed"]);
  });

  test("that swells beyond the limit is not inflated further", () => {
    const bomb = deflateRawSync(Buffer.alloc(maxReportBytes + 1));
    expect(bomb.length).toBeLessThan(100_000);
    expect(messageCodes(read(deflatedFile(bomb)))).toEqual(["report-too-large"]);
  });
});

test("a transfer syntax of compressed images is not one of a report", () => {
  const bytes = reportBytes(content, {}, { transferSyntax: "1.2.840.10008.1.2.4.50" });
  const file = read(bytes);
  expect(messageCodes(file)).toEqual(["report-transfer-syntax"]);
  expect(file.setAside?.text).toContain("1.2.840.10008.1.2.4.50");
});

test("a file that ends within its meta information is truncated", () => {
  const bytes = reportBytes(content);
  expect(openDicomFile(bytes.subarray(0, 200))).toEqual({ failure: "truncated" });
  expect(messageCodes(read(bytes.subarray(0, 132)))).toEqual(["report-truncated"]);
});

test("a file without a SOP class is set aside", () => {
  const bytes = reportBytes(content, { "00080016": text("UI") });
  expect(messageCodes(read(bytes))).toEqual(["report-without-class"]);
});
