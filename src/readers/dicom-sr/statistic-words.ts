/** Maximum, minimum and mean: the codes of their concepts, and the words that call a number so. */
const statistics = {
  "SCT:56851009": {
    words: "maximum",
    pattern: /(?<!\p{L})(?:d?max|m[aá](?:x|ss)im(?!ally)\p{L}{1,4})(?!\p{L})/u,
  },
  "SCT:255605001": {
    words: "minimum",
    pattern: /(?<!\p{L}|\d ?)(?:d?min|m[ií]nim(?!ally)\p{L}{1,4})(?!\p{L})/u,
  },
  "SCT:373098007": { words: "mean", pattern: /(?<!\p{L})(?:d?mean|average|avg)(?!\p{L})/u },
};
type StatisticCode = keyof typeof statistics;
const statisticCodes = Object.keys(statistics) as StatisticCode[];

/** Whether the code, as a key of `codeKey`, is maximum, minimum or mean. */
export const isStatisticCode = (key: string): key is StatisticCode =>
  Object.hasOwn(statistics, key);

/** The word for the code, as sheets write it. */
export const statisticWord = (code: StatisticCode): string => statistics[code].words;

/**
 * The only statistic that free text names, in spellings of Latin origin ("D_max", "minimaler"); null where it names
 * none or several. A number before "min" makes it minutes.
 */
export function statisticIn(text: string): StatisticCode | null {
  const words = text.normalize("NFC").toLowerCase();
  const named = statisticCodes.filter((code) => statistics[code].pattern.test(words));
  return named.length === 1 ? (named[0] ?? null) : null;
}
