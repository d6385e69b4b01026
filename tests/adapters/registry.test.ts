import { describe, expect, test } from 'vitest';
import { sourceList, SOURCES, type Capabilities } from '../../adapters/registry.ts';
import { ADAPTER_IDS } from '../../src/link/adapter.ts';
import { describeProblem } from '../../src/problems/problem.ts';

const ALL: Capabilities = { serial: {}, usb: {}, bluetooth: {}, webSocket: true, secure: true };
const NONE: Capabilities = {
  serial: undefined,
  usb: undefined,
  bluetooth: null,
  webSocket: false,
  secure: true,
};

const usable = (capabilities: Capabilities) =>
  sourceList(capabilities).flatMap(({ id, usable: can }) => (can ? [id] : []));
const problems = (capabilities: Capabilities) =>
  Object.fromEntries(
    sourceList(capabilities).flatMap(({ id, problem }) => (problem ? [[id, problem.code]] : [])),
  );

describe('the list of sources', () => {
  test('holds every kind that there is, once', () => {
    expect(SOURCES.map(({ id }) => id).toSorted()).toEqual([...ADAPTER_IDS].toSorted());
  });

  test('says of each what it is and what it is for, in words of its own', () => {
    const offers = sourceList(ALL);
    expect(new Set(offers.map(({ title }) => title)).size).toBe(offers.length);
    for (const { blurb, title } of offers) {
      expect(title).toMatch(/^[A-Z][\w ]+$/);
      expect(blurb).toMatch(/^[A-Z].{20,}\.$/);
    }
  });

  test('in a browser that has everything, everything is usable', () => {
    expect(usable(ALL)).toEqual(SOURCES.map(({ id }) => id));
    expect(problems(ALL)).toEqual({});
  });

  test('in a browser that has nothing, files, typing, recordings and the bench remain; the rest is listed with reason and cure', () => {
    expect(usable(NONE)).toEqual(['log-file', 'typed', 'replay', 'bench']);
    expect(problems(NONE)).toEqual({
      'web-serial': 'link.no-web-serial',
      'web-bluetooth': 'bluetooth.no-web-bluetooth',
      'web-usb': 'device.no-web-usb',
      'web-socket': 'device.no-web-socket',
    });
    for (const { problem } of sourceList(NONE)) {
      if (!problem) continue;
      const { message, remedy } = describeProblem(problem);
      expect([message.length > 20, remedy.length > 20]).toEqual([true, true]);
    }
  });

  test('on a page that came unencrypted that is the reason, and the cure is the address', () => {
    expect(problems({ ...NONE, webSocket: true, secure: false })).toEqual({
      'web-serial': 'link.insecure-page',
      'web-bluetooth': 'bluetooth.insecure-page',
      'web-usb': 'link.insecure-page',
    });
  });

  test.each([
    [ALL, 'web-serial'],
    [{ ...ALL, serial: undefined }, 'web-usb'],
    [{ ...ALL, android: true }, 'web-usb'],
    [{ ...ALL, android: true, usb: undefined }, 'web-serial'],
    [NONE, undefined],
  ])('marks the usual way to a USB bridge, and leaves the other to be chosen (%#)', (capabilities, id) => {
    expect(sourceList(capabilities).find(({ usual }) => usual)?.id).toBe(id);
  });

  test.each([
    ['web-serial', 'webSerialAdapter'],
    ['web-bluetooth', 'webBluetoothAdapter'],
    ['web-usb', 'webUsbAdapter'],
    ['web-socket', 'webSocketAdapter'],
    ['log-file', 'logFileAdapter'],
    ['typed', 'typedAdapter'],
    ['replay', 'replayAdapter'],
    ['bench', 'benchAdapter'],
  ])('loads %s only when asked, and it brings %s', async (id, maker) => {
    const source = SOURCES.find((each) => each.id === id);
    expect(await source?.load()).toHaveProperty(maker, expect.any(Function));
  });
});
