/** A header as format version 1 writes it, and as version 2 does. Golden: every later version must open them. */
export const HEADER_V1 = {
  formatVersion: 1,
  id: 'rec-1',
  source: 'web-serial',
  wire: 'slcan',
  device: 'serial port 0403:6001',
  startedAt: '2026-11-25T08:00:00.000Z',
  closed: true,
  givenIntervalMs: null,
  fileName: null,
  logPlan: null,
} as const;

/** A speed log of version 1: with a file, an interval from the person, and its plan. */
export const LOG_HEADER_V1 = {
  ...HEADER_V1,
  id: 'rec-log',
  source: 'log-file',
  wire: 'readings',
  device: 'crank.csv',
  givenIntervalMs: 500,
  fileName: 'crank.csv',
  logPlan: { formatVersion: 1, columns: [0, 1] },
} as const;

/** Version 2: a source and a line protocol that version 1 does not know. */
export const HEADER_V2 = {
  ...HEADER_V1,
  formatVersion: 2,
  id: 'rec-2',
  source: 'web-bluetooth',
  wire: 'auto',
  device: 'bridge on the bench',
} as const;
