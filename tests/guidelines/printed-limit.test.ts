import { expect, test } from "vitest";
import { printedLimit } from "../../src/guidelines/printed-limit.ts";

test.each([
  ["55 mm", "mm", 55],
  ["5.5 cm", "mm", 55],
  ["0.3 cm per year in 2 consecutive years", "mm", 3],
  ["5.0 to 5.4 cm", "mm", 50],
  ["2.5 cm/m2", "cm/m2", 2.5],
  ["25 mm/m2", "cm/m2", 2.5],
  ["23 mm/m", "cm/m", 2.3],
  ["10 cm2/m", "cm2/m", 10],
  ["25 mm/m2", "cm/m", null],
  ["55", "mm", null],
  ["about 55 mm", "mm", null],
  ["5,5 cm", "mm", null],
] as const)("%s in %s is %s", (printed, unit, value) => {
  const found = printedLimit(printed, unit);
  if (value === null) expect(found).toBeNull();
  else expect(found).toBeCloseTo(value, 12);
});
