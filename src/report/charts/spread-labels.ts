/** A label on a vertical line: where its middle should be, and how high it is. */
export interface SpreadItem {
  wanted: number;
  height: number;
}

interface Cluster {
  items: number;
  height: number;
  /** Sum over the items of the top that the cluster would need for the item to lie where wanted. */
  topSum: number;
}

const topOf = (cluster: Cluster, low: number, high: number): number => {
  const free = cluster.topSum / cluster.items;
  return Math.max(low, Math.min(free, high - cluster.height));
};

/**
 * Places labels between `low` and `high` so that none overlaps another, each as near to where it is wanted as the
 * others allow (least squares, by merging neighbours that collide). The order of the wanted places is kept.
 * Returns the middle of each label, in the order of the input. Labels that are higher together than the room overflow
 * at the end of it.
 */
export function spreadLabels(items: readonly SpreadItem[], low: number, high: number): number[] {
  const order = items.map((_, index) => index);
  order.sort((a, b) => (items[a]?.wanted ?? 0) - (items[b]?.wanted ?? 0) || a - b);
  const clusters: Cluster[] = [];
  for (const index of order) {
    const item = items[index];
    if (!item) continue;
    const single = { items: 1, height: item.height, topSum: item.wanted - item.height / 2 };
    let current: Cluster = single;
    for (let before = clusters.at(-1); before; before = clusters.at(-1)) {
      if (topOf(before, low, high) + before.height <= topOf(current, low, high)) break;
      clusters.pop();
      current = {
        items: before.items + current.items,
        height: before.height + current.height,
        topSum: before.topSum + current.topSum - current.items * before.height,
      };
    }
    clusters.push(current);
  }
  const middles: number[] = items.map(() => 0);
  let position = 0;
  for (const cluster of clusters) {
    let top = topOf(cluster, low, high);
    for (let member = 0; member < cluster.items; member++) {
      const index = order[position++] ?? 0;
      const height = items[index]?.height ?? 0;
      middles[index] = top + height / 2;
      top += height;
    }
  }
  return middles;
}

/** A rectangle, in points. */
export interface Box {
  left: number;
  top: number;
  right: number;
  bottom: number;
}

/** True where two rectangles share more than an edge. */
export function overlaps(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

/** Finds for each label the first of its places that touches nothing placed before it; null where none is free. */
export function placeLabels<Place extends Box>(
  candidates: readonly (readonly Place[])[],
  obstacles: readonly Box[],
): (Place | null)[] {
  const taken: Box[] = [...obstacles];
  return candidates.map((places) => {
    const free = places.find((place) => taken.every((box) => !overlaps(place, box)));
    if (free === undefined) return null;
    taken.push(free);
    return free;
  });
}
