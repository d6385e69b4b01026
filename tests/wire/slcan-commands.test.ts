import { expect, test } from 'vitest';
import { BIT_RATES } from '../../src/wire/found-bridge.ts';
import { BIT_RATE_COMMANDS, isClassicVersion } from '../../src/wire/slcan-commands.ts';

// Source: can-text-formats.md, Part 1, table "Commands", row Sn.
test.each([
  [125_000, 'S4'],
  [250_000, 'S5'],
  [500_000, 'S6'],
  [1_000_000, 'S8'],
] as const)('%i bit/s is set by %s', (rate, command) => expect(BIT_RATE_COMMANDS[rate]).toBe(command));

test('every bit rate that is searched for has its command, each its own', () => {
  expect(new Set(BIT_RATES.map((rate) => BIT_RATE_COMMANDS[rate])).size).toBe(BIT_RATES.length);
});

test.each([
  ['V1013', true],
  ['V0aFf', true],
  ['V101', false],
  ['V10134', false],
  ['v1013', false],
  ['V1.2.3', false],
  ['', false],
  [null, false],
])('%s is a version of the originals: %s', (version, classic) =>
  expect(isClassicVersion(version)).toBe(classic),
);
