import { expect, test } from "vitest";
import { ageInYears } from "../../src/quantities/age-in-years.ts";

test("age counts completed years, also from 29 February", () => {
  expect(ageInYears("2000-02-29", "2018-02-28")).toBe(17);
  expect(ageInYears("2000-02-29", "2018-03-01")).toBe(18);
});
