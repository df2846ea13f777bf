import { stringify } from "csv-stringify/sync";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { csvRecords, delimiters, withUnixLines } from "../../../src/readers/csv/csv-file.ts";
import { decodeText } from "../../../src/readers/csv/decode-text.ts";

/** Bytes of text in an encoding, with the byte-order mark where asked for. */
const encoders: Record<string, (text: string) => Uint8Array> = {
  "UTF-8": (text) => new TextEncoder().encode(text),
  "UTF-8 with a mark": (text) => new TextEncoder().encode(`\uFEFF${text}`),
  "UTF-16LE": (text) => Buffer.from(`\uFEFF${text}`, "utf16le"),
  "UTF-16BE": (text) => Buffer.from(`\uFEFF${text}`, "utf16le").swap16(),
};

/** Text that a sheet can hold: no control characters but tab and line ends, no half of a pair, no byte-order mark. */
const cellText = fc.oneof(
  fc
    .string({ unit: "grapheme", maxLength: 12 })
    .filter((text) => !/[\p{Cc}\p{Cs}\uFEFF]/u.test(text)),
  fc
    .array(
      fc.constantFrom('"', ",", ";", "\t", "|", "\n", "\r\n", "\r", " ", "Ø", "41,5", "²", "x"),
      {
        maxLength: 6,
      },
    )
    .map((parts) => parts.join("")),
);
const table = fc
  .record({
    width: fc.integer({ min: 2, max: 5 }),
    rows: fc.array(fc.array(cellText, { minLength: 5, maxLength: 5 }), {
      minLength: 1,
      maxLength: 6,
    }),
  })
  .map(({ width, rows }) => rows.map((row) => row.slice(0, width)));

/** The lines of each row, counted from the text that was written: every line end of any kind ends a line. */
function linesOf(rows: string[]): { firstLine: number; lastLine: number }[] {
  let line = 1;
  return rows.map((row) => {
    const inside = row.replace(/(?:\r\n|\n|\r)$/, "");
    const ends = inside.match(/\r\n|\n|\r/g)?.length ?? 0;
    const firstLine = line;
    line += ends + 1;
    return { firstLine, lastLine: firstLine + ends };
  });
}

describe("csvRecords", () => {
  test("any table, in any delimiter, quoting, line end and encoding, is read back with its lines", () => {
    fc.assert(
      fc.property(
        table,
        fc.constantFrom(...delimiters),
        fc.boolean(),
        fc.constantFrom("\n", "\r\n", "\r"),
        fc.constantFrom(...Object.keys(encoders)),
        (rows, delimiter, quoted, lineEnd, encoding) => {
          const written = rows.map((row) =>
            stringify([row], {
              delimiter,
              quoted,
              quoted_string: quoted,
              quoted_match: /["\r\n]|^\s|\s$/,
              record_delimiter: lineEnd,
            }),
          );
          const bytes = encoders[encoding]?.(written.join("")) ?? new Uint8Array();
          const text = decodeText(bytes)?.text ?? "";
          expect(csvRecords(withUnixLines(text), { delimiter })).toEqual({
            records: linesOf(written).map((lines, index) => ({
              record: index + 1,
              ...lines,
              cells: (rows[index] ?? []).map(withUnixLines),
            })),
          });
        },
      ),
      { numRuns: 2000 },
    );
  });

  test("lines before the text and lines without a character are counted", () => {
    const { records } = csvRecords('a,b\n\n\n1,"2\n3"\n4,5', {
      delimiter: ",",
      linesBefore: 2,
    }) as { records: unknown[] };
    expect(records).toMatchObject([
      { record: 1, firstLine: 3, lastLine: 3 },
      { record: 2, firstLine: 6, lastLine: 7 },
      { record: 3, firstLine: 8, lastLine: 8 },
    ]);
  });

  test.each([
    ['a,b\n1,2\n"x,1\n2,3', /not closed/, 3],
    ['a,b\nx"y,1\n', /begin with one/, 2],
    ['a,b\n"x"y,1\n', /closing quote/, 2],
    [`a,b\n${"x".repeat(1_000_001)},1\n`, /longer than/, 2],
  ])("a fault names its line", (text, fault, line) => {
    const read = csvRecords(text, { delimiter: "," });
    expect(read).toMatchObject({ line });
    expect("fault" in read && read.fault).toMatch(fault);
  });

  test("reads no more records than asked for", () => {
    expect(csvRecords('a,b\n1,2\n"', { delimiter: ",", limit: 1 })).toMatchObject({
      records: [{ cells: ["a", "b"] }],
    });
  });
});
