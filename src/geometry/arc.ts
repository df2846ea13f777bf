import { toDegrees, toRadians } from "./degrees.ts";

/** Why lengths cannot be given. */
interface Unknown {
  why: string;
}

const relativeTolerance = 1e-9;

/**
 * True where a vessel of this diameter cannot bend on this centreline radius, both in mm: the inner curve would have no
 * radius left. Equal to half the diameter within 1e-9 counts as too tight.
 */
export function isTooTight(radiusMm: number, diameterMm: number): boolean {
  return radiusMm <= (diameterMm / 2) * (1 + relativeTolerance);
}

/**
 * Lengths in mm along the inner and the outer side of a vessel of even diameter, from the length of its centreline on
 * an even radius: L (1 -/+ D / 2R), the length of a curve beside another in its plane (differential geometry; exact
 * for an arc of a circle).
 */
export function innerAndOuterMm(
  lengthMm: number,
  radiusMm: number,
  diameterMm: number,
): { innerMm: number; outerMm: number } | Unknown {
  const why = whyNotABend(radiusMm, diameterMm) ?? whyNotALength(lengthMm);
  if (why !== null) return { why };
  const share = diameterMm / 2 / radiusMm;
  return { innerMm: lengthMm * (1 - share), outerMm: lengthMm * (1 + share) };
}

/** One bend of even radius. */
export interface Bend {
  /** How far it turns, 0 to 360 degrees. */
  turnDeg: number;
  /** Of the centreline, in mm. */
  radiusMm: number;
  diameterMm: number;
}

/**
 * Lengths of one bend in mm: along the centreline (turn x R), the inner (turn x (R - D/2)) and the outer side
 * (turn x (R + D/2)), and straight between the ends of the centreline (2 R sin(turn / 2)). The difference of the sides
 * is turn x D whatever the radius.
 */
export function arcLengthsMm({ turnDeg, radiusMm, diameterMm }: Bend):
  | {
      centrelineMm: number;
      innerMm: number;
      outerMm: number;
      chordMm: number;
      differenceMm: number;
    }
  | Unknown {
  if (!(turnDeg >= 0 && turnDeg <= 360))
    return { why: "the turn of the bend is not a number from 0 to 360 degrees" };
  const turn = toRadians(turnDeg);
  const centrelineMm = turn * radiusMm;
  const sides = innerAndOuterMm(centrelineMm, radiusMm, diameterMm);
  if ("why" in sides) return sides;
  return {
    centrelineMm,
    ...sides,
    chordMm: 2 * radiusMm * Math.sin(turn / 2),
    differenceMm: turn * diameterMm,
  };
}

/**
 * Gap under a straight, rigid end that touches the inner curve where it begins and runs along the tangent there.
 *
 * - `heightMm`: from its free edge to the wall, along the radius: sqrt(R^2 + s^2) - R
 * - `angleDeg`: turned by the inner curve on the way: atan(s / R), 0 to 90
 *
 * The radius of the inner curve (centreline radius less half the diameter) is above 0, the straight length not under 0,
 * both in mm. A model of a rigid end on an even curve; nothing of a real graft's stiffness is in it.
 */
export function straightEndGap({
  innerRadiusMm,
  straightMm,
}: {
  innerRadiusMm: number;
  straightMm: number;
}): { heightMm: number; angleDeg: number } {
  const toEdgeMm = Math.hypot(innerRadiusMm, straightMm);
  // As a quotient: the difference of the two lengths loses its digits where the end is short.
  const heightMm = straightMm === 0 ? 0 : straightMm * (straightMm / (toEdgeMm + innerRadiusMm));
  return { heightMm, angleDeg: toDegrees(Math.atan2(straightMm, innerRadiusMm)) };
}

function whyNotABend(radiusMm: number, diameterMm: number): string | null {
  if (!isPositive(diameterMm)) return "the diameter is not a number above 0";
  if (!isPositive(radiusMm)) return "the radius of the bend is not a number above 0";
  return isTooTight(radiusMm, diameterMm)
    ? "the radius of the bend is not over half the diameter"
    : null;
}

const whyNotALength = (lengthMm: number): string | null =>
  lengthMm >= 0 && Number.isFinite(lengthMm) ? null : "the length is not a number from 0 on";

const isPositive = (value: number): boolean => value > 0 && Number.isFinite(value);
