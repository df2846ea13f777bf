import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  coded,
  codeElements,
  type Elements,
  measuredValue,
  numberItem,
  sequence,
  text,
} from "../../../fixtures/content-items.ts";
import {
  diameter,
  group,
  messageCodes,
  millimetre,
  read,
  readContent,
  readingsOf,
  reportBytes,
} from "./invented-report.ts";

const readNumber = (
  values: Elements[],
  more: Elements = {},
  encoding: "explicit" | "implicit" = "explicit",
) => {
  const content = [group({ ...numberItem("CONTAINS", diameter, values), ...more })];
  return read(reportBytes(content, {}, { encoding }));
};
const onlyReading = (values: Elements[], more: Elements = {}) => {
  const file = readNumber(values, more);
  const [reading, ...others] = readingsOf(file);
  expect(others).toEqual([]);
  if (!reading) throw new Error(messageCodes(file).join());
  return reading;
};
const qualifier = coded("DCM", "114007", "Measurement not attempted");
const qualified = { "0040A301": sequence(codeElements(qualifier)) };

describe("the characters of the value are handed out as they are", () => {
  test.each(["42.5", "25,4", "< 30", "4.25E1", "-0", "0x10", "25.4 mm", "abc"])("%s", (value) => {
    expect(onlyReading([measuredValue(value, millimetre)]).valueText).toBe(value);
  });

  test("without the padding around them", () => {
    expect(onlyReading([measuredValue(" 42.5  ", millimetre)]).valueText).toBe("42.5");
  });

  test("whatever decimal text it is", () => {
    const decimal = fc
      .tuple(fc.integer({ min: -9999, max: 9999 }), fc.nat({ max: 9999 }))
      .map(([whole, fraction]) => `${whole}.${fraction}`);
    fc.assert(
      fc.property(decimal, (value) => {
        expect(onlyReading([measuredValue(value, millimetre)]).valueText).toBe(value);
      }),
    );
  });
});

describe("a number without value is a reading without value", () => {
  test("with its qualifier, in an empty sequence, an empty item or no sequence", () => {
    for (const values of [[], [{}]]) {
      const reading = onlyReading(values, qualified);
      expect(reading.valueText).toBeNull();
      expect(reading.qualifier?.code).toEqual({ scheme: "DCM", value: "114007" });
    }
    const { "0040A300": _, ...without } = numberItem("CONTAINS", diameter, []);
    const [reading] = readingsOf(readContent([group({ ...without, ...qualified })]));
    expect(reading).toMatchObject({ valueText: null, unit: null });
  });

  test("without a qualifier too", () => {
    expect(onlyReading([])).toMatchObject({ valueText: null, qualifier: null });
  });

  test("a qualifier beside a value is kept", () => {
    const reading = onlyReading([measuredValue("42.5", millimetre)], qualified);
    expect(reading).toMatchObject({ valueText: "42.5", qualifier: { words: qualifier.meaning } });
  });
});

describe("a value that is not one value leaves the number out, with the reason", () => {
  const value = measuredValue("42.5", millimetre);
  const leftOut: [string, string, Elements[], Elements][] = [
    ["two values in two items", "value-twice", [value, value], {}],
    ["two values in one item", "value-twice", [measuredValue("25.4\\26", millimetre)], {}],
    [
      "two units",
      "value-twice",
      [{ ...value, "004008EA": sequence(codeElements(millimetre), codeElements(millimetre)) }],
      {},
    ],
    [
      "more characters than a number has",
      "value-too-long",
      [measuredValue(`1${" ".repeat(200_000)}1`, millimetre)],
      {},
    ],
    [
      "bytes of an unknown kind instead of the value",
      "value-unreadable",
      [],
      { "0040A300": { vr: "UN", Value: [Buffer.from("no items at all.")] } },
    ],
    [
      "a floating point value that is another number",
      "value-fields-disagree",
      [{ ...value, "0040A161": { vr: "FD", Value: [42.6] } }],
      {},
    ],
  ];
  test.each(leftOut)("%s", (_, code, values, more) => {
    const file = readNumber(values, more, "implicit");
    expect(readingsOf(file)).toEqual([]);
    expect(messageCodes(file)).toContain(code);
    const reason = file.messages.find((message) => message.code === code);
    expect(reason?.place?.at).toBe("item 1.1.2");
    expect(reason?.text).toContain("Diameter");
  });

  test("the other numbers of the report are not touched", () => {
    const good = numberItem("CONTAINS", diameter, [value]);
    const bad = numberItem("CONTAINS", diameter, [value, value]);
    const file = readContent([group(good, bad, good)]);
    expect(readingsOf(file)).toHaveLength(2);
    expect(file.setAside).toBeNull();
  });
});

