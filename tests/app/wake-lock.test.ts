import { BehaviorSubject, NEVER, type Subscription } from 'rxjs';
import { TestScheduler } from 'rxjs/testing';
import { afterEach, describe, expect, test } from 'vitest';
import {
  followWakeLock,
  pageVisible$,
  type WakeLockHold,
  type WakeLockLike,
  type WakeLockState,
} from '../../src/app/wake-lock.ts';

/** A browser's wake lock: answers when told to, counts what is held, and can let go by itself. */
class FakeWakeLock implements WakeLockLike {
  readonly asked: { grant(): void; refuse(): void }[] = [];
  readonly locks: FakeHold[] = [];

  request(): Promise<WakeLockHold> {
    return new Promise((resolve, reject) => {
      this.asked.push({
        grant: () => {
          const lock = new FakeHold();
          this.locks.push(lock);
          resolve(lock);
        },
        refuse: () => reject(new DOMException('no', 'NotAllowedError')),
      });
    });
  }

  get held(): number {
    return this.locks.filter(({ released }) => !released).length;
  }

  get listeners(): number {
    return this.locks.reduce((sum, lock) => sum + lock.listeners.size, 0);
  }
}

class FakeHold implements WakeLockHold {
  released = false;
  readonly listeners = new Set<() => void>();

  async release(): Promise<void> {
    if (this.released) throw new DOMException('released already', 'InvalidStateError');
    this.byItself();
  }

  byItself(): void {
    this.released = true;
    for (const listener of this.listeners) listener();
  }

  addEventListener(_type: 'release', listener: () => void): void {
    this.listeners.add(listener);
  }

  removeEventListener(_type: 'release', listener: () => void): void {
    this.listeners.delete(listener);
  }
}

let following: Subscription | null = null;
afterEach(() => following?.unsubscribe());

/** Lets the promises that are settled go on. */
const settle = () => new Promise((resolve) => setImmediate(resolve));

function follow(wakeLock: WakeLockLike | undefined = new FakeWakeLock()) {
  const wanted = new BehaviorSubject(false);
  const visible = new BehaviorSubject(true);
  const states: WakeLockState[] = [];
  following = followWakeLock(wanted, wakeLock, visible).subscribe((state) => states.push(state));
  return { wakeLock: wakeLock as FakeWakeLock, wanted, visible, states };
}

async function held() {
  const means = follow();
  means.wanted.next(true);
  means.wakeLock.asked[0]!.grant();
  await settle();
  return means;
}

describe('the screen', () => {
  test('is left alone until it is wanted', () => {
    const { wakeLock, states } = follow();
    expect(wakeLock.asked).toHaveLength(0);
    expect(states).toEqual(['not held']);
  });

  test('is kept on while it is wanted and released after', async () => {
    const { wakeLock, wanted, states } = await held();
    expect(states).toEqual(['not held', 'held']);
    wanted.next(false);
    await settle();
    expect(states).toEqual(['not held', 'held', 'not held']);
    expect([wakeLock.held, wakeLock.listeners]).toEqual([0, 0]);
  });

  test('is asked for once, however often it is wanted again', async () => {
    const { wakeLock, wanted } = await held();
    wanted.next(true);
    wanted.next(true);
    expect(wakeLock.asked).toHaveLength(1);
  });

  test('is asked for again when the page comes back, since a hidden page loses it', async () => {
    const { wakeLock, visible, states } = await held();
    wakeLock.locks[0]!.byItself();
    visible.next(false);
    expect(states.at(-1)).toBe('not held');
    expect(wakeLock.asked).toHaveLength(1);
    visible.next(true);
    wakeLock.asked[1]!.grant();
    await settle();
    expect(states).toEqual(['not held', 'held', 'not held', 'held']);
    expect(wakeLock.held).toBe(1);
  });

  test('is not asked for by a page that nobody sees', () => {
    const { wakeLock, wanted, visible } = follow();
    visible.next(false);
    wanted.next(true);
    expect(wakeLock.asked).toHaveLength(0);
    visible.next(true);
    expect(wakeLock.asked).toHaveLength(1);
  });

  test('that the browser lets go by itself, as on a low battery, is said to be not held', async () => {
    const { wakeLock, states } = await held();
    wakeLock.locks[0]!.byItself();
    expect(states).toEqual(['not held', 'held', 'not held']);
  });

  test('is released even when the browser answers after it was no longer wanted', async () => {
    const { wakeLock, wanted, states } = follow();
    wanted.next(true);
    wanted.next(false);
    wakeLock.asked[0]!.grant();
    await settle();
    expect([wakeLock.held, wakeLock.listeners]).toEqual([0, 0]);
    expect(states).toEqual(['not held']);
  });

  test('is released when nobody follows any more, also where the answer is still to come', async () => {
    const { wakeLock } = await held();
    following?.unsubscribe();
    following?.unsubscribe();
    await settle();
    expect([wakeLock.held, wakeLock.listeners]).toEqual([0, 0]);
    const late = follow();
    late.wanted.next(true);
    following?.unsubscribe();
    late.wakeLock.asked[0]!.grant();
    await settle();
    expect(late.wakeLock.held).toBe(0);
  });
});

