/** A limit with one or two ends, in the unit that is shown. */
export interface WindowLimit {
  readonly min: number | null;
  readonly max: number | null;
}

/** A value on the scale; `halfWidth` is the length of its uncertainty bar to each side, 0 draws none. */
export interface WindowMark {
  readonly value: number;
  readonly halfWidth: number;
  readonly label: string;
}

export interface WindowZone {
  readonly name: 'fail low' | 'pass' | 'fail high';
  readonly from: number;
  readonly to: number;
}

export interface WindowScale {
  readonly from: number;
  readonly to: number;
  readonly zones: readonly WindowZone[];
  /** Share of the way along the scale, 0 to 1; what lies outside stands at the end. */
  readonly at: (value: number) => number;
}

/**
 * The scale that shows the whole window and every mark: half a window to each side (with one end only: half of that end), wider where a mark
 * lies further out. It begins at 0 where nothing is negative. Marks that are not finite are left out. Null without any limit.
 */
export function windowScale({ min, max }: WindowLimit, marks: readonly WindowMark[]): WindowScale | null {
  const low = min ?? max;
  const high = max ?? min;
  if (low === null || high === null || !Number.isFinite(low) || !Number.isFinite(high) || high < low)
    return null;
  const room = (high > low ? high - low : Math.abs(low) || 1) / 2;
  const known = marks.filter(({ value, halfWidth }) => Number.isFinite(value) && Number.isFinite(halfWidth));
  const least = Math.min(low, ...known.map(({ value, halfWidth }) => value - halfWidth));
  const most = Math.max(high, ...known.map(({ value, halfWidth }) => value + halfWidth));
  const wanted = Math.min(low - room, least - room / 4);
  const from = least >= 0 ? Math.max(0, wanted) : wanted;
  const to = Math.max(high + room, most + room / 4);
  return {
    from,
    to,
    zones: zonesOf({ min, max }, from, to),
    at: (value) => Math.min(1, Math.max(0, (value - from) / (to - from))),
  };
}

function zonesOf({ min, max }: WindowLimit, from: number, to: number): readonly WindowZone[] {
  const zones: WindowZone[] = [
    { name: 'fail low', from, to: min ?? from },
    { name: 'pass', from: min ?? from, to: max ?? to },
    { name: 'fail high', from: max ?? to, to },
  ];
  return zones.filter((zone) => zone.to > zone.from);
}

/** Where a value stands, in words; on the limit itself is within it. */
export function windowWords(value: number, { min, max }: WindowLimit): WindowZone['name'] {
  if (min !== null && value < min) return 'fail low';
  return max !== null && value > max ? 'fail high' : 'pass';
}
