import type { Level } from "./levels.ts";
import { statisticWord } from "./statistic-words.ts";

/**
 * Maximum, minimum or mean as far as the words around a number name it; null where they name none. Words at the
 * number speak of it. A tracking identifier speaks of a group: of its only number, and against the coded statistic
 * of a number where no number of the group bears the words out.
 */
export function statedStatistic(level: Level): string | null {
  if (level.statedStatistic) return statisticWord(level.statedStatistic);
  let group = level.outer;
  while (group && group.trackingIdentifier === null) group = group.outer;
  const stated = group?.statedStatistic;
  if (!group || !stated) return null;
  const { count, statistics } = group.numbers;
  if (count === 1) return group === level.outer ? statisticWord(stated) : null;
  const coded = level.ownStatistic ?? group.ownStatistic;
  const isBorneOut = coded === stated || statistics.has(stated);
  return coded !== null && !isBorneOut ? statisticWord(stated) : null;
}
