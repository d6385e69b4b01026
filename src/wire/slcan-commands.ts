import type { BitRate } from './found-bridge.ts';

/** The setting command of each bit rate. Source: can-text-formats.md, Part 1, "Commands". */
export const BIT_RATE_COMMANDS: Readonly<Record<BitRate, string>> = {
  125_000: 'S4',
  250_000: 'S5',
  500_000: 'S6',
  1_000_000: 'S8',
};

/** Bridges that never answer are met often: go on after this long. Source: can-text-formats.md, Quirks, 100–300 ms. */
export const ANSWER_WAIT_MS = 200;

/** Closes the channel. Sent before the port is closed. */
export const CLOSE_COMMAND = 'C\r';

/** `V` and 4 digits: the originals' kind, whose other commands mean what the originals' manual says. */
export const isClassicVersion = (version: string | null): boolean =>
  version !== null && /^V[0-9A-Fa-f]{4}$/.test(version);
