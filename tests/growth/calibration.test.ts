import { describe, expect, test } from "vitest";
import { calibrate } from "../bench/calibration.ts";

const series = 2000;
/** Four standard errors of a share of so many series: a false alarm in 16,000 seeds. */
const noise = (share: number): number => 4 * Math.sqrt((share * (1 - share)) / series);

describe("2,000 invented series of known growth", () => {
  const found = calibrate({ series, seed: 7 });

  test("95 of 100 intervals hold the true rate", () => {
    expect(Math.abs(found.coverage - 0.95)).toBeLessThan(0.01 + noise(0.95));
  });

  test.each(found.limits)(
    "$limitMmPerYear mm per year: wrong answers are rare, and rarer than by subtraction",
    (limit) => {
      expect(limit.wronglyExceeds).toBeLessThan(0.025);
      expect(limit.wronglyBelow).toBeLessThan(0.025);
      expect(limit.wronglyExceeds).toBeLessThan(limit.wronglyExceedsBySubtraction / 4);
      expect(limit.wronglyBelow).toBeLessThan(limit.wronglyBelowBySubtraction / 4);
      expect(limit.exceeds + limit.cannotTell + limit.wronglyBelow).toBeCloseTo(1, 9);
      expect(limit.exceeds).toBeGreaterThan(0.5);
    },
  );

  test("growth just at the limit is called exceeding in 2.5 of 100 series, by subtraction in half", () => {
    const [at3] = calibrate({ series, seed: 8, rates: [3, 3] }).limits;
    expect(Math.abs((at3?.wronglyExceeds ?? 1) - 0.025)).toBeLessThan(noise(0.025));
    expect(Math.abs((at3?.wronglyExceedsBySubtraction ?? 0) - 0.5)).toBeLessThan(0.02 + noise(0.5));
  });

  test("steady growth is said to change in 5 of 100 series", () => {
    expect(Math.abs(found.wronglyChanging - 0.05)).toBeLessThan(noise(0.05));
  });

  test("errors larger than stated widen the interval where their scatter shows", () => {
    const { coverage, coverageByExams } = calibrate({ series, seed: 9, errorFactor: 3 });
    expect(coverageByExams.get(6)).toBeGreaterThan((coverageByExams.get(2) ?? 1) + 0.2);
    expect(coverage).toBeLessThan(0.95);
  });
});
