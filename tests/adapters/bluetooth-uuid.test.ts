import { describe, expect, test } from 'vitest';
import { BLUETOOTH_PROFILES, PROFILE_SERVICES } from '../../adapters/bluetooth-profiles.ts';
import { fullUuid, parseUuid, shortUuid } from '../../adapters/bluetooth-uuid.ts';

const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;
// Core Specification, Vol 3 Part B 2.5.1: a short number goes into the base UUID 00000000-0000-1000-8000-00805F9B34FB.
const FFE0 = '0000ffe0-0000-1000-8000-00805f9b34fb';
const UART = '6e400001-b5a3-f393-e0a9-e50e24dcca9e';

describe('a service UUID as typed', () => {
  test.each([
    ['FFE0', FFE0],
    ['ffe0', FFE0],
    ['0xFFE0', FFE0],
    [' 0000FFE0 ', FFE0],
    ['0x1234abcd', '1234abcd-0000-1000-8000-00805f9b34fb'],
    [FFE0.toUpperCase(), FFE0],
    [UART, UART],
    ['6E400001B5A3F393E0A9E50E24DCCA9E', UART],
    [`{${UART.toUpperCase()}}`, UART],
  ])('%s is understood', (typed, uuid) => {
    expect(parseUuid(typed)).toEqual({ ok: true, value: uuid });
  });

  test.each([
    '',
    'FFE',
    'FFE0F',
    'FFEG',
    'uart',
    `${UART}0`,
    '6e400001-b5a3f393-e0a9-e50e24dcca9e',
    '0x',
    '{FFE0',
  ])('"%s" is refused with what was typed', (typed) => {
    expect(parseUuid(typed)).toEqual({
      ok: false,
      problem: { code: 'bluetooth.bad-uuid', context: { typed } },
    });
  });

  test('is shown short where the Bluetooth SIG gave it a short number', () => {
    expect([FFE0, fullUuid(0x1234abcd), UART].map(shortUuid)).toEqual(['FFE0', '1234ABCD', UART]);
  });
});

describe('the table of profiles', () => {
  test.each(BLUETOOTH_PROFILES)('$id names well-formed UUIDs and its source', ({ notify, write, source }) => {
    const uuids = [notify.service, notify.characteristic, write?.service, write?.characteristic];
    for (const uuid of uuids) expect(uuid).toMatch(UUID);
    expect(source.length).toBeGreaterThan(10);
  });

  test('has no id and no wiring twice', () => {
    const wirings = BLUETOOTH_PROFILES.map(({ notify, write }) => JSON.stringify([notify, write]));
    expect(new Set(wirings).size).toBe(wirings.length);
    expect(new Set(BLUETOOTH_PROFILES.map(({ id }) => id)).size).toBe(wirings.length);
  });

  test('lists each of its services once, for asking', () => {
    expect(new Set(PROFILE_SERVICES).size).toBe(PROFILE_SERVICES.length);
    for (const { notify, write } of BLUETOOTH_PROFILES)
      expect(PROFILE_SERVICES).toEqual(expect.arrayContaining([notify.service, write?.service]));
  });
});
