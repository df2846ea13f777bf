import { describe, expect, test } from "vitest";
import { growthCriterion } from "../../src/growth/growth-criterion.ts";
import type { DatedSize } from "../../src/growth/growth-line.ts";
import { sampleRule } from "./sample-growth-case.ts";

const sizes = (...entries: [string, number][]): DatedSize[] =>
  entries.map(([date, valueMm]) => ({ date, valueMm }));
const inOneYear = (limit: number, ...entries: [string, number][]) =>
  growthCriterion(sampleRule(limit).check, 12, sizes(...entries));
const inSixMonths = (limit: number, ...entries: [string, number][]) =>
  growthCriterion(sampleRule(limit, { periodMonths: 6 }).check, 6, sizes(...entries));
const inTwoYears = (limit: number, ...entries: [string, number][]) =>
  growthCriterion(
    sampleRule(limit, { kind: "growth-in-two-periods" }).check,
    12,
    sizes(...entries),
  );

describe("growth in one year", () => {
  test.each([
    ["at the limit, 366 days from date to date", "2024-01-10", "2025-01-10", 49, "met"],
    ["just under it", "2024-01-10", "2025-01-10", 48.9, "not-met"],
    ["at the limit in 353 days", "2025-01-10", "2025-12-29", 49, "met"],
    ["at the limit in 380 days, half a month late", "2025-01-10", "2026-01-25", 49, "met"],
    ["at the limit in 400 days, scaled to 4.57", "2025-01-10", "2026-02-14", 49, "not-met"],
    ["5.6 mm in 400 days, scaled to 5.11", "2025-01-10", "2026-02-14", 49.6, "met"],
    ["4 mm in 9 months, scaled to 5.35", "2025-01-10", "2025-10-10", 48, "met"],
    ["3.7 mm in 9 months, scaled to 4.95", "2025-01-10", "2025-10-10", 47.7, "not-met"],
    ["7.6 mm in 18 months, scaled to 5.06", "2025-01-10", "2026-07-10", 51.6, "met"],
    ["7.4 mm in 18 months, scaled to 4.94", "2025-01-10", "2026-07-10", 51.4, "not-met"],
    ["shrinking", "2025-01-10", "2026-01-10", 40, "not-met"],
  ] as const)("%s", (_, from, to, mm, outcome) => {
    expect(inOneYear(5, [from, 44], [to, mm]).outcome).toBe(outcome);
  });

  test.each([
    ["8 months", "2025-01-10", "2025-09-05", 48.9],
    ["10 days less than 9 months", "2025-01-10", "2025-09-30", 48.9],
    ["19 months", "2025-01-10", "2026-08-10", 60],
    ["3 months", "2025-01-10", "2025-04-10", 46],
    ["2 years with 6 mm", "2024-01-10", "2026-01-10", 50],
  ] as const)("exams %s apart are no pair about one year apart", (_, from, to, mm) => {
    expect(inOneYear(5, [from, 44], [to, mm])).toEqual({
      outcome: "not-assessable",
      reason: "no pair of comparable exams about one year apart",
    });
  });

  test("half a year is never doubled, but a limit reached in less than a year is reached", () => {
    expect(inOneYear(5, ["2025-01-10", 44], ["2025-07-10", 48]).outcome).toBe("not-assessable");
    expect(inOneYear(5, ["2025-01-10", 44], ["2025-07-10", 49])).toEqual({
      outcome: "met",
      reason:
        "5.0 mm in 181 days (2025-01-10 to 2025-07-10), the limit reached in less than one year",
    });
  });

  test("the reason says what was measured, and what it is scaled to", () => {
    expect(inOneYear(5, ["2025-01-10", 44], ["2026-02-14", 49]).reason).toBe(
      "5.0 mm in 400 days (2025-01-10 to 2026-02-14), 4.6 mm scaled to one year",
    );
    expect(inOneYear(3, ["2025-01-10", 44], ["2026-01-10", 46.96]).reason).toBe(
      "2.96 mm in 365 days (2025-01-10 to 2026-01-10)",
    );
  });

  test("the latest pair decides, and of those the one nearest to a year; exams between them do not matter", () => {
    const exams: [string, number][] = [
      ["2022-01-10", 40],
      ["2023-01-10", 46],
      ["2024-01-10", 46.5],
      ["2024-07-10", 46.8],
      ["2025-01-10", 47],
    ];
    expect(inOneYear(5, ...exams)).toEqual({
      outcome: "not-met",
      reason: "0.5 mm in 366 days (2024-01-10 to 2025-01-10)",
    });
    expect(inOneYear(5, ...exams.slice(0, 2)).outcome).toBe("met");
  });

  test("an old yearly pair is overtaken by a later limit reached sooner", () => {
    const { outcome, reason } = inOneYear(
      5,
      ["2022-01-10", 40],
      ["2023-01-10", 41],
      ["2025-01-10", 42],
      ["2025-05-10", 48],
    );
    expect(outcome).toBe("met");
    expect(reason).toContain("6.0 mm in 120 days (2025-01-10 to 2025-05-10)");
  });

  test("two exams of one day are no growth", () => {
    expect(inOneYear(5, ["2025-01-10", 44], ["2025-01-10", 52]).outcome).toBe("not-assessable");
  });

  test("binary fractions do not decide", () => {
    expect(33.3 - 30.3).toBeLessThan(3);
    expect(inOneYear(3, ["2025-01-10", 30.3], ["2026-01-10", 33.3]).outcome).toBe("met");
  });

  test("a limit printed with > is not met by the limit itself", () => {
    const { check } = sampleRule(3, { operator: ">" });
    const over = (mm: number) =>
      growthCriterion(check, 12, sizes(["2025-01-10", 40], ["2026-01-10", mm])).outcome;
    expect(over(43)).toBe("not-met");
    expect(over(43.1)).toBe("met");
  });
});

