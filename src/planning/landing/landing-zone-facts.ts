import { placeById } from "../../anatomy/places.ts";
import type { Dissection } from "../../cases/dissection.ts";
import { zonesOfNotation } from "../../cases/dissection-notation.ts";
import type { Exam, PriorRepair } from "../../cases/patient-case.ts";
import { type Wall, wallAt } from "../../cases/wall.ts";

/** What a zone consists of at the as-of date. */
export interface LandingWall {
  isNative: boolean | { unclear: string };
  /** "native wall", "graft since 2019, by the case sheet: "…"", "not stated: …". */
  words: string;
  /** Whether an exam shows the wall that is there now; what would have to be known where that is open. */
  isShownBy: (exam: Exam) => boolean | { unclear: string };
}

/** The wall of a zone by the repairs that the case sheet states (null: it states nothing), at `asOf` (YYYY-MM-DD). */
export function landingWall(
  zone: string,
  repairs: readonly PriorRepair[] | null,
  asOf: string,
): LandingWall {
  const place = placeById(`zone-${zone}`);
  const wall = wallAt(place, repairs, asOf, "present");
  return {
    isNative: "unclear" in wall ? wall : wall.kind === "native",
    words: wallWords(wall),
    isShownBy: ({ imagingDate }) => {
      const then = wallAt(place, repairs, imagingDate);
      if ("unclear" in wall) return true;
      if ("unclear" in then) return then;
      return then.kind === wall.kind && then.words === wall.words;
    },
  };
}

function wallWords(wall: Wall): string {
  if ("unclear" in wall) return `not stated: ${wall.unclear}`;
  const { kind, since, words } = wall;
  if (kind === "native") return "native wall";
  return `${kind}${since === null ? "" : ` since ${since}`}, by the case sheet: "${words}"`;
}

/** Whether a zone is dissected, with the keys of measurements and findings; no keys where only the case sheet says it. */
export interface ZoneDissected {
  state: "yes" | "no" | "not stated" | "sources differ";
  used: string[];
}

/**
 * Null where the case speaks of no dissection. The last exam that shows it and the notation of the case sheet are both
 * heard; the notation says nothing of a zone that has been repaired since.
 */
export function zoneDissected(
  zone: string,
  dissection: Dissection | null,
  { isNative }: LandingWall,
): ZoneDissected | null {
  if (dissection === null) return null;
  const seen = dissection.derived?.zones.find((one) => one.zone === zone);
  const used = seen?.used ?? [];
  if (seen?.state === "contradictory") return { state: "sources differ", used };
  const { notation } = dissection.stated;
  const stated = notation === null || isNative === false ? null : statedOf(zone, notation);
  const shown = seen ? seen.state === "dissected" : null;
  if (stated !== null && shown !== null && stated !== shown) {
    return { state: "sources differ", used };
  }
  const isDissected = shown ?? stated;
  return { state: isDissected === null ? "not stated" : isDissected ? "yes" : "no", used };
}

function statedOf(
  zone: string,
  notation: NonNullable<Dissection["stated"]["notation"]>,
): boolean | null {
  const { involved, unclear } = zonesOfNotation(notation);
  if (involved.includes(zone)) return true;
  return notation.distal === null || unclear.includes(zone) ? null : false;
}
