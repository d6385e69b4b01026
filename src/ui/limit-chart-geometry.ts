/** A letter of a zone's name is about this wide at the size it is drawn. */
const NAME_LETTER_PX = 13;

/** A point of a boundary: [speed rpm, volume mL]. */
export type ChartPoint = readonly [number, number];

export interface Boundaries {
  readonly failBelow: readonly ChartPoint[];
  readonly passAbove: readonly ChartPoint[];
  readonly failAbove: readonly ChartPoint[] | null;
}

/** A run on the chart. Half-widths are the length of the uncertainty bars to each side; 0 draws none. */
export interface MeasuredPoint {
  readonly speedRpm: number;
  readonly volumeMl: number;
  readonly speedHalfWidthRpm: number;
  readonly volumeHalfWidthMl: number;
  readonly label: string;
}

export interface Frame {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** What the axes cover, and where on the drawing that lies. */
export interface ChartScale extends Frame {
  readonly minRpm: number;
  readonly maxRpm: number;
  readonly maxMl: number;
  readonly x: (rpm: number) => number;
  readonly y: (ml: number) => number;
}

export interface Zone {
  readonly name: 'pass' | 'marginal' | 'fail low' | 'fail high';
  readonly lower: readonly ChartPoint[];
  readonly upper: readonly ChartPoint[];
}

/** Round axis values: about `count` of them, at 1, 2 or 5 times a power of ten. */
export function niceTicks(min: number, max: number, count: number): readonly number[] {
  const rough = (max - min) / Math.max(1, count);
  if (!(rough > 0)) return [];
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((factor) => factor * power).find((size) => size >= rough) ?? 10 * power;
  const from = Math.ceil(min / step - 1e-9);
  const length = Math.max(0, Math.floor(max / step + 1e-9) - from + 1);
  return Array.from({ length }, (_, index) => Number(((from + index) * step).toPrecision(12)));
}

/** Volume of a polyline at a speed inside it, straight between points. Outside it: the end's volume. */
export function volumeAt(curve: readonly ChartPoint[], speedRpm: number): number {
  const after = curve.findIndex(([rpm]) => rpm >= speedRpm);
  const next = curve[after === -1 ? curve.length - 1 : after];
  const before = curve[after === -1 ? curve.length - 1 : Math.max(0, after - 1)];
  if (!next || !before) return NaN;
  const run = next[0] - before[0];
  return run === 0 ? next[1] : before[1] + ((speedRpm - before[0]) / run) * (next[1] - before[1]);
}

/** The speeds that every boundary covers: outside them the chart gives no verdict. */
export function coveredSpeeds({ failBelow, passAbove, failAbove }: Boundaries): { from: number; to: number } {
  const curves = failAbove ? [failBelow, passAbove, failAbove] : [failBelow, passAbove];
  return {
    from: Math.max(...curves.map((curve) => curve[0]?.[0] ?? NaN)),
    to: Math.min(...curves.map((curve) => curve.at(-1)?.[0] ?? NaN)),
  };
}

/** A boundary cut to the covered speeds, its ends interpolated. */
export function cutTo(curve: readonly ChartPoint[], from: number, to: number): readonly ChartPoint[] {
  const inside = curve.filter(([rpm]) => rpm > from && rpm < to);
  return [[from, volumeAt(curve, from)], ...inside, [to, volumeAt(curve, to)]];
}

/** The zones from the bottom up; the topmost ends at the top of the chart. */
export function zonesOf(boundaries: Boundaries, maxMl: number): readonly Zone[] {
  const { from, to } = coveredSpeeds(boundaries);
  const flat = (ml: number): readonly ChartPoint[] => [
    [from, ml],
    [to, ml],
  ];
  const fail = cutTo(boundaries.failBelow, from, to);
  const pass = cutTo(boundaries.passAbove, from, to);
  const over = boundaries.failAbove && cutTo(boundaries.failAbove, from, to);
  return [
    { name: 'fail low', lower: flat(0), upper: fail },
    { name: 'marginal', lower: fail, upper: pass },
    { name: 'pass', lower: pass, upper: over ?? flat(maxMl) },
    ...(over ? [{ name: 'fail high' as const, lower: over, upper: flat(maxMl) }] : []),
  ];
}

const reach = (points: readonly MeasuredPoint[]) => ({
  slow: Math.min(...points.map((point) => point.speedRpm - point.speedHalfWidthRpm)),
  fast: Math.max(...points.map((point) => point.speedRpm + point.speedHalfWidthRpm)),
  high: Math.max(...points.map((point) => point.volumeMl + point.volumeHalfWidthMl)),
});

/** Axes that show the whole chart with a strip of "no limits" at each side, and every point even if it lies outside. */
export function chartScale(
  boundaries: Boundaries,
  points: readonly MeasuredPoint[],
  frame: Frame,
): ChartScale {
  const { from, to } = coveredSpeeds(boundaries);
  const strip = (to - from) * 0.1;
  const { slow, fast, high } = reach(points);
  const curves = [...boundaries.failBelow, ...boundaries.passAbove, ...(boundaries.failAbove ?? [])];
  const maxMl = Math.max(...curves.map(([, ml]) => ml), high) * 1.15;
  const minRpm = Math.max(0, Math.min(from - strip, slow - strip / 2));
  const maxRpm = Math.max(to + strip, fast + strip / 2);
  return {
    ...frame,
    minRpm,
    maxRpm,
    maxMl,
    x: (rpm) => frame.left + ((rpm - minRpm) / (maxRpm - minRpm)) * (frame.right - frame.left),
    y: (ml) => frame.bottom - (Math.max(0, ml) / maxMl) * (frame.bottom - frame.top),
  };
}

/**
 * Where a zone's name stands: the middle of its thickest place among the covered speeds, away from the measured point.
 * The name never reaches over the ends of the zone. @param avoidRpm the point's speed, or null
 */
export function labelPlace(zone: Zone, scale: ChartScale, avoidRpm: number | null): ChartPoint {
  const { lower, upper, name } = zone;
  const perRpm = (scale.right - scale.left) / (scale.maxRpm - scale.minRpm);
  const halfNameRpm = (name.length * NAME_LETTER_PX) / 2 / perRpm;
  const from = (lower[0]?.[0] ?? 0) + halfNameRpm;
  const to = Math.max(from, (lower.at(-1)?.[0] ?? 0) - halfNameRpm);
  const places = [0.1, 0.25, 0.5, 0.75, 0.9].map((part) => from + part * (to - from));
  const worth = (rpm: number) => {
    const thick = scale.y(volumeAt(lower, rpm)) - scale.y(volumeAt(upper, rpm));
    const clash = avoidRpm !== null && Math.abs(scale.x(rpm) - scale.x(avoidRpm)) < 90;
    return thick - (clash ? 500 : 0);
  };
  const best = places.reduce((left, right) => (worth(right) > worth(left) ? right : left));
  return [best, (volumeAt(lower, best) + volumeAt(upper, best)) / 2];
}
