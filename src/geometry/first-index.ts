/** The first of the indices 0 to `count` - 1 at which it holds, for what holds from one on to the end; `count` where none. */
export function firstIndex(count: number, isReachedAt: (index: number) => boolean): number {
  let [low, high] = [0, count];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (isReachedAt(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}
