import { expect, test } from "vitest";
import { missingOf } from "../../src/planning/completeness.ts";

test("what a result lacks that has its size comes first, then what most results lack", () => {
  const results = [
    { name: "a", missing: ["diagnosis"], isNear: false },
    { name: "b", missing: ["diagnosis", "height"], isNear: false },
    { name: "c", missing: ["surgical risk"], isNear: true },
    { name: "c", missing: ["surgical risk"], isNear: true },
  ];
  expect(missingOf(results)).toEqual([
    { what: "surgical risk", decides: ["c"] },
    { what: "diagnosis", decides: ["a", "b"] },
    { what: "height", decides: ["b"] },
  ]);
});
