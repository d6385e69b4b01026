import { RUN_V1 } from './run-v1.ts';

const atIso = '2026-11-25T08:01:00.000Z';

/**
 * A run as format version 2 writes it, with every kind of entry once. Golden: every later version must open it and show the same
 * verdict. Vehicle, engine and codes are invented.
 */
export const RUN_V2 = {
  ...RUN_V1,
  formatVersion: 2,
  id: 'run-2',
  source: {
    adapter: 'web-bluetooth',
    device: 'bridge on the bench',
    found: {
      baudRate: null,
      protocol: 'slcan',
      bitRate: 500_000,
      version: 'V1013',
      listenOnly: 'confirmed',
    },
    deviceKey: 'bluetooth:abc',
  },
  entries: [
    ...RUN_V1.entries,
    { atIso, reason: '', kind: 'vessel', vessel: RUN_V1.vessel },
    { atIso, kind: 'crank-left-out', crank: 2, origin: 0, leftOut: true, reason: 'the engine fired' },
    {
      atIso,
      kind: 'crank-edge',
      crank: 1,
      origin: 0,
      edge: 'end',
      foundMs: 55_000,
      atMs: 55_100,
      reason: 'seen in the trace',
    },
    { atIso, reason: '', kind: 'origin-chosen', signal: 'engineSpeed', origin: 0 },
    { atIso, kind: 'override', code: 'check.time-outside', holds: true, reason: 'timed by hand' },
    { atIso, reason: '', kind: 'note', text: 'cold' },
    { atIso, reason: '', kind: 'interval', intervalMs: 20 },
    { atIso, reason: '', kind: 'identity', field: 'serialNumber', value: 'X12', from: 'bus', origin: 0 },
    {
      atIso,
      reason: '',
      kind: 'identity',
      field: 'serialNumber',
      value: 'X 12',
      from: 'typed',
      origin: null,
    },
    {
      atIso,
      kind: 'sheet',
      sheet: { ...RUN_V1.sheet, revision: '2' },
      reason: 'holds for this serial number',
    },
    {
      atIso,
      reason: '',
      kind: 'codes',
      active: [
        {
          origin: 0,
          atMs: 1200.5,
          lamps: { malfunction: 'off', redStop: 'off', amberWarning: 'on', protect: 'notAvailable' },
          codes: [{ spn: 157, fmi: 18, occurrences: 3, otherSpns: [] }],
        },
      ],
      previous: [],
    },
  ],
} as const;
