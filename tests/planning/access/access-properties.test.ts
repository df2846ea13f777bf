import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { access } from "../../../src/planning/access/access.ts";
import type { AccessBasis } from "../../../src/planning/access/access-side.ts";
import { noSiteConfig } from "../../../src/site/site-config.ts";
import { evenly } from "../../evenly.ts";
import { asOf, graft, iliacs, inventedCase, line, station } from "./access-case.ts";

const basis = {
  asOf,
  inventory: [graft("G1", 8, "24 Fr")],
  planning: noSiteConfig.planning,
  readingSdMmOf: () => 0.25,
  stationSdMmOf: () => 0.25,
};

const rightOf = (stated: Parameters<typeof inventedCase>[0], more: Partial<AccessBasis> = {}) => {
  const [right] = access(inventedCase(stated), { ...basis, ...more }).sides;
  if (!right) throw new Error("the right side is always there");
  return right;
};

const order = ["not-met", "not-assessable", "met"];
const diameter = evenly(3, 14);
const threeOf = fc.tuple(diameter, diameter, diameter);
const partOf = fc.subarray([0, 1, 2]);

/** Lowest is worst; a condition that does not apply says nothing. */
const ranksOf = ({ sheaths }: ReturnType<typeof rightOf>): number[] =>
  (sheaths?.[0]?.checks ?? [])
    .filter(({ id }) => id.startsWith("sheath-ratio"))
    .map(({ outcome }) => order.indexOf(outcome));

describe("properties of the access", () => {
  test("a larger sheath never turns a failing side into a passing one", () => {
    fc.assert(
      fc.property(threeOf, partOf, diameter, diameter, (lumens, known, one, other) => {
        const measurements = iliacs("right", lumens).filter((_, at) => known.includes(at));
        const [small, large] = [Math.min(one, other), Math.max(one, other)];
        const ranks = (mm: number) =>
          ranksOf(rightOf({ measurements }, { inventory: [graft("G", mm, `${mm} mm`)] }));
        ranks(small).forEach((rank, at) => expect(ranks(large)[at]).toBeLessThanOrEqual(rank));
      }),
    );
  });

  test("a narrower section never improves", () => {
    fc.assert(
      fc.property(
        fc.array(diameter, { minLength: 3, maxLength: 8 }),
        fc.nat(),
        diameter,
        (lumens, at, mm) => {
          const marks = ["zone-10-right", "zone-11-right", "right-common-femoral-artery"];
          const pathOf = (widths: readonly number[]) =>
            line(
              "right access path",
              widths.map((minimumMm, index) => {
                const markId = marks[index];
                return station(index * 10, {
                  minimumMm,
                  ...(markId === undefined ? {} : { markId }),
                });
              }),
            );
          const narrowed = lumens.map((width, index) =>
            index === at % lumens.length ? Math.min(width, mm) : width,
          );
          const before = ranksOf(rightOf({ centrelines: [pathOf(lumens)] }));
          const after = ranksOf(rightOf({ centrelines: [pathOf(narrowed)] }));
          before.forEach((rank, index) => expect(after[index]).toBeLessThanOrEqual(rank));
        },
      ),
    );
  });

  test("the interval of the ratio holds its value", () => {
    fc.assert(
      fc.property(threeOf, (lumens) => {
        const ratio = rightOf({ measurements: iliacs("right", lumens) }).sheaths?.[0]?.ratio;
        expect(ratio?.low).toBeLessThanOrEqual(ratio?.value ?? 0);
        expect(ratio?.high).toBeGreaterThanOrEqual(ratio?.value ?? 0);
      }),
    );
  });
});
