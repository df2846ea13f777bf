import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { writeBytes } from "../../../fixtures/byte-writer.ts";
import { type Elements, sequence, text } from "../../../fixtures/content-items.ts";
import { openCharacterSets } from "../../../src/readers/dicom-sr/character-sets.ts";
import { type Encoding, limits, parseDataSet } from "../../../src/readers/dicom-sr/data-set.ts";
import { asciiOf, binaryOf, itemsOf } from "../../../src/readers/dicom-sr/element-values.ts";

const explicit: Encoding = { explicit: true, littleEndian: true };

function parse(bytes: Uint8Array, encoding: Encoding = explicit) {
  const file = { bytes: Buffer.from(bytes), characterSets: openCharacterSets() };
  return parseDataSet(file, { start: 0, end: bytes.length }, encoding);
}

function parsed(bytes: Uint8Array, encoding: Encoding = explicit) {
  const result = parse(bytes, encoding);
  if ("failure" in result) throw new Error(result.failure);
  return result.dataSet;
}

const sample: Elements = {
  "0020000D": text("UI", "1.2.3"),
  "0040A300": sequence(
    { "0040A30A": text("DS", "1.5"), "004008EA": sequence({ "00080100": text("SH", "mm") }) },
    {},
    { "0040A30A": text("DS", "2.5") },
  ),
  "0040DB73": { vr: "UL", Value: [1, 4, 2] },
};

const encodings = [
  ["explicit", { explicit: true, littleEndian: true }],
  ["implicit", { explicit: false, littleEndian: true }],
  ["big-endian", { explicit: true, littleEndian: false }],
] as const;

describe("all encodings and both kinds of length give the same data set", () => {
  for (const [name, encoding] of encodings) {
    for (const lengths of ["defined", "undefined"] as const) {
      test(`${name}, ${lengths} lengths`, () => {
        const bytes = writeBytes(sample, { encoding: name, lengths, meta: "none" });
        const dataSet = parsed(bytes, encoding);
        expect(asciiOf(dataSet, 0x0020000d)).toBe("1.2.3");
        const items = itemsOf(dataSet, 0x0040a300);
        expect(items.map((item) => asciiOf(item, 0x0040a30a))).toEqual(["1.5", null, "2.5"]);
        expect(asciiOf(itemsOf(items[0] ?? dataSet, 0x004008ea)[0] ?? dataSet, 0x00080100)).toBe(
          "mm",
        );
        expect(binaryOf(dataSet, 0x0040db73, "UL")).toEqual([1, 4, 2]);
      });
    }
  }
});

describe("a sequence with an unknown value representation", () => {
  const hidden: Elements = {
    "0040A300": { vr: "UN", Value: [{ "0040A30A": text("DS", "42.5") }] },
  };
  for (const [name, encoding] of encodings) {
    // An implicit file has no value representations.
    if (!encoding.explicit) continue;
    test.each(["defined", "undefined"] as const)(`is read with %s length, ${name}`, (lengths) => {
      const bytes = writeBytes(hidden, { lengths, meta: "none", encoding: name });
      const [item] = itemsOf(parsed(bytes, encoding), 0x0040a300);
      expect(item && asciiOf(item, 0x0040a30a)).toBe("42.5");
    });
  }

  test("bytes that are no items stay bytes", () => {
    const dataSet = parsed(
      writeBytes({ "0040A300": { vr: "UN", Value: [Buffer.from("no items")] } }, { meta: "none" }),
    );
    expect(dataSet.elements.get(0x0040a300)).toMatchObject({ items: null, length: 8 });
  });
});

describe("lists of binary numbers", () => {
  const numbers = (bytes: Buffer) =>
    binaryOf(
      parsed(writeBytes({ "0040DB73": { vr: "UL", Value: [bytes] } }, { meta: "none" })),
      0x0040db73,
      "UL",
    );
  test("whole numbers, no number, and bytes that are none", () => {
    expect(numbers(Buffer.from("0100000004000000", "hex"))).toEqual([1, 4]);
    expect(numbers(Buffer.alloc(0))).toEqual([]);
    expect(numbers(Buffer.from("010000000400", "hex"))).toBeNull();
  });

  test("longer than a position can be: not read", () => {
    expect(numbers(Buffer.alloc(4 * limits.depth))).toHaveLength(limits.depth);
    expect(numbers(Buffer.alloc(4 * limits.depth + 4))).toBeNull();
  });
});

describe("what is not a whole data set is refused", () => {
  const bytes = writeBytes(sample, { meta: "none" });
  const delimited = writeBytes(sample, { meta: "none", lengths: "undefined" });

  test("cut at any byte inside an element", () => {
    const boundaries = new Set([0, 14]);
    for (const whole of [bytes, delimited]) {
      for (let length = 0; length < whole.length; length++) {
        const result = parse(whole.subarray(0, length));
        const isWhole = "dataSet" in result;
        const isAtBoundary = boundaries.has(length) || length === whole.length - 20;
        expect(isWhole, `cut at ${length}`).toBe(isAtBoundary);
      }
    }
  });

  test("zero bytes at the end are padding", () => {
    expect(parse(Buffer.concat([bytes, Buffer.alloc(7)]))).toHaveProperty("dataSet");
    expect(parse(Buffer.concat([bytes, Buffer.from([0, 0, 1])]))).toEqual({ failure: "truncated" });
  });

  test("an element that stands twice", () => {
    const one = writeBytes({ "0020000D": text("UI", "1.2.3") }, { meta: "none" });
    expect(parse(Buffer.concat([one, one]))).toEqual({ failure: "malformed" });
  });

  test("a value representation that is no letters, and an item whose value leaves it", () => {
    const broken = Buffer.from(bytes);
    broken.write("??", 4, "latin1");
    expect(parse(broken)).toEqual({ failure: "malformed" });
    const tooLong = Buffer.from(
      writeBytes(
        {
          "0040A300": sequence({ "0040A30A": text("DS", "1.5 ") }),
          "0040DB73": { vr: "UL", Value: [1] },
        },
        { meta: "none" },
      ),
    );
    tooLong.writeUInt16LE(6, tooLong.indexOf("DS") + 2);
    expect(parse(tooLong)).toEqual({ failure: "malformed" });
  });

  test("nesting deeper than the limit, at once", () => {
    let nested: Elements = { "00080104": text("LO", "bottom") };
    for (let depth = 0; depth < limits.depth; depth++) nested = { "0040A730": sequence(nested) };
    expect(parse(writeBytes(nested, { meta: "none" }))).toHaveProperty("dataSet");
    expect(parse(writeBytes({ "0040A730": sequence(nested) }, { meta: "none" }))).toEqual({
      failure: "too-deep",
    });
  });

  test("more items than the limit", () => {
    const item = Buffer.from("feff00e000000000", "hex");
    const items = Buffer.concat(Array.from({ length: limits.items + 1 }, () => item));
    const head = Buffer.from("400030a753510000ffffffff", "hex");
    expect(parse(Buffer.concat([head, items]))).toEqual({ failure: "too-many" });
  });
});

test("no bytes whatever make the reading throw", () => {
  fc.assert(
    fc.property(
      fc.uint8Array({ maxLength: 400 }),
      fc.constantFrom(...encodings.map(([, encoding]) => encoding)),
      (bytes, encoding) => {
        const result = parse(bytes, encoding);
        expect("dataSet" in result !== "failure" in result).toBe(true);
      },
    ),
  );
});
