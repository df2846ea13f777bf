/** One observed value with its standard deviation, which is known beforehand, and its row of the design. */
export interface Observation {
  row: readonly number[];
  value: number;
  sd: number;
}

/** A sum of coefficients, each times a number, as read off the fit. */
export interface Combination {
  value: number;
  /** From the known standard deviations alone. */
  standardError: number;
  /** By how much it moves where one observed value moves by 1, in the order of the observations. */
  weights: number[];
}

/** A model that is linear in its coefficients, fitted to values with known standard deviations. */
export interface WeightedFit {
  /** Sum of squared residuals, each over its standard deviation. */
  chiSquared: number;
  degreesOfFreedom: number;
  /** `row` holds one number for each coefficient: [1, x] is the height of a line at x, [0, 1] its slope. */
  combination: (row: readonly number[]) => Combination;
}

/** A column that is this small beside what it was is a sum of those before it. */
const dependentShare = 1e-13;

/**
 * Weighted least squares with weights 1 / sd², by orthogonal columns (Gram-Schmidt, each column cleared twice of those
 * before it). Null where there are fewer observations than coefficients, or where a column is a sum of others.
 */
export function weightedFit(observations: readonly Observation[]): WeightedFit | null {
  const count = observations.length;
  const size = observations[0]?.row.length ?? 0;
  if (size === 0 || count < size) return null;
  const orthogonal: number[][] = [];
  const upper: number[][] = [];
  for (let index = 0; index < size; index++) {
    const column = observations.map(({ row, sd }) => (row[index] ?? Number.NaN) / sd);
    const { rest, shares } = clearedOf(orthogonal, column);
    const length = Math.sqrt(product(rest, rest));
    if (!(length > dependentShare * Math.sqrt(product(column, column)))) return null;
    orthogonal.push(rest.map((entry) => entry / length));
    upper.push([...shares, length]);
  }
  const scaled = observations.map(({ value, sd }) => value / sd);
  const { rest: residuals } = clearedOf(orthogonal, scaled);
  return {
    chiSquared: product(residuals, residuals),
    degreesOfFreedom: count - size,
    combination: (row) => {
      const along = solvedForward(upper, row);
      const weights = observations.map(({ sd }, index) => {
        const entries = orthogonal.map((column) => column[index] ?? Number.NaN);
        return product(along, entries) / sd;
      });
      const values = observations.map(({ value }) => value);
      return {
        value: product(weights, values),
        standardError: Math.sqrt(product(along, along)),
        weights,
      };
    },
  };
}

function product(one: readonly number[], other: readonly number[]): number {
  return one.reduce((sum, entry, index) => sum + entry * (other[index] ?? Number.NaN), 0);
}

/** What is left of a column beside the orthogonal ones, and its share of each of them. */
function clearedOf(
  orthogonal: readonly number[][],
  column: readonly number[],
): { rest: number[]; shares: number[] } {
  let rest = [...column];
  const shares = orthogonal.map(() => 0);
  for (let pass = 0; pass < 2; pass++) {
    for (const [index, direction] of orthogonal.entries()) {
      const share = product(direction, rest);
      shares[index] = (shares[index] ?? 0) + share;
      rest = rest.map((entry, place) => entry - share * (direction[place] ?? Number.NaN));
    }
  }
  return { rest, shares };
}

/** Solves the transposed triangular system; `upper` holds its columns from the top to the diagonal. */
function solvedForward(upper: readonly number[][], row: readonly number[]): number[] {
  const along: number[] = [];
  for (const [index, column] of upper.entries()) {
    const known = product(along, column.slice(0, index));
    along.push(((row[index] ?? Number.NaN) - known) / (column[index] ?? Number.NaN));
  }
  return along;
}
