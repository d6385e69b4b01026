import { map } from 'rxjs';
import { TestScheduler } from 'rxjs/testing';
import { describe, expect, test } from 'vitest';
import type { LinkEvent } from '../../src/link/link-event.ts';
import { problem } from '../../src/problems/problem.ts';
import { millis } from '../../src/quantities/time.ts';
import { decodeFrames } from '../../src/wire/decode-frames.ts';
import { slcanDecoder } from '../../src/wire/slcan.ts';
import { ascii } from './decode-all.ts';

const bytes = (text: string): LinkEvent => ({ kind: 'bytes', atMs: millis(5), bytes: ascii(text) });
const EVENTS: Record<string, LinkEvent> = {
  o: { kind: 'open', atMs: millis(0), device: 'bridge', write: null },
  g: { kind: 'gap', atMs: millis(5), problem: problem('link.lost', { device: 'bridge' }) },
  a: bytes('t12'),
  b: bytes('30\rt1240\r'),
};
const marbles = (check: (helpers: Parameters<Parameters<TestScheduler['run']>[0]>[0]) => void) =>
  new TestScheduler((actual, wanted) => expect(actual).toEqual(wanted)).run(check);
/** Frames decoded so far. */
const framesSoFar = () =>
  map((step: { state: ReturnType<typeof slcanDecoder.initial> }) => step.state.counts.frames);

describe('decodeFrames', () => {
  test.each([
    ['emits once a bytes event, state carried on, and completes', '-o-a-b-|', '---0-2-|', '^------!'],
    ['a gap is passed over', '-a-g-b|', '-0---2|', '^-----!'],
    ['an error of the source goes through', '-a-#', '-0-#', '^--!'],
    ['an empty source is empty', '|', '|', '(^!)'],
    ['a silent source is silent', '-', '-', '^'],
    ['a burst in one frame keeps its order', '-(ab)|', '-(02)|', '^----!'],
  ])('%s', (_what, input, output, subscription) => {
    marbles(({ cold, expectObservable, expectSubscriptions }) => {
      const source = cold(input, EVENTS);
      expectObservable(source.pipe(decodeFrames(slcanDecoder), framesSoFar())).toBe(output, { 0: 0, 2: 2 });
      expectSubscriptions(source.subscriptions).toBe(subscription);
    });
  });

  test('unsubscribing early frees the source, and a second subscriber begins afresh', () => {
    marbles(({ cold, expectObservable, expectSubscriptions }) => {
      const source = cold('-a-b-|', EVENTS);
      const frames$ = source.pipe(decodeFrames(slcanDecoder), framesSoFar());
      expectObservable(frames$, '^-!').toBe('-0', { 0: 0 });
      expectObservable(frames$, '--^').toBe('---0-2-|', { 0: 0, 2: 2 });
      expectSubscriptions(source.subscriptions).toBe(['^-!', '--^----!']);
    });
  });
});
