import { placeTable } from "../anatomy/places.ts";

/** A: entry tear in zone 0. B: in zone 1 or beyond. I: zone 0 dissected and no entry tear found. */
export type DissectionType = "A" | "B" | "I";

/**
 * Type and extent of a dissection as SVS/STS 2020 write it (J Vasc Surg 2020;71:723-47, reproduced in ESC 2024,
 * doi 10.1093/eurheartj/ehae179, figure 29, page 3620). The side of an iliac zone is our addition.
 */
export interface DissectionNotation {
  type: DissectionType;
  /** First dissected zone. Only type B has this subscript; null too where the extent is not stated. */
  proximal: number | null;
  /** Last dissected zone; null where the extent is not stated. */
  distal: number | null;
  /** Side of zone 10 or 11; null for other zones and where it is not stated. */
  side: "left" | "right" | "both sides" | null;
}

/** All zones, "0" to "9", then the iliac ones as "10-left" and so on. */
export const zoneIds: readonly string[] = placeTable
  .filter(({ place }) => place.kind === "zone")
  .flatMap(({ place }) => place.zones);

/** 10 for "10-left". */
export const zoneNumber = (zone: string): number => Number.parseInt(zone, 10);

/** "zone 10 left" for "10-left". */
export const zoneWords = (zone: string): string => `zone ${zone.replace("-", " ")}`;

const zone = "(0|[1-9][0-9]*)";
const range = `${zone}(?:\\s*(?:,|-|to)\\s*${zone})?`;
const side = "(left|right|both sides)";
const form = new RegExp(
  `^(?:type\\s*)?([abi])(?:\\s*_?\\s*(?:${range}|\\(\\s*${range}\\s*\\))(?:\\s*,?\\s*(?:${side}|\\(\\s*${side}\\s*\\)))?)?$`,
);

/** Reads "A_9", "B3-9", "B(3,9)", "B₃,₉", "I 8", "A11 right", "type B" …; anything else gives the reason why not. */
export function parseDissectionNotation(words: string): DissectionNotation | { problem: string } {
  const plain = words
    .normalize("NFKC")
    .toLowerCase()
    .replaceAll(/[\u2010-\u2015\u2212]/gu, "-")
    .replaceAll(/\s+/g, " ")
    .trim();
  const match = form.exec(plain);
  if (!match) {
    return {
      problem: `"${words}" is not a dissection type with its zones, such as A_9, B_3,9 or I_8`,
    };
  }
  const type = match[1]?.toUpperCase() as DissectionType;
  const [first, second] = [match[2] ?? match[4], match[3] ?? match[5]].map((text) =>
    text === undefined ? null : Number(text),
  );
  const notation: DissectionNotation = {
    type,
    proximal: second === null ? null : (first ?? null),
    distal: second ?? first ?? null,
    side: (match[6] ?? match[7] ?? null) as DissectionNotation["side"],
  };
  const problem = problemOf(notation);
  return problem === null ? notation : { problem: `"${words}": ${problem}` };
}

function problemOf({ type, proximal, distal, side }: DissectionNotation): string | null {
  if (distal === null) return null;
  if (type !== "B" && proximal !== null) {
    return `type ${type} has one zone, the distal one; its dissection begins in zone 0 and the standard does not write that zone`;
  }
  if (type === "B" && proximal === null) {
    return `type B needs two zones, the proximal and the distal one; with ${distal} alone it is not said which one that is`;
  }
  const beyond = [proximal ?? 0, distal].find((number) => number > 11);
  if (beyond === 12) {
    return "the figure of the standard, as reproduced in ESC 2024, lists zones 0 to 12, and no text seen defines a zone 12";
  }
  if (beyond !== undefined) return `there is no zone ${beyond}; the zones are 0 to 11`;
  if (proximal !== null && proximal > distal) {
    return `the proximal zone ${proximal} lies beyond the distal zone ${distal}`;
  }
  if (type === "B" && distal === 0) {
    return "type B has its entry tear in zone 1 or beyond, so it can't end in zone 0";
  }
  return side !== null && distal < 10 ? `zone ${distal} has no side; only 10 and 11 have` : null;
}

/** "A_9", "B_3,9", "B_3,10 left"; "B" where the extent is not stated. */
export function formatDissectionNotation({
  type,
  proximal,
  distal,
  side,
}: DissectionNotation): string {
  const zones = [proximal, distal].filter((number) => number !== null).join(",");
  return `${type}${zones === "" ? "" : `_${zones}`}${side === null ? "" : ` ${side}`}`;
}

/**
 * Zones that a notation says are dissected, and iliac zones of which it says nothing clear (no side, or the other
 * side). All other zones are then not dissected; without an extent they are unknown.
 */
export function zonesOfNotation(notation: DissectionNotation): {
  involved: string[];
  unclear: string[];
} {
  const { type, distal, side } = notation;
  const begin = type === "B" ? notation.proximal : 0;
  if (begin === null) return { involved: [], unclear: [] };
  if (distal === null) return { involved: ["0"], unclear: [] };
  const reached = zoneIds.filter((id) => zoneNumber(id) >= begin && zoneNumber(id) <= distal);
  const isInvolved = (id: string): boolean =>
    zoneNumber(id) < 10 || side === "both sides" || (side !== null && id.endsWith(side));
  return {
    involved: reached.filter(isInvolved),
    unclear: reached.filter((id) => !isInvolved(id)),
  };
}
