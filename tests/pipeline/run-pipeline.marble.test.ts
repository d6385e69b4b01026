import { map } from 'rxjs';
import { TestScheduler } from 'rxjs/testing';
import { describe, expect, it } from 'vitest';
import type { LinkEvent } from '../../src/link/link-event.ts';
import { runPipeline } from '../../src/pipeline/run-pipeline.ts';
import { problem } from '../../src/problems/problem.ts';
import { millis } from '../../src/quantities/time.ts';
import { traceOf } from '../../src/signals/trace-set.ts';
import { ascii, CANDUMP, eec1Line } from './fixtures/eec1-log.ts';

const line = ascii(eec1Line(0, 150));
const EVENTS: Record<string, LinkEvent> = {
  o: { kind: 'open', atMs: millis(5), device: 'bridge', write: null },
  a: { kind: 'bytes', atMs: millis(6), bytes: line.subarray(0, 20) },
  b: { kind: 'bytes', atMs: millis(7), bytes: line.subarray(20) },
  g: { kind: 'gap', atMs: millis(8), problem: problem('log.time-backwards', { line: 2 }) },
};
const marbles = (check: Parameters<TestScheduler['run']>[0]) =>
  new TestScheduler((actual, expected) => expect(actual).toEqual(expected)).run(check);

/** What the marbles look at: device, speed readings, gaps. */
const shown = () =>
  map((state: { device: string | null; traces: Parameters<typeof traceOf>[0]; gaps: readonly unknown[] }) =>
    [state.device ?? '-', traceOf(state.traces, 'engineSpeed', 0).length, state.gaps.length].join(' '),
  );

describe('runPipeline', () => {
  it('begins at once, gives one state an event, and completes with its source', () =>
    marbles(({ cold, expectObservable }) => {
      const states = { s: '- 0 0', o: 'bridge 0 0', a: 'bridge 0 0', b: 'bridge 1 0', g: 'bridge 1 1' };
      const source = cold('  -o-a-b-g|', EVENTS);
      expectObservable(source.pipe(runPipeline(CANDUMP), shown())).toBe('so-a-b-g|', states);
    }));

  it('passes on the failure of its source, unchanged', () =>
    marbles(({ cold, expectObservable }) => {
      const lost = problem('link.refused');
      const source = cold<LinkEvent>('-o#', EVENTS, lost);
      expectObservable(source.pipe(runPipeline(CANDUMP), shown())).toBe(
        'so#',
        { s: '- 0 0', o: 'bridge 0 0' },
        lost,
      );
    }));

  it('subscribes once, and lets go when it is let go', () =>
    marbles(({ cold, expectObservable, expectSubscriptions }) => {
      const source = cold('-o-a-b-g|', EVENTS);
      expectObservable(source.pipe(runPipeline(CANDUMP), shown()), '^---!').toBe('so-a', {
        s: '- 0 0',
        o: 'bridge 0 0',
        a: 'bridge 0 0',
      });
      expectSubscriptions(source.subscriptions).toBe('^---!');
    }));

  it('starts afresh for every subscriber', () =>
    marbles(({ cold, expectObservable }) => {
      const states$ = cold('-ab|', EVENTS).pipe(runPipeline(CANDUMP), shown());
      const states = { s: '- 0 0', a: '- 0 0', b: '- 1 0' };
      expectObservable(states$).toBe('sab|', states);
      expectObservable(states$, '--^').toBe('--sab|', states);
    }));
});
