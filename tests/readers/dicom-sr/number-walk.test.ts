import { describe, expect, test } from "vitest";
import {
  coded,
  codeItem,
  container,
  contentItem,
  type Elements,
  imageItem,
  measuredValue,
  names,
  numberItem,
  referenceItem,
} from "../../../fixtures/content-items.ts";
import {
  diameter,
  diameterItem,
  group,
  maximum,
  messageCodes,
  millimetre,
  minimum,
  modifier,
  readContent,
  readingsOf,
} from "./invented-report.ts";

const ctImage = "1.2.840.10008.5.1.4.1.1.2";
const found = (content: Elements[]) =>
  readingsOf(readContent(content)).map(({ source, valueText }) => [source.at, valueText]);
const excluded = (content: Elements[]) =>
  readContent(content).messages.flatMap(({ code, data }) =>
    code.startsWith("numbers-of") ? [[code, data["count"]]] : [],
  );
const number = (
  relationship: Parameters<typeof numberItem>[0],
  value: string,
  children: Elements[] = [],
  concept = diameter,
) => numberItem(relationship, concept, [measuredValue(value, millimetre)], children);

describe("numbers are found wherever they stand", () => {
  test("in a group, beside it, in containers without a known name, and below a code", () => {
    const content = [
      diameterItem("1"),
      container(coded("99TEST", "X", "Chapter"), [
        group(diameterItem("2"), diameterItem("3")),
        codeItem("CONTAINS", names.finding, coded("SCT", "85659009", "Aneurysm"), [
          number("HAS PROPERTIES", "4"),
        ]),
      ]),
    ];
    expect(found(content)).toEqual([
      ["item 1.1", "1"],
      ["item 1.2.1.2", "2"],
      ["item 1.2.1.3", "3"],
      ["item 1.2.2.1", "4"],
    ]);
  });

  test("an empty item counts in the positions", () => {
    expect(found([{}, group({}, diameterItem("2"))])).toEqual([["item 1.2.3", "2"]]);
  });
});

describe("numbers that are no measurements are counted and told", () => {
  test("image geometry: in the image library, its groups, and as acquisition context", () => {
    const content = [
      group(diameterItem("42")),
      container(names.imageLibrary, [
        container(names.imageLibraryGroup, [
          number("HAS ACQ CONTEXT", "0.5"),
          imageItem("CONTAINS", ctImage, "2.25.7", [number("HAS ACQ CONTEXT", "-200")]),
        ]),
      ]),
      group(imageItem("CONTAINS", ctImage, "2.25.7", [number("HAS ACQ CONTEXT", "1")])),
    ];
    expect(found(content)).toEqual([["item 1.1.2", "42"]]);
    expect(excluded(content)).toEqual([["numbers-of-images", 3]]);
  });

  test("reference measurements", () => {
    const reference = coded("DCM", "130755", "Reference Measurement Group");
    const content = [group(diameterItem("42")), container(reference, [diameterItem("30")])];
    expect(found(content)).toHaveLength(1);
    expect(excluded(content)).toEqual([["numbers-of-reference-group", 1]]);
  });

  test("the order of a time point and the subject's own numbers", () => {
    const order = coded("DCM", "126073", "Time Point Order");
    const content = [
      group(
        number("CONTAINS", "2", [], order),
        number("HAS OBS CONTEXT", "175", [], coded("SCT", "50373000", "Body height")),
        diameterItem("42"),
      ),
    ];
    expect(found(content)).toEqual([["item 1.1.4", "42"]]);
    expect(excluded(content)).toEqual([["numbers-of-context", 2]]);
  });

  test("normal ranges and operands below a number", () => {
    const content = [
      group(
        diameterItem("42", [
          number("HAS PROPERTIES", "40", [], coded("SRT", "R-0038B", "Normal Range Upper Limit")),
          number("INFERRED FROM", "41", [number("INFERRED FROM", "40")]),
        ]),
      ),
    ];
    expect(found(content)).toEqual([["item 1.1.2", "42"]]);
    expect(excluded(content)).toEqual([["numbers-of-another-number", 3]]);
  });

  test("a reference to another item is no second measurement, even to itself or to nowhere", () => {
    const content = [
      group(
        diameterItem("42", [
          referenceItem("INFERRED FROM", [1, 1, 3]),
          referenceItem("INFERRED FROM", [1, 1]),
          referenceItem("INFERRED FROM", [1, 9, 9]),
        ]),
        diameterItem("43"),
      ),
    ];
    expect(found(content)).toHaveLength(2);
  });
});

describe("maximum and minimum below a number", () => {
  const below = (children: Elements[], upper: Elements[] = []) =>
    found([group(diameterItem("40", [...upper, number("INFERRED FROM", "42", children)]))]);
  const derived = (value: typeof maximum) => modifier(names.derivation, value);

  test("are measurements of their own with the same concept and their own derivation", () => {
    expect(below([derived(maximum)])).toHaveLength(2);
    expect(below([derived(maximum)], [derived(minimum)])).toHaveLength(2);
  });

  test("take the place of the upper number, and not its derivation", () => {
    const upper = [derived(minimum), modifier(names.findingSite, coded("SCT", "1", "Place"))];
    const content = [
      group(diameterItem("40", [...upper, number("INFERRED FROM", "42", [derived(maximum)])])),
    ];
    const [, inner] = readingsOf(readContent(content));
    expect(inner?.terms.modifiers.map(({ words }) => words)).toEqual(["Maximum"]);
    expect(inner?.terms.places[0]?.terms[0]?.words).toBe("Place");
  });

  test("are not with another concept, without derivation, with the upper one's, or beside a population", () => {
    const area = coded("SCT", "42798000", "Area");
    const other = [number("INFERRED FROM", "42", [derived(maximum)], area)];
    expect(found([group(diameterItem("40", other))])).toHaveLength(1);
    expect(below([])).toHaveLength(1);
    expect(below([derived(maximum)], [derived(maximum)])).toHaveLength(1);
    const population = contentItem(
      "HAS PROPERTIES",
      "TEXT",
      coded("DCM", "121405", "Population"),
      {},
    );
    expect(below([derived(maximum)], [population])).toHaveLength(1);
  });
});

test("content of an unknown type is passed over with a note", () => {
  const table = contentItem("CONTAINS", "TABLE", coded("99TEST", "T", "Table"), {});
  const file = readContent([group(diameterItem("42"), table)]);
  expect(readingsOf(file)).toHaveLength(1);
  expect(messageCodes(file)).toContain("content-not-known");
});
