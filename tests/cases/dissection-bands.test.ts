import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { dissectionAge } from "../../src/cases/dissection-bands.ts";

const bandsOf = (onset: string | null, date: string) =>
  dissectionAge(onset, date).bands.map(({ band }) => band);

describe("dissectionAge", () => {
  test("without an onset date nothing is assessable, and it is never chronic", () => {
    const { days, bands } = dissectionAge(null, "2024-03-05");
    expect(days).toBeNull();
    expect(bands.map(({ band, because }) => [band, because])).toEqual([
      [null, "the onset date is not stated"],
      [null, "the onset date is not stated"],
    ]);
  });

  test("an onset after the date is said", () => {
    const { days, bands } = dissectionAge("2024-03-06", "2024-03-05");
    expect(days).toBe(-1);
    expect(bands[0]).toMatchObject({
      band: null,
      because: "the onset of 2024-03-06 is after 2024-03-05",
    });
  });

  test.each(["2024-03-05", "2024-03-06"])("the hour that is missing on %s is named", (date) => {
    expect(bandsOf("2024-03-05", date)).toEqual(["hyperacute or acute", "hyperacute or acute"]);
    expect(dissectionAge("2024-03-05", date).bands[0]?.because).toContain("hour of onset");
  });

  test("a leap day counts", () => {
    expect(dissectionAge("2024-02-15", "2024-03-01").days).toBe(15);
    expect(dissectionAge("2023-02-15", "2023-03-01").days).toBe(14);
  });

  test("a later date never has an earlier band", () => {
    const order = ["hyperacute or acute", "acute", "subacute", "chronic"];
    const dateOf = (day: number) => new Date(Date.UTC(2024, 0, 1 + day)).toISOString().slice(0, 10);
    const day = fc.integer({ min: 0, max: 200 });
    fc.assert(
      fc.property(day, day, (one, other) => {
        const [early, late] = [Math.min(one, other), Math.max(one, other)].map((at) =>
          bandsOf("2024-01-01", dateOf(at)).map((band) => order.indexOf(band ?? "")),
        );
        for (const [index, rank] of (early ?? []).entries()) {
          expect(rank).toBeGreaterThanOrEqual(0);
          expect(late?.[index]).toBeGreaterThanOrEqual(rank);
        }
      }),
    );
  });
});
