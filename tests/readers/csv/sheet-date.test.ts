import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { isCalendarDate, sheetDate } from "../../../src/readers/csv/sheet-date.ts";

const orders = ["iso", "day-month-year", "month-day-year", "year-month-day"] as const;

describe("sheetDate", () => {
  test.each([
    ["2025-02-03", "iso", "2025-02-03"],
    ["20250203", "iso", "2025-02-03"],
    ["2025-02-03", "month-day-year", "2025-02-03"],
    ["20250203", "day-month-year", "2025-02-03"],
    ["2025-02-03 10:30", "iso", "2025-02-03"],
    ["2025-02-03T10:30:00.5", "iso", "2025-02-03"],
    ["03.02.2025 10:30", "day-month-year", "2025-02-03"],
    ["3.2.2025", "day-month-year", "2025-02-03"],
    ["03/02/2025", "day-month-year", "2025-02-03"],
    ["03-02-2025", "day-month-year", "2025-02-03"],
    ["02/03/2025", "month-day-year", "2025-02-03"],
    ["2025/2/3", "year-month-day", "2025-02-03"],
    ["29.02.2024", "day-month-year", "2024-02-29"],
  ] as const)("%s, order %s, is %s", (text, order, date) => {
    expect(sheetDate(text, order)).toEqual({ date });
  });

  test.each([
    ["03/04/2025", "iso", "csv-date-ambiguous"],
    ["3.4.2025", "iso", "csv-date-ambiguous"],
    ["2025/03/04", "iso", "csv-date-ambiguous"],
    ["31/01/2025", "iso", "csv-date-not-iso"],
    ["03/03/2025", "iso", "csv-date-not-iso"],
    ["2025-02-30", "iso", "csv-date-not-iso"],
    ["20250230", "iso", "csv-date-not-iso"],
    ["29.02.2025", "day-month-year", "csv-date-not-iso"],
    ["01/31/2025", "day-month-year", "csv-date-not-iso"],
    ["31/01/2025", "month-day-year", "csv-date-not-iso"],
    ["2025/01/31", "day-month-year", "csv-date-not-iso"],
    ["31/01/2025", "year-month-day", "csv-date-not-iso"],
    ["01/02/25", "iso", "csv-date-short-year"],
    ["01.02.25", "day-month-year", "csv-date-short-year"],
    ["01/02.2025", "day-month-year", "csv-date-not-iso"],
    ["1 Feb 2025", "day-month-year", "csv-date-not-iso"],
    ["45690", "iso", "csv-date-not-iso"],
    ["2025-02", "iso", "csv-date-not-iso"],
    ["２０２５-02-03", "iso", "csv-date-not-iso"],
    ["2025-02-03 10:30 UTC", "iso", "csv-date-not-iso"],
  ] as const)("%s, order %s, is refused", (text, order, problem) => {
    expect(sheetDate(text, order)).toMatchObject({ problem });
  });

  test("the way that would do is named", () => {
    expect(sheetDate("x", "iso")).toMatchObject({ expected: "YYYY-MM-DD" });
    expect(sheetDate("x", "day-month-year")).toMatchObject({
      expected: "YYYY-MM-DD or day-month-year",
    });
  });

  test("every day written in a declared order is that day, and is refused where no order is declared", () => {
    const day = fc.date({
      min: new Date("1900-01-01"),
      max: new Date("2099-12-31"),
      noInvalidDate: true,
    });
    fc.assert(
      fc.property(
        day,
        fc.constantFrom(...orders),
        fc.constantFrom(".", "/", "-"),
        (at, order, mark) => {
          const iso = at.toISOString().slice(0, 10);
          const [year = "", month = "", date = ""] = iso.split("-");
          const text = {
            iso,
            "day-month-year": [date, month, year].join(mark),
            "month-day-year": [month, date, year].join(mark),
            "year-month-day": [year, month, date].join(mark),
          }[order];
          expect(sheetDate(text, order)).toEqual({ date: iso });
          const isIsoForm = text === iso;
          if (order !== "iso" && !isIsoForm)
            expect(sheetDate(text, "iso")).toHaveProperty("problem");
        },
      ),
    );
  });
});

test.each([
  ["2024-02-29", true],
  ["2025-02-29", false],
  ["2025-13-01", false],
  ["2025-1-1", false],
])("isCalendarDate %s: %s", (text, is) => {
  expect(isCalendarDate(text)).toBe(is);
});
