import { describe, expect, test } from "vitest";
import { decodeText } from "../../../src/readers/csv/decode-text.ts";

const bytes = (...values: number[]) => Uint8Array.from(values);

describe("decodeText", () => {
  test.each([
    ["UTF-8", new TextEncoder().encode("Größe ²"), "Größe ²"],
    ["UTF-8", new TextEncoder().encode("\uFEFFGröße"), "Größe"],
    ["UTF-16LE", bytes(0xff, 0xfe, 0xd8, 0x00), "Ø"],
    ["UTF-16BE", bytes(0xfe, 0xff, 0x00, 0xd8), "Ø"],
    // Windows-1252 has signs where Latin-1 has none; values from the table of the Unicode Consortium, from memory.
    ["Windows-1252", bytes(0x47, 0x72, 0xf6, 0xdf, 0x65, 0x80, 0x96, 0xb2), "Größe€–²"],
  ])("%s", (encoding, given, text) => {
    expect(decodeText(given)).toEqual({ text, encoding });
  });

  test.each([
    ["a control character", bytes(0x61, 0x00)],
    ["a bell", bytes(0x61, 0x07)],
    ["a byte that Windows-1252 does not define", bytes(0x61, 0x81)],
    ["half a letter of UTF-16", bytes(0xff, 0xfe, 0xd8)],
    ["half a pair of UTF-16", bytes(0xff, 0xfe, 0x00, 0xd8)],
    ["UTF-16 without a mark", bytes(0x61, 0x00, 0x62, 0x00)],
  ])("%s is no text", (_, given) => {
    expect(decodeText(given)).toBeNull();
  });
});
