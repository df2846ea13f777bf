import fc from "fast-check";
import type { Vector } from "../../src/geometry/vector.ts";
import { evenly } from "../evenly.ts";

/** Directions of length 1, evenly over the sphere (with those along the axes more often, as fast-check favours ends). */
export const axis: fc.Arbitrary<Vector> = fc
  .record({ z: evenly(-1, 1), turn: evenly(0, 2 * Math.PI) })
  .map(({ z, turn }) => {
    const level = Math.sqrt((1 - z) * (1 + z));
    return [level * Math.cos(turn), level * Math.sin(turn), z];
  });

/** A rotation, as the unit axis and the angle in radians it turns about. */
export const rotation = fc.record({ about: axis, angle: evenly(-Math.PI, Math.PI) });
