import { sentenceCase } from "../../quantities/sentence-case.ts";
import { gatherBeginnings } from "../gathered-words.ts";
import type { PlanRingView } from "../views-schema.ts";

/** The label of a ring; with its date where another ring has the same one. */
export function ringNames(rings: readonly PlanRingView[]): string[] {
  return rings.map(({ label, date }) =>
    rings.filter((other) => other.label === label).length > 1 ? `${label}, ${date}` : label,
  );
}

/** What is said of several rings alike, once, with their names: "Smoothed (proximal edge in zone 1, 2)"; of all, "(all rings)". */
export function sayOnce(
  ringCount: number,
  said: readonly { ring: string; words: string }[],
): string[] {
  return [...Map.groupBy(said, ({ words }) => words)].map(([words, same]) =>
    sentenceCase(
      `${words} (${same.length === ringCount ? "all rings" : gatherBeginnings(same.map(({ ring }) => ring))})`,
    ),
  );
}
