import { BehaviorSubject, type Subscription } from 'rxjs';
import { afterEach, expect, test, vi } from 'vitest';
import { browserCapabilities } from '../../src/app/capabilities.ts';
import {
  followWakeLock,
  pageVisible$,
  type WakeLockHold,
  type WakeLockState,
} from '../../src/app/wake-lock.ts';

let following: Subscription | null = null;
afterEach(() => following?.unsubscribe());

/** The browser's own wake lock, with what it gave written down. */
function native() {
  const { wakeLock } = browserCapabilities();
  if (!wakeLock) throw new Error('this Chromium has no wake lock');
  const given: WakeLockHold[] = [];
  const request = async (type: 'screen') => {
    const lock = await wakeLock.request(type);
    given.push(lock);
    return lock;
  };
  return { given, wakeLock: { request } };
}

test('Chromium keeps the screen on while it is wanted, and lets go after', async () => {
  const { given, wakeLock } = native();
  const wanted = new BehaviorSubject(true);
  const states: WakeLockState[] = [];
  following = followWakeLock(wanted, wakeLock, pageVisible$(document)).subscribe((state) =>
    states.push(state),
  );
  await vi.waitFor(() => expect(states).toEqual(['not held', 'held']));
  expect(given.map(({ released }) => released)).toEqual([false]);
  wanted.next(false);
  await vi.waitFor(() => expect(given.map(({ released }) => released)).toEqual([true]));
  expect(states).toEqual(['not held', 'held', 'not held']);
});

test('Chromium’s own release is seen, and a page that comes back asks anew', async () => {
  const { given, wakeLock } = native();
  const visible = new BehaviorSubject(true);
  const states: WakeLockState[] = [];
  following = followWakeLock(new BehaviorSubject(true), wakeLock, visible).subscribe((state) =>
    states.push(state),
  );
  await vi.waitFor(() => expect(states.at(-1)).toBe('held'));
  await given[0]!.release();
  await vi.waitFor(() => expect(states.at(-1)).toBe('not held'));
  visible.next(false);
  visible.next(true);
  await vi.waitFor(() => expect(states.at(-1)).toBe('held'));
  expect(given.map(({ released }) => released)).toEqual([true, false]);
});
