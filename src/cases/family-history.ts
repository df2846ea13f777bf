import type { FamilyEvent } from "./vocabulary.ts";

const nothing: ReadonlySet<string> = new Set(["none", "none known", "negative"]);

/** How each event is written, longer words before those that they hold. */
const eventWords: readonly (readonly [string, FamilyEvent])[] = [
  ["aortic dissection", "aortic dissection"],
  ["dissection", "aortic dissection"],
  ["aortic aneurysm", "aortic aneurysm"],
  ["aneurysm", "aortic aneurysm"],
  ["sudden death", "sudden death"],
  ["aortic event", "aortic event"],
];

/** Words that may stand beside an event and change nothing of it. */
const besides: ReadonlySet<string> = new Set(
  [
    "father mother parent brother sister sibling son daughter child uncle aunt cousin",
    "grandfather grandmother grandparent paternal maternal with and in of the a at age aged",
  ].flatMap((words) => words.split(" ")),
);

/**
 * The events that a free cell on the family surely names, each once; empty where it says that there was none. Null where
 * the cell is empty or holds any other word: a "no", a "?" or another vessel would change what it says.
 */
export function familyEventsIn(cell: string | null): FamilyEvent[] | null {
  const words = cell?.trim().toLowerCase().replaceAll(/\s+/g, " ") ?? "";
  if (nothing.has(words)) return [];
  const found = new Set<FamilyEvent>();
  let rest = words;
  for (const [written, event] of eventWords) {
    const without = rest.replaceAll(
      new RegExp(`(?<![^\\s,;:(])${written}(?![^\\s,;:)])`, "g"),
      " ",
    );
    if (without !== rest) found.add(event);
    rest = without;
  }
  const others = rest.split(/[\s,;:()]+/).filter((word) => word !== "");
  const isUnderstood = others.every((word) => besides.has(word) || /^\d+$/.test(word));
  return found.size > 0 && isUnderstood ? [...found] : null;
}
