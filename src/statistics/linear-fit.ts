export interface XyPoint {
  x: number;
  y: number;
}

/** A straight line y = intercept + slope x. What needs a residual is null where no degree of freedom is left. */
export interface LinearFit {
  count: number;
  meanX: number;
  meanY: number;
  /** Sum of squared deviations of x from its mean. */
  sumOfSquaresX: number;
  intercept: number;
  slope: number;
  degreesOfFreedom: number;
  residualSd: number | null;
  interceptStandardError: number | null;
  slopeStandardError: number | null;
  /** Null where all y are equal. */
  rSquared: number | null;
}

const sum = (values: number[]): number => values.reduce((total, value) => total + value, 0);

/**
 * Ordinary least squares of y on x, both centred before summing, so that large offsets (calendar
 * years) cost no digits. Null for fewer than two points, or where all x are equal.
 */
export function linearFit(points: readonly XyPoint[]): LinearFit | null {
  const count = points.length;
  if (count < 2) return null;
  const meanX = sum(points.map(({ x }) => x)) / count;
  const meanY = sum(points.map(({ y }) => y)) / count;
  const centred = points.map(({ x, y }) => ({ x: x - meanX, y: y - meanY }));
  const sumOfSquaresX = sum(centred.map(({ x }) => x * x));
  if (sumOfSquaresX === 0) return null;
  const sumOfSquaresY = sum(centred.map(({ y }) => y * y));
  const slope = sum(centred.map(({ x, y }) => x * y)) / sumOfSquaresX;
  const residualSumOfSquares = sum(centred.map(({ x, y }) => (y - slope * x) ** 2));
  const degreesOfFreedom = count - 2;
  const residualSd =
    degreesOfFreedom === 0 ? null : Math.sqrt(residualSumOfSquares / degreesOfFreedom);
  return {
    count,
    meanX,
    meanY,
    sumOfSquaresX,
    intercept: meanY - slope * meanX,
    slope,
    degreesOfFreedom,
    residualSd,
    interceptStandardError:
      residualSd === null ? null : residualSd * Math.sqrt(1 / count + meanX ** 2 / sumOfSquaresX),
    slopeStandardError: residualSd === null ? null : residualSd / Math.sqrt(sumOfSquaresX),
    rSquared: sumOfSquaresY === 0 ? null : 1 - residualSumOfSquares / sumOfSquaresY,
  };
}
