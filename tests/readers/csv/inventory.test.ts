import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readInventory } from "../../../src/readers/csv/inventory.ts";
import { readSheet } from "../../../src/readers/csv/read-sheet.ts";
import { noSiteConfig } from "../../../src/site/site-config.ts";

const file = { file: "inventory.csv", sha256: "ab" };
const headings = "id,proximal_mm,distal_mm,covered_length_mm,sheath_outer_mm";
const read = (text: string) => readInventory(new TextEncoder().encode(text), file, noSiteConfig);

describe("inventory of grafts", () => {
  test("the example loads, rows in order", () => {
    const bytes = readFileSync("fixtures/inventory-example.csv");
    const { rows, messages } = readInventory(bytes, file, noSiteConfig);
    expect(messages).toEqual([]);
    expect(rows).toHaveLength(7);
    expect(rows[4]).toEqual({
      id: "G05",
      proximalMm: 36,
      distalMm: 32,
      coveredLengthMm: 150,
      sheathOuterMm: 8.3,
      sheathAsWritten: "8.3 mm",
    });
  });

  describe("the sheath", () => {
    const sheaths = "id,proximal_mm,distal_mm,covered_length_mm,sheath_outer_mm,sheath_outer_fr";
    const rowOf = (cells: string) => read(`${sheaths}\nG1,30,30,150,${cells}\n`);

    test.each([
      // A step of the French scale is a third of a millimetre.
      [",24", 8, "24 Fr"],
      [",22", 22 / 3, "22 Fr"],
      ["7.3,", 7.3, "7.3 mm"],
      // 22 Fr is 7.333 mm: written with one decimal it is 7.3.
      ["7.3,22", 22 / 3, "22 Fr"],
    ])("%s is kept in mm and as written", (cells, sheathOuterMm, sheathAsWritten) => {
      const { rows, messages } = rowOf(cells);
      expect(messages).toEqual([]);
      expect(rows).toMatchObject([{ sheathOuterMm, sheathAsWritten }]);
    });

    test("a sheet may have the column in French alone", () => {
      const text = "id,proximal_mm,distal_mm,covered_length_mm,sheath_outer_fr\nG1,30,30,150,20\n";
      expect(read(text)).toMatchObject({
        rows: [{ sheathAsWritten: "20 Fr" }],
        messages: [],
      });
    });

    test.each([
      ["neither is stated", ",", "csv-cell-missing", "sheath_outer_mm"],
      ["the two disagree", "7.7,22", "csv-inventory-sheaths-differ", "sheath_outer_mm"],
      ["a size with its unit", ",22 Fr", "csv-number-not-understood", "sheath_outer_fr"],
      ["one of the two is no number", "7.3,F22", "csv-number-not-understood", "sheath_outer_fr"],
    ])("%s: the row is left out with its message", (_, cells, code, column) => {
      const { rows, messages } = rowOf(cells);
      expect(rows).toEqual([]);
      expect(messages).toMatchObject([
        { code, place: { at: `record 2, line 2, column ${column}` } },
      ]);
    });
  });

  test.each([
    [
      "an empty cell",
      `${headings}\nG1,30,,150,8\n`,
      "csv-cell-missing",
      "record 2, line 2, column distal_mm",
    ],
    [
      "a size with its unit",
      `${headings}\nG1,30 mm,30,150,8\n`,
      "csv-number-not-understood",
      "record 2, line 2, column proximal_mm",
    ],
    [
      "an id twice",
      `${headings}\nG1,30,30,150,8\nG1,32,32,150,8\n`,
      "csv-inventory-id-twice",
      "record 3, line 3, column id",
    ],
    ["another sheet", "patient_id,diagnosis\nP1,aneurysm\n", "file-not-recognised", null],
  ])("%s is reported with its place", (_, text, code, at) => {
    const { messages } = read(text);
    expect(messages).toMatchObject([{ code, place: { at } }]);
  });

  test("among the patients' files it is skipped, with where it belongs", () => {
    const bytes = new TextEncoder().encode(`${headings}\nG1,30,30,150,8\n`);
    const { kind, setAside } = readSheet(bytes, "inventory.csv", "ab", noSiteConfig);
    expect(kind).toBe("not for this program");
    expect(setAside?.code).toBe("csv-inventory-in-inbox");
  });
});
