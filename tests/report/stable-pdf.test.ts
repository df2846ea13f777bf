import { describe, expect, test } from "vitest";
import { stablePdf } from "../../src/report/stable-pdf.ts";

const stable = (text: string): string =>
  Buffer.from(stablePdf(Buffer.from(text, "latin1"), "2026-01-14")).toString("latin1");

describe("stablePdf", () => {
  test("both dates become the as-of date, in the same length", () => {
    const text = "/CreationDate (D:20301125094116+00'00')\n/ModDate (D:20301125094117+00'00')>>";
    const expected =
      "/CreationDate (D:20260114000000+00'00')\n/ModDate (D:20260114000000+00'00')>>";
    expect(stable(text)).toBe(expected);
    expect(expected).toHaveLength(text.length);
  });

  test("ids of structure elements are numbered as they stand, wherever they are named", () => {
    const text = "/ID (node00000912) /ID (node00000047) /Headers [(node00000047) (node00000912)]";
    expect(stable(text)).toBe(
      "/ID (node00000001) /ID (node00000002) /Headers [(node00000002) (node00000001)]",
    );
  });

  test("the tree of ids stays in order", () => {
    const text =
      "/ID (node00000912) 4 0 R /ID (node00000047) 15 0 R\n" +
      "/Limits [(node00000047) (node00000912)]\n/Names [(node00000047) 15 0 R (node00000912) 4 0 R]";
    expect(stable(text)).toContain(
      "/Limits [(node00000001) (node00000002)]\n/Names [(node00000001) 4 0 R (node00000002) 15 0 R]",
    );
  });

  test("two prints that differ only in these give the same bytes", () => {
    const print = (date: string, first: number, second: number): string => {
      const [a, b] = [first, second].map((id) => `(node${String(id).padStart(8, "0")})`);
      const [low, high] =
        first < second ? [`${a} 1 0 R`, `${b} 2 0 R`] : [`${b} 2 0 R`, `${a} 1 0 R`];
      const limits = `/Limits [${low?.slice(0, 14)} ${high?.slice(0, 14)}]`;
      return `/CreationDate (D:${date}+00'00') /ID ${a} /ID ${b}\n${limits}\n/Names [${low} ${high}]`;
    };
    const prints = [
      print("20300101000000", 3, 12),
      print("20310202010203", 500, 509),
      print("20320303020304", 77, 5),
    ];
    expect(new Set(prints).size).toBe(3);
    expect(new Set(prints.map(stable)).size).toBe(1);
  });

  test("bytes that are not text stay as they are", () => {
    const bytes = Uint8Array.from({ length: 256 }, (_, index) => index);
    expect(Buffer.from(stablePdf(bytes, "2026-01-14")).equals(Buffer.from(bytes))).toBe(true);
  });
});
