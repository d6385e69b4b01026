import type { MonitorRow, MonitorSource } from './raw-monitor-row.ts';

/** The last so many things received, each described only when it is looked at. */
export interface MonitorRing<Item> {
  push(item: Item): void;
  readonly source: MonitorSource;
}

/**
 * A ring for the monitor: `push` costs one slot and forgets the oldest item beyond `capacity` (a whole number from 1).
 * `describe` is called for visible rows and, under a filter, once for each row; it must not keep what it is given.
 */
export function monitorRing<Item>(capacity: number, describe: (item: Item) => MonitorRow): MonitorRing<Item> {
  const slots: Item[] = [];
  const counter = { pushed: 0 };
  return {
    push(item) {
      slots[counter.pushed % capacity] = item;
      counter.pushed += 1;
    },
    source: ringSource(slots, () => counter.pushed, { capacity, describe }),
  };
}

interface RingLook<Item> {
  readonly capacity: number;
  readonly describe: (item: Item) => MonitorRow;
}

function ringSource<Item>(slots: readonly Item[], count: () => number, look: RingLook<Item>): MonitorSource {
  return {
    count,
    first: () => Math.max(0, count() - look.capacity),
    row: (index) => look.describe(slots[index % look.capacity] as Item),
    freeze: () => {
      const kept = [...slots];
      const end = count();
      return ringSource(kept, () => end, look);
    },
  };
}
