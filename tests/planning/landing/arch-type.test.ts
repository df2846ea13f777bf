import { describe, expect, test } from "vitest";
import { archTypeOf } from "../../../src/planning/landing/arch-type.ts";
import { segmentChecks } from "../../../src/planning/landing/segment-checks.ts";
import { dissectionCase, examDate } from "../../cases/sample-dissection.ts";
import { everyFive, lineCase, marks, segmentOf } from "./sample-segments.ts";

const stated = (...types: string[]) =>
  archTypeOf(
    dissectionCase(
      {},
      types.map((type) => ["aortic-arch", "arch type", type] as const),
    ),
    examDate,
  );
const stepwise = segmentOf(lineCase([...marks, ...everyFive()]), "proximal", "2");
const steep = (...types: string[]) =>
  segmentChecks(stepwise, stated(...types)).find(({ id }) => id === "seal-length-steep-arch-25");

describe("a length that is of steep arches", () => {
  test("is open where no type is stated, or two are, and names it", () => {
    for (const check of [steep(), steep("I", "II")]) {
      expect(check).toMatchObject({
        outcome: "not-assessable",
        missing: ["type of the arch (I, II or III)"],
      });
    }
    expect(steep("I", "II")?.reason).toContain("readers differ");
  });

  test("is not of an arch of type I", () => {
    expect(steep("I")).toMatchObject({ outcome: "not-applicable", missing: [] });
  });

  test.each(["II", "III"])("is judged as any other length in an arch of type %s", (type) => {
    const other = segmentChecks(stepwise, stated(type)).find(({ id }) => id === "seal-length-25");
    expect(steep(type)?.outcome).toBe(other?.outcome);
    expect(steep(type)?.value).toEqual(other?.value);
  });
});
