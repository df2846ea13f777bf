import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { writeBytes } from "../../../fixtures/byte-writer.ts";
import {
  coded,
  codeElements,
  type Elements,
  names,
  sequence,
  text,
  textItem,
} from "../../../fixtures/content-items.ts";
import { headerOf, rootOf } from "../../../fixtures/structured-report-writer.ts";
import {
  arch,
  diameterItem,
  group,
  invented,
  messageCodes,
  read,
  readContent,
  readingsOf,
  reportBytes,
  site,
} from "./invented-report.ts";

const measured = [group(site(arch), diameterItem("42.5"))];

describe("a report that is used", () => {
  const file = read(reportBytes(measured));

  test("names the patient, the version and the place of each number", () => {
    expect(file).toMatchObject({ kind: "structured report", setAside: null });
    const [document] = file.documents;
    expect(document?.patient).toEqual({
      id: "TEST-0001",
      issuer: "INVENTED",
      name: "Testperson, Invented",
      birthDate: "1950-01-02",
      sex: "F",
    });
    expect(document?.report).toEqual({
      sopInstanceUid: "2.25.1003",
      completion: "COMPLETE",
      verification: "UNVERIFIED",
      preliminary: null,
      predecessorUids: [],
      identicalUids: [],
    });
    expect(document?.readings[0]?.source).toEqual({
      file: "invented.dcm",
      sha256: "0".repeat(64),
      at: "item 1.1.3",
    });
  });

  test("whatever of the five report classes it is", () => {
    for (const end of [11, 22, 33, 34, 35]) {
      const sopClass = text("UI", `1.2.840.10008.5.1.4.1.1.88.${end}`);
      expect(readingsOf(readContent(measured, { "00080016": sopClass }))).toHaveLength(1);
    }
  });

  test("keeps what is missing as missing", () => {
    const bare = readContent(measured, {
      "00100010": text("PN"),
      "00100021": text("LO"),
      "00100030": text("DA", "19500230"),
      "00100040": text("CS", "X"),
    });
    expect(bare.documents[0]?.patient).toEqual({
      id: "TEST-0001",
      issuer: null,
      name: null,
      birthDate: null,
      sex: null,
    });
  });

  test("reads issuer qualifiers, flags, predecessors and copies", () => {
    const instance = { "00081155": text("UI", "2.25.900") };
    const series = { "00081199": sequence(instance) };
    const copies = { "00081199": sequence({ "00081155": text("UI", "2.25.901") }, {}) };
    const version = readContent(measured, {
      "00100021": text("LO"),
      "00100024": sequence({ "00400032": text("UT", "2.25.77") }),
      "0040A496": text("CS", "PRELIMINARY"),
      "0040A360": sequence({ "00081115": sequence(series) }),
      "0040A525": sequence({ "00081115": sequence(copies, {}) }, { "00081115": sequence(copies) }),
    }).documents[0];
    expect(version?.patient.issuer).toBe("2.25.77");
    expect(version?.report).toMatchObject({
      preliminary: "PRELIMINARY",
      predecessorUids: ["2.25.900"],
      identicalUids: ["2.25.901"],
    });
  });

  test("keeps leading zeros of a patient ID and trims its padding", () => {
    const padded = readContent(measured, { "00100020": text("LO", "  007 ") });
    expect(padded.documents[0]?.patient.id).toBe("007");
  });
});

test("a report without numbers is not for this program", () => {
  const file = readContent([group(textItem("CONTAINS", names.finding, "Words only"))]);
  expect(messageCodes(file)).toEqual(["report-without-numbers"]);
  expect(file.kind).toBe("not for this program");
});

describe("a report that can't be used is set aside with the reason", () => {
  test.each<[string, string, Elements]>([
    ["without patient ID", "report-without-patient-id", { "00100020": text("LO", " ") }],
    ["without SOP Instance UID", "report-without-content", { "00080018": text("UI") }],
    ["without value type", "report-without-content", { "0040A040": text("CS") }],
  ])("%s", (_, code, header) => {
    const file = readContent(measured, header);
    expect(messageCodes(file)).toEqual([code]);
    expect(file.documents).toEqual([]);
  });

  test("without content sequence, or with something else in its place", () => {
    const { "0040A730": _, ...root } = rootOf([]);
    const none = writeBytes({ ...headerOf(invented), ...root });
    expect(messageCodes(read(none))).toEqual(["report-without-content"]);
    const other = readContent([], { "0040A730": text("LO", "no sequence") });
    expect(messageCodes(other)).toEqual(["report-without-content"]);
  });
});

test("changed bytes never make the reading throw: the file is used or set aside", () => {
  const bytes = reportBytes(measured, {}, { lengths: "undefined" });
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.nat({ max: bytes.length - 1 }), fc.nat({ max: 255 })), {
        minLength: 1,
        maxLength: 4,
      }),
      (changes) => {
        const changed = Uint8Array.from(bytes);
        for (const [index, value] of changes) changed[index] = value;
        const file = read(changed);
        expect(file.documents.length > 0 || file.setAside !== null).toBe(true);
      },
    ),
    { numRuns: 2000 },
  );
});

describe("text", () => {
  const words = "Größe ascendens";
  const inLatin1 = (characterSet: string) =>
    reportBytes(
      [group(diameterItem("42.5", [], coded("99TEST", "X", words)))],
      { "00080005": text("CS", ...(characterSet ? [characterSet] : [])) },
      { encodeText: (value) => Buffer.from(value, "latin1") },
    );

  test("below the root is decoded by the character set of the file", () => {
    const [reading] = readingsOf(read(inLatin1("ISO_IR 100")));
    expect(reading?.terms.quantity.words).toBe(words);
  });

  test("a character set problem costs letters, never a number", () => {
    for (const set of ["", "NO SUCH SET", "ISO_IR 192"]) {
      const file = read(inLatin1(set));
      expect(readingsOf(file).map(({ valueText }) => valueText)).toEqual(["42.5"]);
      expect(messageCodes(file)).toContain("text-doubtful");
    }
  });

  test("a character set declared again inside an item holds for that item", () => {
    const redeclared: Elements = {
      ...diameterItem("42.5"),
      "00080005": text("CS", "ISO_IR 144"),
      "0040A043": sequence({
        ...codeElements(coded("99TEST", "X", "")),
        "00080104": { vr: "LO", Value: [Buffer.from("bbeeda20", "hex")] },
      }),
    };
    const [reading] = readingsOf(readContent([group(redeclared)]));
    expect(reading?.terms.quantity.words).toBe("Люк");
  });

  test("long and URN code values are read", () => {
    const long = coded("99TEST", "a-code-value-of-more-than-16", "Long");
    const urn = { "00080120": text("UR", "urn:test:1"), "00080102": text("SH", "99TEST") };
    const item = { ...diameterItem("1"), "0040A043": sequence(urn) };
    const codes = readingsOf(readContent([group(diameterItem("2", [], long), item)])).map(
      ({ terms }) => terms.quantity.code?.value,
    );
    expect(codes).toEqual(["a-code-value-of-more-than-16", "urn:test:1"]);
  });
});
