import type { Lamps, LampState } from './trouble-codes.ts';

/** What each lamp is called (SAE J1939-73, lamp bytes of DM1), in the order in which they matter to a technician. */
export const LAMP_NAMES: readonly (readonly [lamp: keyof Lamps, name: string])[] = [
  ['redStop', 'red stop lamp'],
  ['amberWarning', 'amber warning lamp'],
  ['malfunction', 'malfunction indicator lamp (emissions)'],
  ['protect', 'protect lamp'],
];

const STATE_WORDS: Readonly<Record<LampState, string>> = {
  off: 'off',
  on: 'on',
  'slow flash': 'flashing slowly (once a second)',
  'fast flash': 'flashing fast (twice a second or more)',
  notAvailable: 'not driven by this controller',
};

/** The state of a lamp in words. */
export const lampText = (state: LampState): string => STATE_WORDS[state];

/** The lamps that are lit, steady or flashing, in words; empty where none is. */
export const litLamps = (lamps: Lamps): readonly string[] =>
  LAMP_NAMES.filter(([lamp]) => !['off', 'notAvailable'].includes(lamps[lamp])).map(
    ([lamp, name]) => `${name} ${STATE_WORDS[lamps[lamp]]}`,
  );
