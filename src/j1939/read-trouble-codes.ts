import type { CodeReport, LampState, Lamps, TroubleCode } from './trouble-codes.ts';

const LAMP_BYTES = 2;
const CODE_BYTES = 4;
const NOT_COUNTED = 127;
const ALL_ONES = 0xffffffff;

/**
 * Reads the payload of a DM1 (65226) or DM2 (65227), in one frame or joined: two lamp bytes, then four bytes a code (J1939-73;
 * j1939.md, "DM1 and DM2"). Null where there are not even lamp bytes. The forms of "no code" give no code: all zero, all FF, SPN 0 with
 * FMI 0 whatever its count. Bytes behind the last whole code are padding; those that are neither FF nor 0 are counted in `leftOver`.
 */
export function readTroubleCodes(data: Uint8Array, atMs: number): CodeReport | null {
  if (data.length < LAMP_BYTES) return null;
  const codes: TroubleCode[] = [];
  let at = LAMP_BYTES;
  for (; at + CODE_BYTES <= data.length; at += CODE_BYTES) {
    const code = readCode(data, at);
    if (code) codes.push(code);
  }
  const leftOver = data.subarray(at).filter((byte) => byte !== 0xff && byte !== 0).length;
  return { atMs, lamps: readLamps(data[0]!, data[1]!), codes, ...(leftOver > 0 && { leftOver }) };
}

/**
 * One code out of four bytes, null where they hold none. With conversion bit 0 the packing is version 4. With conversion bit 1 it is one of
 * three older ones and the frame does not say which: `spn` is the reading of version 3 (the same as of version 4), `otherSpns` are
 * those of versions 1 and 2 where they differ. FMI and count stand in the same place in all four.
 */
function readCode(data: Uint8Array, at: number): TroubleCode | null {
  const a = data[at]!;
  const b = data[at + 1]!;
  const c = data[at + 2]!;
  const d = data[at + 3]!;
  if ((a | (b << 8) | (c << 16) | (d << 24)) >>> 0 === ALL_ONES) return null;
  if (a === 0 && b === 0 && c === 0) return null;
  const count = d & 0x7f;
  const spn = a | (b << 8) | ((c >>> 5) << 16);
  const older = [(a << 11) | (b << 3) | (c >>> 5), (b << 11) | (a << 3) | (c >>> 5)]; // versions 1 and 2
  return {
    spn,
    fmi: c & 0x1f,
    occurrences: count === NOT_COUNTED ? null : count,
    otherSpns: d >>> 7 === 0 ? [] : [...new Set(older)].filter((each) => each !== spn),
    ...(d >>> 7 === 1 && { olderPacking: true }),
  };
}

function readLamps(states: number, flashes: number): Lamps {
  const lamp = (shift: number) => lampState((states >>> shift) & 3, (flashes >>> shift) & 3);
  return { malfunction: lamp(6), redStop: lamp(4), amberWarning: lamp(2), protect: lamp(0) };
}

/** Two bits of each lamp byte. Only a lamp that is on can flash. State 10 is reserved, which drives no lamp either. */
function lampState(state: number, flash: number): LampState {
  if (state === 0) return 'off';
  if (state !== 1) return 'notAvailable';
  return flash === 0 ? 'slow flash' : flash === 1 ? 'fast flash' : 'on';
}
