import { describe, expect, test } from 'vitest';
import { viewRun } from '../../src/app/run-view.ts';
import { IDLE_SESSION, nextState, type SessionState } from '../../src/app/session.ts';
import { DEFAULT_CRANK_SETTINGS } from '../../src/crank/crank.ts';
import type { RunEntry } from '../../src/jobs/run-entry.ts';
import type { StoredRun } from '../../src/jobs/run.ts';
import type { LinkChange } from '../../src/link/link-state.ts';
import { startPipeline } from '../../src/pipeline/pipeline.ts';
import { problem } from '../../src/problems/problem.ts';
import { CRANK_DELIVERY, starterRules } from '../../src/app/guide-of.ts';
import { NOW_ISO, open, run, speed, speeds, TWO_CRANKS } from './services.ts';

const options = { wire: 'readings', crankSettings: DEFAULT_CRANK_SETTINGS, givenIntervalMs: null } as const;
const OPENING: SessionState = nextState(
  { ...IDLE_SESSION, runId: 'run-1', pipeline: startPipeline(options) },
  { kind: 'opening' },
  0,
);
const after = (changes: readonly LinkChange[], from = OPENING): SessionState =>
  changes.reduce((state, change) => nextState(state, change, 0), from);

const CAUTIONS = CRANK_DELIVERY.cautions.map(({ id }): RunEntry => ({
  kind: 'caution-ticked',
  atIso: NOW_ISO,
  reason: '',
  caution: id,
}));
const VOLUME: RunEntry = { kind: 'volume', atIso: NOW_ISO, reason: '', readingsMl: [300], typed: '300' };
const withEntries = (stored: StoredRun, ...entries: RunEntry[]): StoredRun => ({ ...stored, entries });
const view = (
  stored: StoredRun,
  session: SessionState = IDLE_SESSION,
  nowMs = 80_000,
  doneCranking = false,
) => viewRun({ run: stored, session, nowMs, doneCranking });

describe.each(['bench', 'web-serial'] as const)('a run from %s', (adapter) => {
  const bare = run({ adapter });
  const ready = withEntries(bare, ...CAUTIONS);

  test('begins with its cautions, and stays there while one is missing', () => {
    expect(view(bare).stage).toBe('prepare');
    expect(view(withEntries(bare, ...CAUTIONS.slice(1)), after([open()])).stage).toBe('prepare');
  });

  test('then asks to connect, also while the source opens or was refused', () => {
    expect(view(ready).stage).toBe('connect');
    expect(view(ready, OPENING).stage).toBe('connect');
    const refused = after([{ kind: 'error', problem: problem('link.refused') }]);
    expect(view(ready, refused).stage).toBe('connect');
  });

  test('then cranks, as soon as the source is open', () => {
    expect(view(ready, after([open()])).stage).toBe('crank');
    expect(view(ready, after([open(), ...speeds(30, [[2, 17]])]), 30_000).stage).toBe('crank');
  });

  test('then asks to read the vessel: at the target, when the person is done, and when the source is over', () => {
    expect(view(ready, after(TWO_CRANKS)).stage).toBe('read');
    expect(view(ready, after([open(), speed(0, 0)]), 0, true).stage).toBe('read');
    expect(view(ready, after([open(), { kind: 'ended' }])).stage).toBe('read');
    const lost: LinkChange = { kind: 'error', problem: problem('link.lost', { device: 'x', detail: 'y' }) };
    expect(view(ready, after([open(), lost])).stage).toBe('read');
  });

  test('ends with a verdict once a volume is typed', () => {
    const typed = view(withEntries(ready, VOLUME), after([...TWO_CRANKS, { kind: 'ended' }]));
    expect(typed.stage).toBe('verdict');
  });
});

describe('a run from a log', () => {
  test('needs no cautions: what was cranked is past', () => {
    expect(view(run()).stage).toBe('connect');
    expect(view(run(), after([...TWO_CRANKS, { kind: 'ended' }])).stage).toBe('read');
    expect(view(withEntries(run(), VOLUME), after([...TWO_CRANKS, { kind: 'ended' }])).stage).toBe('verdict');
  });
});

test("another run's source is not shown as this one's", () => {
  const foreign = view(run({}, 'run-2'), after(TWO_CRANKS));
  expect(foreign).toMatchObject({ link: 'none', pipeline: null, stage: 'connect' });
  expect(foreign.table.cranks).toEqual([]);
});

test('a sheet without a limit for the check gives its problem instead of a verdict', () => {
  const stored = { ...run(), sheet: { ...run().sheet!, limits: [] } };
  const shown = view(withEntries(stored, VOLUME), after([...TWO_CRANKS, { kind: 'ended' }]));
  expect(shown.judged).toMatchObject({ ok: false, problem: { code: 'limit.check-not-in-sheet' } });
  expect(shown.stage).toBe('read');
});

