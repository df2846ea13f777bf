import type { DateOrder } from "../../site/sheet-settings.ts";

/** Why the text of a cell is no date: a message code of the readers, and the ways that would do. */
export interface DateProblem {
  problem: "csv-date-not-iso" | "csv-date-ambiguous" | "csv-date-short-year";
  expected: string;
}

const iso = /^(\d{4})-(\d{2})-(\d{2})$|^(\d{4})(\d{2})(\d{2})$/;
const numbers = /^(\d{1,2}|\d{4})([./-])(\d{1,2})\2(\d{1,2}|\d{4})$/;
const timeOfDay = /[T ]\d{2}:\d{2}(?::\d{2}(?:\.\d+)?)?$/;

/**
 * The date of a cell as YYYY-MM-DD. YYYY-MM-DD and YYYYMMDD are always read, numbers with points, slashes or hyphens
 * only in the declared order and with a year of four digits; a time of day may follow. Day and month are never told
 * apart by their size.
 */
export function sheetDate(text: string, order: DateOrder): { date: string } | DateProblem {
  const day = text.replace(timeOfDay, "");
  const expected = order === "iso" ? "YYYY-MM-DD" : `YYYY-MM-DD or ${order}`;
  const isoParts = iso.exec(day)?.filter((part) => part !== undefined);
  if (isoParts) return calendarDate(isoParts.slice(1)) ?? { problem: "csv-date-not-iso", expected };
  const [, first, , second, third] = numbers.exec(day) ?? [];
  if (first === undefined || second === undefined || third === undefined) {
    return { problem: "csv-date-not-iso", expected };
  }
  if (Math.max(first.length, third.length) < 4) {
    return { problem: "csv-date-short-year", expected };
  }
  if (order === "iso") {
    const [one, two] = first.length === 4 ? [second, third] : [first, second];
    const isEither = Number(one) <= 12 && Number(two) <= 12 && Number(one) !== Number(two);
    return { problem: isEither ? "csv-date-ambiguous" : "csv-date-not-iso", expected };
  }
  const parts = {
    "year-month-day": [first, second, third],
    "day-month-year": [third, second, first],
    "month-day-year": [third, first, second],
  }[order];
  return calendarDate(parts) ?? { problem: "csv-date-not-iso", expected };
}

function calendarDate([year = "", month = "", day = ""]: string[]): { date: string } | null {
  const date = `${year}-${month.padStart(2, "0")}-${day.padStart(2, "0")}`;
  return isCalendarDate(date) ? { date } : null;
}

/** True for YYYY-MM-DD that names a day of the calendar. */
export function isCalendarDate(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const date = new Date(`${text}T00:00:00Z`);
  return !Number.isNaN(date.getTime()) && date.toISOString().startsWith(text);
}
