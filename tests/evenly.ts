import fc from "fast-check";

/** Numbers evenly from one to another, both included, in steps of a 2^31th: doubles of fast-check crowd about 0. */
export const evenly = (from: number, to: number): fc.Arbitrary<number> =>
  fc.nat().map((step) => from + (to - from) * (step / 0x7fffffff));
