/** Who prints a limit or a date. `confirmed` is false where the value is recalled; null where the plan does not say. */
export interface PrintedSource {
  body: string;
  year: number;
  confirmed: boolean | null;
}

/** Stands behind a source whose value is recalled, where no legend explains a shorter mark. */
export const notConfirmedTag = " [not confirmed]";

/**
 * "ACC/AHA 2022 [not confirmed], ESC 2024": each source once, in the order given. One that prints several values is marked
 * where any of them is not confirmed.
 */
export function sourcesWords(sources: readonly PrintedSource[]): string {
  const byName = Map.groupBy(sources, ({ body, year }) => `${body} ${year}`);
  const words = [...byName].map(([name, here]) => {
    const isMarked = here.some(({ confirmed }) => confirmed === false);
    return isMarked ? `${name}${notConfirmedTag}` : name;
  });
  return words.join(", ");
}