describe('a screen that cannot be kept on', () => {
  test('is no error, is said, and is tried again the next time', async () => {
    const { wakeLock, wanted, states } = follow();
    wanted.next(true);
    wakeLock.asked[0]!.refuse();
    await settle();
    expect(states).toEqual(['not held', 'not possible']);
    wanted.next(false);
    wanted.next(true);
    wakeLock.asked[1]!.grant();
    await settle();
    expect(states.slice(2)).toEqual(['not held', 'held']);
  });

  test('is said also where the browser throws instead of refusing', async () => {
    const { wanted, states } = follow({
      request: () => {
        throw new DOMException('policy', 'NotAllowedError');
      },
    });
    wanted.next(true);
    await settle();
    expect(states).toEqual(['not held', 'not possible']);
  });

  test('is said of a browser without the means, wanted or not', () => {
    const states: WakeLockState[] = [];
    const wanted = new BehaviorSubject(false);
    following = followWakeLock(wanted, undefined, new BehaviorSubject(true)).subscribe((state) =>
      states.push(state),
    );
    wanted.next(true);
    expect(states).toEqual(['not possible']);
  });
});

test('ends and fails with what it follows, and lets go of it', () => {
  const scheduler = new TestScheduler((actual, expected) => expect(actual).toEqual(expected));
  scheduler.run(({ cold, hot, expectObservable, expectSubscriptions }) => {
    const lock: WakeLockLike = { request: () => new Promise(() => undefined) };
    const values = { f: false, t: true };
    const state = { n: 'not held' as const };
    const wanted = cold('f-t-#', values);
    const visible = hot('t-----', values);
    expectObservable(followWakeLock(wanted, lock, visible)).toBe('n---#', state);
    expectSubscriptions(visible.subscriptions).toBe('^---!');
    const completing = cold('f-|', values);
    expectObservable(followWakeLock(completing, lock, NEVER)).toBe('---');
    expectObservable(followWakeLock(cold('f-t-|', values), lock, cold('t|', values)), '^-----!').toBe(
      'n',
      state,
    );
  });
});

test('a page says whether it is seen, at once and whenever that changes', () => {
  const page = Object.assign(new EventTarget(), { visibilityState: 'visible' });
  const seen: boolean[] = [];
  following = pageVisible$(page as unknown as Document).subscribe((visible) => seen.push(visible));
  page.visibilityState = 'hidden';
  page.dispatchEvent(new Event('visibilitychange'));
  page.visibilityState = 'visible';
  page.dispatchEvent(new Event('visibilitychange'));
  following.unsubscribe();
  page.dispatchEvent(new Event('visibilitychange'));
  expect(seen).toEqual([true, false, true]);
});
