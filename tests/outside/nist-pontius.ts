/*
 * NIST Statistical Reference Datasets, linear regression, "Pontius": 40 pairs, y = B0 + B1 x + B2 x² + e, certified values.
 * https://www.itl.nist.gov/div898/strd/lls/data/Pontius.shtml. Pairs and certified values were compared in two public
 * copies; a slip in either shows, since the certified values are met to nine digits.
 */
const loads = Array.from({ length: 20 }, (_, index) => 150_000 * (index + 1));

export const pontius = {
  x: [...loads, ...loads],
  y: [
    0.11019, 0.21956, 0.32949, 0.43899, 0.54803, 0.65694, 0.76562, 0.87487, 0.98292, 1.09146,
    1.20001, 1.30822, 1.41599, 1.52399, 1.63194, 1.73947, 1.84646, 1.95392, 2.06128, 2.16844,
    0.11052, 0.22018, 0.32939, 0.43886, 0.54798, 0.65739, 0.76596, 0.87474, 0.983, 1.0915, 1.20004,
    1.30818, 1.41613, 1.52408, 1.63159, 1.73965, 1.84696, 1.95445, 2.06177, 2.16829,
  ],
  coefficients: [0.673565789473684e-3, 0.732059160401003e-6, -0.316081871345029e-14],
  standardErrors: [0.107938612033077e-3, 0.157817399981659e-9, 0.486652849992036e-16],
  residualSd: 0.205177424076185e-3,
  degreesOfFreedom: 37,
};