describe("a floating point value that rounds to the text is the same number", () => {
  const agrees = (decimal: string, double: number): boolean => {
    const item = {
      ...measuredValue(decimal, millimetre),
      "0040A161": { vr: "FD", Value: [double] },
    };
    return readingsOf(readNumber([item])).length === 1;
  };

  test("rounded, exact, or cut at sixteen characters", () => {
    expect(agrees("42.3", 42.34)).toBe(true);
    expect(agrees("42", 42.4)).toBe(true);
    expect(agrees("42.3", 42.36)).toBe(false);
    expect(agrees("42", 42.6)).toBe(false);
    expect(agrees("0.66666666666666", 2 / 3)).toBe(true);
    expect(agrees("4.23E1", 42.3)).toBe(true);
    expect(agrees("42", Number.NaN)).toBe(false);
  });

  test("for any number and any number of decimals", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 9999, noNaN: true }),
        fc.integer({ min: 0, max: 6 }),
        (value, decimals) => {
          expect(agrees(value.toFixed(decimals), value)).toBe(true);
          expect(agrees((value + 2 / 10 ** decimals).toFixed(decimals), value)).toBe(false);
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe("copies of the value in other fields", () => {
  const codes = (copies: Elements) => {
    const file = readNumber([{ ...measuredValue("0.3333", millimetre), ...copies }]);
    return readingsOf(file).length === 1 ? [] : messageCodes(file);
  };
  const double = (...values: number[]): Elements => ({ "0040A161": { vr: "FD", Value: values } });
  const rational = (numerators: number[], denominators: number[]): Elements => ({
    ...(numerators.length > 0 && { "0040A162": { vr: "SL", Value: numerators } }),
    ...(denominators.length > 0 && { "0040A163": { vr: "UL", Value: denominators } }),
  });
  const disagree = ["report-without-usable-numbers", "value-fields-disagree"];

  test("a rational value that rounds to the text is the same number", () => {
    expect(codes(rational([1], [3]))).toEqual([]);
    expect(codes({ ...rational([2], [6]), ...double(1 / 3) })).toEqual([]);
  });

  test.each<[string, Elements]>([
    ["another rational", rational([1], [4])],
    ["another sign", rational([-1], [3])],
    ["half of a rational", rational([1], [])],
    ["nothing divided by nothing", rational([0], [0])],
    ["something divided by nothing", rational([1], [0])],
    ["two rationals", rational([1, 1], [3, 3])],
    ["two doubles", double(1 / 3, 1 / 3)],
    ["infinity", double(Number.POSITIVE_INFINITY)],
    ["a good rational beside another double", { ...rational([1], [3]), ...double(0.5) }],
    ["bytes that are no double", { "0040A161": { vr: "FD", Value: [Buffer.from("four")] } }],
  ])("%s leaves the number out", (_, copies) => {
    expect(codes(copies)).toEqual(disagree);
  });
});

describe("units", () => {
  test("are handed out as code and words", () => {
    const unit = { scheme: "99TEST", value: "cm", meaning: "centimetre" };
    expect(onlyReading([measuredValue("4", unit)]).unit).toEqual({
      words: "centimetre",
      code: { scheme: "99TEST", value: "cm" },
    });
  });

  test("none is null", () => {
    expect(onlyReading([{ "0040A30A": text("DS", "4") }]).unit).toBeNull();
  });
});

test("a number without concept name is left out", () => {
  const { "0040A043": _, ...nameless } = numberItem("CONTAINS", diameter, [
    measuredValue("4", millimetre),
  ]);
  const file = readContent([group(nameless)]);
  expect(messageCodes(file)).toEqual(["report-without-usable-numbers", "number-without-name"]);
});
