import { toDegrees } from "./degrees.ts";

/** A point or direction in three dimensions. Points in mm, in DICOM patient coordinates: x to the left, y to the back, z to the head. */
export type Vector = readonly [x: number, y: number, z: number];

export const add = (a: Vector, b: Vector): Vector => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const subtract = (a: Vector, b: Vector): Vector => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const scale = (a: Vector, by: number): Vector => [a[0] * by, a[1] * by, a[2] * by];
export const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const norm = (a: Vector): number => Math.hypot(...a);

/** The vector of length 1 in the same direction; null for one without a direction. */
export function unit(a: Vector): Vector | null {
  const length = norm(a);
  // Divided, not scaled by the inverse: that of a very short length overflows.
  return length > 0 && Number.isFinite(length)
    ? [a[0] / length, a[1] / length, a[2] / length]
    : null;
}

/** Angle between two directions in degrees, 0 to 180; exact also for nearly parallel ones. */
export const angleBetweenDeg = (a: Vector, b: Vector): number =>
  toDegrees(Math.atan2(norm(cross(a, b)), dot(a, b)));
