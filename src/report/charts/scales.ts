import { scaleLinear, scaleUtc } from "d3-scale";

/** Maps a value to a coordinate. */
export type Scale = (value: number) => number;

/** Linear scale from values to coordinates. */
export function linearScale(domain: [number, number], range: [number, number]): Scale {
  const scale = scaleLinear(domain, range);
  return (value) => scale(value);
}

/** Round values to mark on an axis, about `count` of them. */
export function roundTicks(domain: [number, number], count: number): number[] {
  return scaleLinear(domain, [0, 1]).ticks(count);
}

/** Scale from calendar dates (YYYY-MM-DD) to coordinates. */
export function dateScale(
  domain: [string, string],
  range: [number, number],
): (date: string) => number {
  const scale = scaleUtc(
    domain.map((date) => new Date(date)),
    range,
  );
  return (date) => scale(new Date(date));
}
