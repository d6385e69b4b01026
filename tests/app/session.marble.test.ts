import { NEVER, Observable, of, Subject, tap } from 'rxjs';
import { TestScheduler } from 'rxjs/testing';
import { describe, expect, onTestFinished, test } from 'vitest';
import {
  IDLE_SESSION,
  nextState,
  Session,
  sourceNowMs,
  type Listening,
  type SessionState,
} from '../../src/app/session.ts';
import { DEFAULT_CRANK_SETTINGS } from '../../src/crank/crank.ts';
import type { LinkEvent } from '../../src/link/link-event.ts';
import { problem } from '../../src/problems/problem.ts';
import { open, speed, speeds } from './services.ts';

const options = { wire: 'readings', crankSettings: DEFAULT_CRANK_SETTINGS, givenIntervalMs: null } as const;

const listening = (event$: Observable<LinkEvent>, part: Partial<Listening> = {}): Listening => ({
  runId: 'run-1',
  event$,
  options,
  rate: () => 1,
  keep: null,
  ...part,
});

function watched(session: Session): SessionState[] {
  const states: SessionState[] = [];
  const watching = session.state$.subscribe((state) => states.push(state));
  onTestFinished(() => watching.unsubscribe());
  return states;
}

const kinds = (states: readonly SessionState[]) =>
  states.map(({ runId, link }) => `${runId ?? '-'} ${link.kind}`);

describe('the session', () => {
  test('opens the source when it is asked to listen, not before, and tells each step', () => {
    new TestScheduler((actual, expected) => expect(actual).toEqual(expected)).run(
      ({ hot, expectSubscriptions, flush }) => {
        const session = new Session(() => 0);
        const states = watched(session);
        const source = hot('--o-r-|', { o: open(), r: speed(5, 160) });
        session.listen(listening(source));
        expectSubscriptions(source.subscriptions).toBe('^-----!');
        flush();
        expect(kinds(states)).toEqual([
          '- none',
          'run-1 opening',
          'run-1 waiting',
          'run-1 live',
          'run-1 ended',
        ]);
      },
    );
  });

  test('closes the source before when it is asked to listen to another', () => {
    const order: string[] = [];
    const source = (name: string) =>
      new Observable<LinkEvent>(() => {
        order.push(`open ${name}`);
        return () => order.push(`free ${name}`);
      });
    const session = new Session(() => 0);
    const states = watched(session);
    session.listen(listening(source('a')));
    session.listen(listening(source('b'), { runId: 'run-2' }));
    session.close();
    expect(order).toEqual(['open a', 'free a', 'open b', 'free b']);
    expect(kinds(states)).toEqual(['- none', 'run-1 opening', 'run-2 opening', '- none']);
  });

  test('end frees the source and keeps what was heard; a crank under way is finished by it', () => {
    const source = new Subject<LinkEvent>();
    const session = new Session(() => 0);
    const states = watched(session);
    session.listen(listening(source));
    [open(), ...speeds(5, [[2, 99]])].forEach((event) => source.next(event));
    session.end();
    expect(source.observed).toBe(false);
    expect(states.at(-1)).toMatchObject({ runId: 'run-1', link: { kind: 'ended', readings: 51 } });
    expect(states.at(-1)?.pipeline?.atMs).toBe(5000);
  });

  test('stop frees the source and forgets what was heard', () => {
    const source = new Subject<LinkEvent>();
    const session = new Session(() => 0);
    const states = watched(session);
    session.listen(listening(source));
    source.next(open());
    session.stop();
    expect(source.observed).toBe(false);
    expect(states.at(-1)).toEqual(IDLE_SESSION);
  });

  test('end without a source does nothing', () => {
    const session = new Session(() => 0);
    const states = watched(session);
    session.end();
    expect(kinds(states)).toEqual(['- none']);
  });

  test('a source that fails is lost, with its problem; anything else that is thrown becomes one', () => {
    const own = problem('link.lost', { device: 'bridge', detail: 'unplugged' });
    for (const [thrown, expected] of [
      [own, own],
      [new Error('boom'), problem('link.lost', { device: 'the source', detail: 'Error: boom' })],
      [null, problem('link.lost', { device: 'the source', detail: 'null' })],
    ] as const) {
      const session = new Session(() => 0);
      const states = watched(session);
      const source = new Subject<LinkEvent>();
      session.listen(listening(source));
      source.next(open());
      source.next(speed(10, 160));
      source.error(thrown);
      expect(states.at(-1)?.link).toMatchObject({ kind: 'lost', problem: expected });
      expect(states.at(-1)?.pipeline?.firstMs).toBe(10);
      session.listen(listening(of(open())));
      expect(kinds(states).at(-1)).toBe('run-1 ended');
    }
  });

  test('late viewers get the last state at once, and the source is opened only once for all of them', () => {
    let opened = 0;
    const session = new Session(() => 0);
    const source = new Observable<LinkEvent>((to) => {
      opened += 1;
      to.next(open());
    });
    session.listen(listening(source));
    expect(kinds(watched(session))).toEqual(['run-1 waiting']);
    expect(kinds(watched(session))).toEqual(['run-1 waiting']);
    expect(opened).toBe(1);
  });

  test('the last viewer leaving does not close the source', () => {
    const source = new Subject<LinkEvent>();
    const session = new Session(() => 0);
    session.listen(listening(source));
    session.state$.subscribe().unsubscribe();
    expect(source.observed).toBe(true);
  });

  test('closing the page frees the source', () => {
    const source = new Subject<LinkEvent>();
    const session = new Session(() => 0);
    session.listen(listening(source));
    session.close();
    expect(source.observed).toBe(false);
  });

  test('what passes is handed to the keeper once, and the keeper hears that the source was let go', () => {
    const kept: string[] = [];
    const session = new Session(() => 0);
    const source = new Subject<LinkEvent>();
    watched(session);
    session.listen(
      listening(source, {
        keep: tap({ next: ({ kind }) => kept.push(kind), finalize: () => kept.push('let go') }),
      }),
    );
    source.next(open());
    source.next(speed(1, 2));
    session.stop();
    expect(kept).toEqual(['open', 'reading', 'let go']);
  });
});

describe("the source's clock", () => {
  test.each([
    [1, 500, 4500],
    [4, 500, 6000],
    [0.25, 400, 4100],
    [1, -500, 4000],
  ])('at rate %s, %s ms of wall time after the last event, it shows %s ms', (rate, goneMs, expected) => {
    const session = new Session(() => 50_000);
    const states = watched(session);
    session.listen(
      listening(new Observable((to) => [open(0), speed(4000, 160)].forEach((e) => to.next(e))), {
        rate: () => rate,
      }),
    );
    expect(sourceNowMs(states.at(-1)!, 50_000 + goneMs)).toBe(expected);
    session.close();
  });

  test('stands still once the source is over, and is 0 before anything came', () => {
    const session = new Session(() => 50_000);
    const states = watched(session);
    session.listen(listening(of(open(0), speed(4000, 160))));
    expect(sourceNowMs(states.at(-1)!, 90_000)).toBe(4000);
    session.listen(listening(NEVER));
    expect(sourceNowMs(states.at(-1)!, 90_000)).toBe(0);
    expect(sourceNowMs(IDLE_SESSION, 90_000)).toBe(0);
  });

  test('takes the wall time of each event', () => {
    expect(nextState(IDLE_SESSION, open(1000), 50_000).heardAtWallMs).toBe(50_000);
  });
});
