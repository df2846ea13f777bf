/** Phrases such as "patency of the left renal artery" fall in two after one of these. */
const divider = /^(.*? (?:of the|in zone|from zone)) (.+)$/;

const artery = " artery";

/** "a, b, c"; where all are arteries that is said once, at the end. */
export function listAlike(names: readonly string[]): string {
  const unique = [...new Set(names)];
  const areArteries = unique.every((name) => name.endsWith(artery));
  return unique
    .map((name, index) =>
      areArteries && index < unique.length - 1 ? name.slice(0, -artery.length) : name,
    )
    .join(", ");
}

/**
 * Phrases that begin alike said once, in the order in which each beginning comes first:
 * "patency of the a", "area of the a", "patency of the b" as "patency of the a, b; area of the a".
 */
export function gatherBeginnings(phrases: readonly string[], between = "; "): string {
  const parted = phrases.map((phrase) => {
    const [, beginning = phrase, rest = ""] = divider.exec(phrase) ?? [];
    return { beginning, rest };
  });
  return [...Map.groupBy(parted, ({ beginning }) => beginning)]
    .map(([beginning, parts]) =>
      [beginning, listAlike(parts.map(({ rest }) => rest))].filter(Boolean).join(" "),
    )
    .join(between);
}
