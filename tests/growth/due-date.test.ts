import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { addMonths, monthWords, nextDue } from "../../src/growth/due-date.ts";
import { loadSchedules } from "../../src/guidelines/load-schedules.ts";

const day = fc
  .date({ min: new Date("1950-01-01"), max: new Date("2150-12-31"), noInvalidDate: true })
  .map((date) => date.toISOString().slice(0, 10));
const months = fc.integer({ min: 0, max: 600 });
const monthIndex = (date: string): number =>
  Number(date.slice(0, 4)) * 12 + Number(date.slice(5, 7));

describe("adding months", () => {
  test.each([
    ["2024-01-31", 1, "2024-02-29"],
    ["2023-01-31", 1, "2023-02-28"],
    ["2024-02-29", 12, "2025-02-28"],
    ["2024-02-29", 48, "2028-02-29"],
    ["2024-08-31", 3, "2024-11-30"],
    ["2024-12-15", 1, "2025-01-15"],
    ["1999-12-31", 2, "2000-02-29"],
    ["2099-12-31", 2, "2100-02-28"],
    ["2024-01-31", 0, "2024-01-31"],
  ])("%s and %d is %s", (from, count, to) => {
    expect(addMonths(from, count)).toBe(to);
  });

  test("never skips a month, gives a real day and keeps the order", () => {
    fc.assert(
      fc.property(day, day, months, (one, other, count) => {
        const later = addMonths(one, count);
        expect(monthIndex(later)).toBe(monthIndex(one) + count);
        expect(new Date(later).toISOString().slice(0, 10)).toBe(later);
        expect(Number(later.slice(8))).toBeLessThanOrEqual(Number(one.slice(8)));
        expect(addMonths(one, count + 1) > later).toBe(true);
        const [first, last] = one <= other ? [one, other] : [other, one];
        expect(addMonths(first, count) <= addMonths(last, count)).toBe(true);
      }),
    );
  });
});

describe("the next date of any schedule", () => {
  const due = fc.constantFrom(...loadSchedules().map((schedule) => schedule.due));

  test("does not depend on the order of exams, nor on those before the start", () => {
    fc.assert(
      fc.property(due, day, fc.array(day), (plan, start, exams) => {
        const found = nextDue(plan, start, exams);
        expect(nextDue(plan, start, exams.toReversed())).toEqual(found);
        expect(
          nextDue(
            plan,
            start,
            exams.filter((date) => date >= start),
          ),
        ).toEqual(found);
      }),
    );
  });

  test("never comes earlier because of one more exam, and follows each exam that counts", () => {
    const offset = fc.integer({ min: 0, max: 4000 });
    fc.assert(
      fc.property(due, day, fc.array(offset), offset, (plan, start, offsets, more) => {
        const dateOf = (days: number): string =>
          new Date(Date.parse(start) + days * 86_400_000).toISOString().slice(0, 10);
        const before = nextDue(plan, start, offsets.map(dateOf));
        const after = nextDue(plan, start, [...offsets, more].map(dateOf));
        if (after === null || before === null) {
          expect(after).toBeNull();
          return;
        }
        expect(after.window.latest >= before.window.latest).toBe(true);
        expect(after.window.earliest <= after.window.latest).toBe(true);
        expect(after.window.latest > start).toBe(true);
      }),
    );
  });
});

test.each([
  [{ from: 6, to: 6 }, "6 months"],
  [{ from: 12, to: 12 }, "1 year"],
  [{ from: 6, to: 12 }, "6 to 12 months"],
  [{ from: 24, to: 36 }, "2 to 3 years"],
  [{ from: 0, to: 1 }, "within 1 month"],
  [{ from: 0, to: 12 }, "within 1 year"],
])("%o reads %s", (span, words) => {
  expect(monthWords(span)).toBe(words);
});
