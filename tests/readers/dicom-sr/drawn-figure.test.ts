import { describe, expect, test } from "vitest";
import type { ByteOptions } from "../../../fixtures/byte-writer.ts";
import { type Elements, figureItem, text } from "../../../fixtures/content-items.ts";
import {
  ascending,
  diameterItem,
  group,
  messageCodes,
  read,
  readContent,
  readingsOf,
  reportBytes,
  site,
} from "./invented-report.ts";

const line = [0, 0, 0, 1.5, -2.25, 10, 3, 4, 20];
const content = (...figures: Elements[]): Elements[] => [
  group(site(ascending), diameterItem("41.5", figures)),
];
const figure = (rest: Elements = {}): Elements => ({
  ...figureItem("INFERRED FROM", "POLYLINE", line),
  ...rest,
});

describe("a figure in space under a number (DICOM PS3.3, C.18.9)", () => {
  test.each<ByteOptions>([
    { encoding: "explicit" },
    { encoding: "implicit" },
    { encoding: "big-endian" },
  ])("is read in $encoding encoding with type, points and frame of reference", (options) => {
    const [reading] = readingsOf(read(reportBytes(content(figure()), {}, options)));
    expect(reading).toMatchObject({ valueText: "41.5" });
    expect(reading?.graphic).toEqual({
      source: { file: "invented.dcm", sha256: "0".repeat(64), at: "item 1.1.3.1" },
      graphicType: "POLYLINE",
      points: [
        [0, 0, 0],
        [1.5, -2.25, 10],
        [3, 4, 20],
      ],
      frameOfReferenceUid: "2.25.1009",
    });
  });

  test("whatever its relationship to the number", () => {
    const [reading] = readingsOf(
      readContent(content(figureItem("HAS PROPERTIES", "POINT", [1, 2, 3]))),
    );
    expect(reading?.graphic?.points).toEqual([[1, 2, 3]]);
  });

  test("a number without one has none, and nothing is said", () => {
    const file = readContent(content());
    expect([readingsOf(file)[0]?.graphic, messageCodes(file)]).toEqual([
      null,
      ["imaging-date-from-study"],
    ]);
  });

  const floats = (...numbers: number[]): Elements => ({
    "00700022": { vr: "FL", Value: numbers },
  });
  const { "30060024": _, ...withoutFrame } = figure();
  test.each<[string, string, Elements[]]>([
    ["two coordinates", "no triples", [figure(floats(1, 2))]],
    ["four coordinates", "no triples", [figure(floats(1, 2, 3, 4))]],
    ["a coordinate that is no number", "no number", [figure(floats(1, 2, Number.NaN))]],
    ["an infinite one", "no number", [figure(floats(1, 2, 3, 4, 5, Infinity))]],
    [
      "no data",
      "has at least 2 points, and 0 are there",
      [figure({ "00700022": { vr: "FL", Value: [] } })],
    ],
    ["one point of a line", "has at least 2 points, and 1 are there", [figure(floats(1, 2, 3))]],
    [
      "three points of an ellipse",
      "has 4 points, and 3 are there",
      [figureItem("INFERRED FROM", "ELLIPSE", line)],
    ],
    [
      "bytes that are no floats",
      "no list of 32-bit floats",
      [figure({ "00700022": { vr: "OB", Value: [new Uint8Array(6)] } })],
    ],
    [
      "another graphic type",
      "none that DICOM has",
      [figure({ "00700023": text("CS", "constructor") })],
    ],
    ["no frame of reference", "no frame of reference", [withoutFrame]],
    ["two figures", "several figures", [figure(), figure()]],
  ])("with %s it is not used and says so; the number is", (_name, why, figures) => {
    const file = readContent(content(...figures));
    expect(readingsOf(file)).toMatchObject([{ valueText: "41.5", graphic: null }]);
    expect(file.messages.find(({ code }) => code === "figure-not-usable")).toMatchObject({
      severity: "warning",
      place: { at: "item 1.1.3.1" },
      data: { number: "Diameter", why: expect.stringContaining(why) as string },
    });
  });
});
