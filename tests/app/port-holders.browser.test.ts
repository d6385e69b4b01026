import { expect, test } from 'vitest';
import { browserCapabilities } from '../../src/app/capabilities.ts';
import { HOLDERS_CHANNEL, portHolders } from '../../src/app/port-holders.ts';

const HOLDER = { key: 'usb:1', title: 'Truck 12', sinceIso: '2026-11-25T08:00:00.000Z' };
const tab = () => portHolders(browserCapabilities().channel(HOLDERS_CHANNEL));

test('over Chromium’s own channel the holder answers, and silence is told within a second', async () => {
  const [first, second] = [tab(), tab()];
  const letGo = first.hold(HOLDER);
  expect(await second.whoHolds('usb:1')).toEqual(HOLDER);
  letGo();
  const asked = performance.now();
  expect(await second.whoHolds('usb:1')).toBeNull();
  const waited = performance.now() - asked;
  expect(waited).toBeGreaterThan(150);
  expect(waited).toBeLessThan(1000);
  first.close();
  second.close();
});

test('another page of the same origin, in a frame of its own, answers and is asked', async () => {
  const frame = document.createElement('iframe');
  document.body.append(frame);
  const theirs = frame.contentWindow as (Window & typeof globalThis) | null;
  if (!theirs) throw new Error('no frame');
  const other = portHolders(new theirs.BroadcastChannel(HOLDERS_CHANNEL));
  const own = tab();
  other.hold(HOLDER);
  expect(await own.whoHolds('usb:1')).toEqual(HOLDER);
  own.hold({ ...HOLDER, key: 'usb:2' });
  expect((await other.whoHolds('usb:2'))?.title).toBe('Truck 12');
  other.close();
  own.close();
  frame.remove();
});
