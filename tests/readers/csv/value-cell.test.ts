import { describe, expect, test } from "vitest";
import { cellValue, type StatedUnit } from "../../../src/readers/csv/value-cell.ts";

const heading = (words: string): StatedUnit => ({ words, where: "heading" });

describe("cellValue", () => {
  test.each([
    ["42", [heading("mm")], { valueText: "42", unit: { words: "mm", code: null } }],
    ["42 mm", [], { valueText: "42", unit: { words: "mm", code: null } }],
    ["42mm", [], { valueText: "42", unit: { words: "mm", code: null } }],
    ["42\u00A0mm", [], { valueText: "42", unit: { words: "mm", code: null } }],
    ["9.4 cm²", [], { valueText: "9.4", unit: { words: "cm²", code: null } }],
    ["30°", [], { valueText: "30", unit: { words: "°", code: null } }],
    ["4e1 mm", [], { valueText: "4e1", unit: { words: "mm", code: null } }],
    ["1e3", [], { valueText: "1e3", unit: null }],
    ["42", [], { valueText: "42", unit: null }],
    ["9 cm2", [heading("cm²")], { valueText: "9", unit: { words: "cm²", code: null } }],
    ["9 mL", [heading("ml")], { valueText: "9", unit: { words: "ml", code: null } }],
    ["42", [heading("px")], { valueText: "42", unit: { words: "px", code: null } }],
  ])("%j with units %j", (text, units, value) => {
    expect(cellValue(text, "point", units)).toEqual(value);
  });

  test("a declared decimal comma becomes a point, and what was written is kept", () => {
    expect(cellValue("4,15 cm", "comma", [])).toEqual({
      valueText: "4.15",
      valueAsWritten: "4,15",
      unit: { words: "cm", code: null },
    });
  });

  test.each([
    ["42 mm", [heading("cm")], { met: "cm", where: "heading", other: "mm", otherWhere: "cell" }],
    [
      "42",
      [heading("mm"), { words: "mm2", where: "unit column" } as const],
      { met: "mm", where: "heading", other: "mm2", otherWhere: "unit column" },
    ],
    [
      "42",
      [heading("mm"), { words: "px", where: "unit row" } as const],
      { met: "mm", where: "heading", other: "px", otherWhere: "unit row" },
    ],
  ])("%j with units that differ is refused", (text, units, data) => {
    expect(cellValue(text, "point", units)).toEqual({ problem: "csv-units-differ", data });
  });

  test.each(["42 furlong", "3 5 mm", "<3 mm", "4 cm x 5 cm", "mm", "42 m m", "12 mm (sic)"])(
    "%j is no number with a unit",
    (text) => {
      expect(cellValue(text, "point", [])).toMatchObject({ data: { met: text } });
    },
  );
});