describe("growth in six months", () => {
  test.each([
    ["5 mm in 181 days", "2025-01-10", "2025-07-10", 49, "met"],
    ["4.9 mm in 181 days", "2025-01-10", "2025-07-10", 48.9, "not-met"],
    ["4 mm in 4.5 months, scaled to 5.3", "2025-01-10", "2025-05-27", 48, "met"],
    ["7 mm in 9 months, scaled to 4.7", "2025-01-10", "2025-10-10", 51, "not-met"],
    ["10 mm in 12 months", "2025-01-10", "2026-01-10", 54, "not-assessable"],
    ["1 mm in 3 months", "2025-01-10", "2025-04-10", 45, "not-assessable"],
    ["5 mm in 3 months", "2025-01-10", "2025-04-10", 49, "met"],
  ] as const)("%s", (_, from, to, mm, outcome) => {
    expect(inSixMonths(5, [from, 44], [to, mm]).outcome).toBe(outcome);
  });

  test("the reason speaks of 6 months", () => {
    expect(inSixMonths(5, ["2025-01-10", 44], ["2025-10-10", 51]).reason).toContain(
      "7.0 mm in 273 days (2025-01-10 to 2025-10-10), 4.7 mm scaled to 6 months",
    );
    expect(inSixMonths(5, ["2025-01-10", 44]).reason).toContain("about 6 months apart");
  });
});

describe("growth in two consecutive years", () => {
  test.each([
    ["3 mm and 3.2 mm", 43, 46.2, "met"],
    ["3 mm and 2.9 mm", 43, 45.9, "not-met"],
    ["0 mm and 9 mm", 40, 49, "not-met"],
  ] as const)("%s", (_, second, third, outcome) => {
    const found = inTwoYears(3, ["2023-01-10", 40], ["2024-01-10", second], ["2025-01-10", third]);
    expect(found.outcome).toBe(outcome);
  });

  test("one interval of two years does not satisfy it, however large", () => {
    expect(inTwoYears(3, ["2023-01-10", 40], ["2025-01-10", 46])).toEqual({
      outcome: "not-assessable",
      reason:
        "yearly exam missing: three comparable exams are needed, each about one year after the one before",
    });
    expect(inTwoYears(3, ["2023-01-10", 40], ["2024-01-10", 44]).outcome).toBe("not-assessable");
  });

  test("the intervals must follow each other", () => {
    const apart = inTwoYears(
      3,
      ["2020-01-10", 40],
      ["2021-01-10", 43],
      ["2024-01-10", 44],
      ["2025-01-10", 48],
    );
    expect(apart.outcome).toBe("not-assessable");
  });

  test("both years are said", () => {
    const found = inTwoYears(3, ["2023-01-10", 40], ["2024-01-10", 43], ["2025-01-10", 46.2]);
    expect(found.reason).toBe(
      "3.0 mm in 365 days (2023-01-10 to 2024-01-10); then 3.2 mm in 366 days (2024-01-10 to 2025-01-10)",
    );
  });

  test("exams every half year hold the yearly ones", () => {
    const found = inTwoYears(
      3,
      ["2023-01-10", 40],
      ["2023-07-10", 41.5],
      ["2024-01-10", 43.1],
      ["2024-07-10", 44.8],
      ["2025-01-10", 46.3],
    );
    expect(found.outcome).toBe("met");
    expect(found.reason).toContain("2023-01-10 to 2024-01-10");
  });
});
