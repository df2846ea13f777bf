import { describe, expect, test } from "vitest";
import { publishedRange } from "../../src/growth/published-reading-errors.ts";

/** Half-width of the 95 % limits of a difference in standard deviations of one reading. */
const perSd = 1.959964 * Math.SQRT2;

describe("the published range", () => {
  // Smallest and largest printed half-width of the studies of each part, turned into the SD of one reading.
  test.each([
    ["root", 2 / perSd, 5.2 / perSd, "Quint 2013"],
    ["ascending", 2 / perSd, 5.2 / perSd, "Quint 2013"],
    ["arch", 2.25 / perSd, 5.2 / perSd, "PMID 10456404"],
    ["descending", 2.25 / perSd, 5.2 / perSd, "PMID 10456404"],
    ["abdominal", 5 / perSd, 4.4 / Math.SQRT2, "two readers"],
  ] as const)("%s", (region, low, high, words) => {
    const range = publishedRange(region, "CT");
    expect(range.lowSdMm).toBeCloseTo(low, 1);
    expect(range.highSdMm).toBeCloseTo(high, 1);
    expect(range.source).toContain(words);
    expect(range.source).not.toContain("not at this place");
  });

  test.each(["iliac", null] as const)(
    "where nobody measured the widest stands in: %s",
    (region) => {
      const range = publishedRange(region, "CT");
      expect(range.highSdMm).toBe(3.1);
      expect(range.source).toContain("abdominal aneurysms, not at this place");
    },
  );

  test("the modality decides where it was studied", () => {
    expect(publishedRange("root", "MR")).toEqual(publishedRange("root", "CT"));
    expect(publishedRange("ascending", "MR").source).toContain("none for MR here");
    const ultrasound = publishedRange("root", "US");
    expect([ultrasound.lowSdMm, ultrasound.highSdMm]).toEqual([1.9, 2]);
    expect(ultrasound.source).toContain("leading edges");
  });

  test("where it was not, tomography stands in and the text says so", () => {
    const ultrasound = publishedRange("abdominal", "US");
    expect(ultrasound).toMatchObject({ lowSdMm: 1.8, highSdMm: 3.1 });
    expect(ultrasound.source).toContain("none for US here");
    expect(publishedRange("abdominal", null).source).not.toContain("none for");
  });
});
