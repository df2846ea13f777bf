import pLimit from "p-limit";

/** Runs the task over all items, at most `limit` at once; results in the order of the items. A task must not throw. */
export async function mapWithLimit<T, R>(
  items: readonly T[],
  limit: number,
  task: (item: T, index: number) => Promise<R>,
): Promise<R[]> {
  const run = pLimit(limit);
  return Promise.all(items.map((item, index) => run(() => task(item, index))));
}
