import type { CrankRow } from '../../src/ui/crank-table.ts';
import { WAITING_CLOCK, type ClockView } from '../../src/ui/crank-clock-words.ts';
import type { Boundaries, MeasuredPoint } from '../../src/ui/limit-chart-geometry.ts';
import type { StripCrank, StripSeries } from '../../src/ui/strip-chart-summary.ts';
import type { VerdictView } from '../../src/ui/verdict-panel.ts';

/** Invented data for looking at and testing the elements. No number here is a limit of any engine. */
export const SERIES: readonly StripSeries[] = [
  { kind: 'speed', label: 'Engine speed', unit: 'rpm', digits: 1 },
  { kind: 'rail', label: 'Rail pressure', unit: 'MPa', digits: 1 },
  { kind: 'supply', label: 'Supply pressure', unit: 'kPa', digits: 0 },
];

/** Two cranks of 15 s with a rest between, `perSecond` rows a second over 50 s, a hole of nulls in the second. */
export function stripColumns(perSecond = 20, seconds = 50): (number | null)[][] {
  const rows = perSecond * seconds;
  const times = Array.from({ length: rows }, (_, index) => index / perSecond);
  const turning = (at: number) => (at > 4 && at < 19) || (at > 30 && at < 45);
  const speed = times.map((at) =>
    at > 36 && at < 36.8 ? null : turning(at) ? 152 + 9 * Math.sin(at * 9) : 0,
  );
  const rail = times.map((at) => (turning(at) ? 32 + 1.5 * Math.sin(at * 5) : 1));
  const supply = times.map((at) => (turning(at) ? 410 + 25 * Math.sin(at * 3) : 20));
  return [times, speed, rail, supply];
}

export const STRIP_CRANKS: readonly StripCrank[] = [
  { startSeconds: 4, endSeconds: 19, label: 'Crank 1', counts: true, meanRpm: 152.3 },
  { startSeconds: 30, endSeconds: 45, label: 'Crank 2', counts: false, meanRpm: 151.8 },
];

export const BOUNDARIES: Boundaries = {
  failBelow: [
    [100, 180],
    [150, 290],
    [220, 430],
  ],
  passAbove: [
    [100, 235],
    [150, 350],
    [220, 505],
  ],
  failAbove: null,
};

export const POINT: MeasuredPoint = {
  speedRpm: 152.1,
  volumeMl: 318,
  speedHalfWidthRpm: 2.6,
  volumeHalfWidthMl: 11,
  label: 'run 3',
};

export const EARLIER: readonly MeasuredPoint[] = [
  { speedRpm: 139, volumeMl: 301, speedHalfWidthRpm: 3, volumeHalfWidthMl: 11, label: 'run 1' },
  { speedRpm: 171, volumeMl: 372, speedHalfWidthRpm: 3, volumeHalfWidthMl: 11, label: 'run 2' },
];

export const ROWS: readonly CrankRow[] = [
  {
    number: 1,
    startSeconds: 4.02,
    durationSeconds: 14.97,
    meanRpm: 152.34,
    samples: 299,
    coverage: 1,
    endedBy: 'released',
    counts: true,
  },
  {
    number: 2,
    startSeconds: 30.01,
    durationSeconds: 15.04,
    meanRpm: 151.8,
    samples: 284,
    coverage: 0.947,
    endedBy: 'data lost',
    counts: false,
    note: 'Left out: the data was lost before the starter was released.',
  },
];

export const clock = (change: Partial<ClockView>): ClockView => ({
  ...WAITING_CLOCK,
  cranks: 2,
  totalTarget: 30,
  restSeconds: 60,
  ...change,
});

export const verdict = (change: Partial<VerdictView>): VerdictView => ({
  word: 'pass',
  leaning: 'pass',
  confidence: 0.9912,
  nearest: { name: 'passAbove', atValue: 350, distance: 28, distancePercent: 8 },
  reasons: [],
  warnings: [],
  ...change,
});