test('a crank that is left out does not count towards the target', () => {
  const leftOut: RunEntry = {
    kind: 'crank-left-out',
    atIso: NOW_ISO,
    crank: 0,
    leftOut: true,
    reason: 'slipped',
  };
  const all = view(run(), after(TWO_CRANKS));
  const fewer = view(withEntries(run(), leftOut), after(TWO_CRANKS));
  expect(all.clock.totalSeconds).toBeGreaterThan(29);
  expect(fewer.clock.totalSeconds).toBeCloseTo(all.clock.totalSeconds / 2, 0);
  expect(fewer.clock.state).toBe('resting');
});

test('a crank that is left out is one of the origin it was seen on, and counts where another origin is chosen', () => {
  const spans = [
    [2, 17],
    [60, 75],
  ] as const;
  const both = after([open(), ...speeds(80, spans, 0), ...speeds(80, spans, 3)]);
  const leftOut: RunEntry = {
    kind: 'crank-left-out',
    atIso: NOW_ISO,
    crank: 0,
    origin: 0,
    leftOut: true,
    reason: 'slipped',
  };
  const chosen: RunEntry = {
    kind: 'origin-chosen',
    atIso: NOW_ISO,
    signal: 'engineSpeed',
    origin: 3,
    reason: '',
  };
  expect([...view(withEntries(run(), leftOut), both).values.leftOut.keys()]).toEqual([0]);
  const other = view(withEntries(run(), leftOut, chosen), both);
  expect(other.table.origin).toBe(3);
  expect([...other.values.leftOut.keys()]).toEqual([]);
});

test('a sheet taken in the run is the one that the clock and the verdict follow', () => {
  const limits = run().sheet!.limits.map((limit) =>
    limit.kind === 'speed chart' ? { ...limit, cranks: 1, crankSeconds: 30 } : limit,
  );
  const sheet = { ...run().sheet!, id: 'other', limits };
  const taken: RunEntry = { kind: 'sheet', atIso: NOW_ISO, sheet, reason: 'for this serial number' };
  const before = view(run(), after(TWO_CRANKS));
  const shown = view(withEntries(run(), taken), after(TWO_CRANKS));
  expect([before.sheet?.id, shown.sheet?.id]).toEqual([run().sheet?.id, 'other']);
  expect(shown.judged.ok && shown.judged.value.chart.crankSeconds).toBe(30);
  expect([before.clock.cranks, shown.clock.cranks]).toEqual([2, 1]);
});

describe('a bridge that falls silent in a crank', () => {
  // measurement.md 1: a signal is stale after three usual intervals, at least 1 s; 4: only detected cranking counts.
  const LAST_MS = 6000;
  const STALE_MS = 1000;
  const session = after([open(), ...speeds(6, [[2, 99]])]);
  const at = (nowMs: number) =>
    view(withEntries(run({ adapter: 'web-serial' }), ...CAUTIONS), session, nowMs);

  test('the clock runs with the time while speed is fresh', () => {
    expect(at(LAST_MS + 800).countedUntilMs).toBe(LAST_MS + 800);
    expect(at(LAST_MS + 800).clock.thisCrankSeconds - at(LAST_MS).clock.thisCrankSeconds).toBeCloseTo(0.8, 6);
  });

  test('and stops where speed becomes stale, however long the silence lasts', () => {
    const stopped = at(LAST_MS + STALE_MS).clock.thisCrankSeconds;
    expect(at(LAST_MS + 3_600_000).clock.thisCrankSeconds).toBe(stopped);
    expect(at(LAST_MS + 3_600_000)).toMatchObject({ stage: 'crank', countedUntilMs: LAST_MS + STALE_MS });
    expect(at(LAST_MS + 3_600_000).clock.warn).toBeNull();
  });

  test('when it speaks again, the crank has ended at its last sample, as data lost', () => {
    const again = after(
      [speed(60_000, 160), speed(60_100, 160), speed(60_200, 160), speed(60_300, 160)],
      session,
    );
    const shown = view(withEntries(run({ adapter: 'web-serial' }), ...CAUTIONS), again, 60_300);
    expect(shown.table.cranks[0]?.crank).toMatchObject({ endedBy: 'data lost', end: { atMs: LAST_MS } });
  });

  test('the rest between cranks goes on counting in silence: it is wall time', () => {
    const rested = after([open(), ...speeds(20, [[2, 17]])]);
    const shown = view(withEntries(run({ adapter: 'bench' }), ...CAUTIONS), rested, 47_000);
    expect(shown.clock.state).toBe('resting');
    const whole = starterRules(CRANK_DELIVERY).leastRestSeconds;
    expect(shown.clock.restLeftSeconds).toBeCloseTo(whole - 30, 0);
  });
});
