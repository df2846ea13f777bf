/**
 * Splitting CSV into cells against csv-spectrum 2.0.0 (npm, BSD-2-Clause): sample files, each with the JSON that a
 * correct reader makes of it.
 *
 * One sample, location_coordinates, is no CSV by RFC 4180 (a quote stands inside a cell without quotes), and its JSON has
 * another phone number than the file: it must be refused with its line.
 */
import { promisify } from "node:util";
import spectrum from "csv-spectrum";
import { expect, test } from "vitest";
import { csvRecords, withUnixLines } from "../../src/readers/csv/csv-file.ts";
import { sheetText } from "../../src/readers/csv/sheet-text.ts";

const samples = await promisify(spectrum)();
const recordsOf = (bytes: Uint8Array) => {
  const sheet = sheetText(bytes);
  if (sheet === null) throw new Error("no text");
  return csvRecords(sheet.text, { delimiter: "," });
};
const refused = "location_coordinates";

test("there are twelve samples", () => {
  expect(samples).toHaveLength(12);
});

test.each(samples.filter(({ name }) => name !== refused))("$name is its JSON", ({ csv, json }) => {
  const read = recordsOf(csv);
  if (!("records" in read)) throw new Error(read.fault);
  const [headings, ...rows] = read.records.map(({ cells }) => cells);
  const objects = rows.map((cells) => {
    expect(cells).toHaveLength(headings?.length ?? 0);
    return Object.fromEntries(cells.map((cell, index) => [headings?.[index], cell]));
  });
  const expected = JSON.parse(new TextDecoder().decode(json)) as Record<string, string>[];
  const withLineEnds = (row: Record<string, string>) =>
    Object.fromEntries(Object.entries(row).map(([key, cell]) => [key, withUnixLines(cell)]));
  expect(objects).toEqual(expected.map(withLineEnds));
  expect(objects.length).toBeGreaterThan(0);
});

test("a quote inside a cell without quotes is refused with its line", () => {
  const csv = samples.find(({ name }) => name === refused)?.csv ?? new Uint8Array();
  expect(recordsOf(csv)).toMatchObject({ line: 2, fault: expect.stringContaining("quote") });
});
