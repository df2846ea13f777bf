// Invented series with a known true rate, to see how often the 95 % interval of the rate holds it, and how often the answer
// "exceeds" is wrong. Compared with: the difference of the first and the last size over the time between.
import { answerAgainst } from "../../src/growth/growth-answers.ts";
import { type ReadSize, yearsBetween } from "../../src/growth/growth-line.ts";
import { changeMm, growthRate } from "../../src/growth/growth-rate.ts";
import { rateChange } from "../../src/growth/rate-change.ts";
import { daysAfter } from "../../src/growth/when-tellable.ts";

/** Answers to one limit: shares of the series whose true rate does not exceed it, and of those whose rate does. */
interface LimitFigures {
  limitMmPerYear: number;
  wronglyExceeds: number;
  wronglyExceedsBySubtraction: number;
  /** Of the series that exceed. */
  exceeds: number;
  cannotTell: number;
  wronglyBelow: number;
  wronglyBelowBySubtraction: number;
}

export interface Calibration {
  series: number;
  /** Share of 95 % intervals that hold the true rate; by number of exams as well. */
  coverage: number;
  coverageByExams: Map<number, number>;
  /** Of the series with enough exams to ask, though all grow steadily. */
  wronglyChanging: number;
  limits: LimitFigures[];
}

interface InventedSeries {
  sizes: ReadSize[];
  trueRate: number;
}

/** Numbers from 0 up to 1, the same for the same seed (mulberry32). */
function randomNumbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

const normal = (random: () => number): number =>
  Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

const sdsMm = [0.7, 1, 1.4, 1.9];

interface Truth {
  /** Smallest and largest true rate in mm per year. */
  rates?: readonly [number, number];
  /** How many times larger than stated the true reading error is. */
  errorFactor?: number;
}

/**
 * Two to six exams over one to eight years, true rate -1 to 8 mm per year unless stated, sizes to a tenth of a mm; in half
 * of the series all exams have one reading error, in the others each its own.
 */
function inventedSeries(
  random: () => number,
  { rates = [-1, 8], errorFactor = 1 }: Truth,
): InventedSeries {
  const between = (low: number, high: number) => low + random() * (high - low);
  const count = Math.floor(between(2, 7));
  const spanDays = Math.round(between(365.25, 8 * 365.25));
  const inside = Array.from({ length: count - 2 }, () => Math.round(between(1, spanDays - 1)));
  const days = [0, ...inside.toSorted((a, b) => a - b), spanDays];
  const trueRate = between(...rates);
  const startMm = between(35, 55);
  const drawnSd = (): number => sdsMm[Math.floor(random() * sdsMm.length)] ?? Number.NaN;
  const shared = random() < 0.5 ? drawnSd() : null;
  const sizes = days.map((day): ReadSize => {
    const sdMm = shared ?? drawnSd();
    const trueMm = startMm + (trueRate * day) / 365.25;
    const readMm = trueMm + normal(random) * sdMm * errorFactor;
    const valueMm = Number(readMm.toFixed(1));
    return { date: daysAfter("2010-01-01", day), valueMm, sdMm, offset: null };
  });
  return { sizes, trueRate };
}

const share = <Item>(items: readonly Item[], isCounted: (item: Item) => boolean): number =>
  items.filter(isCounted).length / items.length;

/** Draws so many series and counts. */
export function calibrate({
  series,
  seed,
  ...truth
}: Truth & { series: number; seed: number }): Calibration {
  const random = randomNumbers(seed);
  const drawn = Array.from({ length: series }, () => {
    const { sizes, trueRate } = inventedSeries(random, truth);
    const [first, last] = [sizes[0], sizes.at(-1)];
    const { rate } = growthRate(sizes);
    if (!first || !last || rate === null) {
      throw new Error("an invented series without a rate");
    }
    return {
      exams: sizes.length,
      change: rateChange(sizes).answer,
      trueRate,
      rate,
      isHeld: rate.low <= trueRate && trueRate <= rate.high,
      subtracted: changeMm(first, last) / yearsBetween(first.date, last.date),
    };
  });
  const asked = drawn.filter(({ change }) => change !== "too few exams");
  return {
    series,
    wronglyChanging: share(asked, ({ change }) => change !== "no change that can be told"),
    coverage: share(drawn, ({ isHeld }) => isHeld),
    coverageByExams: new Map(
      [...Map.groupBy(drawn, ({ exams }) => exams)]
        .toSorted(([a], [b]) => a - b)
        .map(([exams, group]) => [exams, share(group, ({ isHeld }) => isHeld)]),
    ),
    limits: [3, 5].map((limitMmPerYear): LimitFigures => {
      const answered = drawn.map((one) => ({
        ...one,
        answer: answerAgainst(limitMmPerYear, one.rate),
      }));
      const under = answered.filter(({ trueRate }) => trueRate <= limitMmPerYear);
      const over = answered.filter(({ trueRate }) => trueRate > limitMmPerYear);
      return {
        limitMmPerYear,
        wronglyExceeds: share(under, ({ answer }) => answer === "exceeds"),
        wronglyExceedsBySubtraction: share(under, (one) => one.subtracted >= limitMmPerYear),
        exceeds: share(over, ({ answer }) => answer === "exceeds"),
        cannotTell: share(over, ({ answer }) => answer === "cannot-tell"),
        wronglyBelow: share(over, ({ answer }) => answer === "does-not-exceed"),
        wronglyBelowBySubtraction: share(over, (one) => one.subtracted < limitMmPerYear),
      };
    }),
  };
}

const percent = (part: number): string => `${(part * 100).toFixed(2)} %`;

/** Prints the figures of 20,000 series, of as many that grow just at a limit, and of as many with larger errors than stated. */
export function benchCalibration(print: (line: string) => void): void {
  const count = 20_000;
  const seed = 20_260_115;
  const row = (name: string, ...cells: string[]) =>
    print(name.padEnd(44) + cells.map((cell) => cell.padStart(14)).join(""));
  for (const errorFactor of [1, 1.5]) {
    const found = calibrate({ series: count, seed, errorFactor });
    const error = errorFactor === 1 ? "as stated" : `${errorFactor} times the stated one`;
    print(`${count} invented series, seed ${seed}, true reading error ${error}`);
    row("the 95 % interval holds the true rate", percent(found.coverage));
    for (const [exams, coverage] of found.coverageByExams) {
      row(`  ${exams} exams`, percent(coverage));
    }
    row("steady growth said to be changing", percent(found.wronglyChanging));
    row("", "interval", "subtraction");
    for (const limit of found.limits) {
      const name = `${limit.limitMmPerYear} mm per year`;
      row(
        `${name}, not exceeded: called exceeding`,
        percent(limit.wronglyExceeds),
        percent(limit.wronglyExceedsBySubtraction),
      );
      row(
        `${name}, exceeded: called below`,
        percent(limit.wronglyBelow),
        percent(limit.wronglyBelowBySubtraction),
      );
      row(`${name}, exceeded: can't tell`, percent(limit.cannotTell), percent(0));
      const rates = [limit.limitMmPerYear, limit.limitMmPerYear] as const;
      const atLimit = calibrate({ series: count, seed, rates, errorFactor }).limits.find(
        ({ limitMmPerYear }) => limitMmPerYear === limit.limitMmPerYear,
      );
      row(
        `true rate just ${name}: called exceeding`,
        percent(atLimit?.wronglyExceeds ?? Number.NaN),
        percent(atLimit?.wronglyExceedsBySubtraction ?? Number.NaN),
      );
    }
    print("");
  }
}
