import { SECONDS_KEPT, type BusTally } from './bus-tally.ts';

/** How much one address sends. */
export interface AddressHealth {
  /** channel * 256 + source address, as in readings. */
  readonly origin: number;
  /** Since the source was opened. */
  readonly frames: number;
  /** Null in a log without time. */
  readonly framesPerSecond: number | null;
  readonly lastAtMs: number | null;
}

export interface BusHealth {
  /** Over the last ten seconds, or since the first frame where that is less; null in a log without time. */
  readonly framesPerSecond: number | null;
  /** Share of the bit rate that the frames took: without a stuff bit, and with as many as there can be. Null without bit rate or time. */
  readonly loadPercent: { readonly least: number; readonly most: number } | null;
  /** By origin, rising. */
  readonly addresses: readonly AddressHealth[];
  readonly lastAtMs: number | null;
}

/**
 * How the bus is doing at `nowMs`, on the frames' own clock (null: at the last frame). Rates are over the span of ten whole buckets at most and
 * one second at least, so the first second reads low rather than wild. A load above 100 % says that the bit rate given is wrong.
 */
export function busHealth(tally: BusTally, nowMs: number | null, bitRate: number | null): BusHealth {
  const { lastAtMs, firstAtMs } = tally;
  if (lastAtMs === null || firstAtMs === null)
    return { framesPerSecond: null, loadPercent: null, addresses: addressesOf(tally, [], null), lastAtMs };
  const now = Math.max(nowMs ?? lastAtMs, lastAtMs);
  const newest = Math.floor(now / 1000);
  const seconds = tally.seconds.filter(({ second }) => second > newest - SECONDS_KEPT);
  const fromMs = Math.max(firstAtMs, (newest - SECONDS_KEPT + 1) * 1000);
  const span = Math.max((now - fromMs) / 1000, 1);
  const rate = (pick: (second: BusTally['seconds'][number]) => number) =>
    seconds.reduce((sum, second) => sum + pick(second), 0) / span;
  return {
    framesPerSecond: rate(({ frames }) => frames),
    loadPercent:
      bitRate !== null && bitRate > 0
        ? {
            least: (100 * rate((each) => each.leastBits)) / bitRate,
            most: (100 * rate((each) => each.mostBits)) / bitRate,
          }
        : null,
    addresses: addressesOf(tally, seconds, span),
    lastAtMs,
  };
}

function addressesOf(tally: BusTally, seconds: BusTally['seconds'], span: number | null): AddressHealth[] {
  const addresses: AddressHealth[] = [];
  for (const [channel, { frames, lastAtMs }] of [...tally.channels].sort(([a], [b]) => a - b))
    frames.forEach((count, address) => {
      if (count === 0) return;
      const recent = seconds.reduce((sum, each) => sum + (each.byAddress.get(channel)?.[address] ?? 0), 0);
      addresses.push({
        origin: channel * 256 + address,
        frames: count,
        framesPerSecond: span === null ? null : recent / span,
        lastAtMs: Number.isNaN(lastAtMs[address]) ? null : lastAtMs[address]!,
      });
    });
  return addresses;
}
