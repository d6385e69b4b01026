import type { AskRequest } from '../../src/ui/ask-dialog.ts';
import type { ServiceView } from '../../src/ui/characteristic-picker.ts';
import type { IdentityEntry } from '../../src/ui/identity-card.ts';
import type { LinkHealthView } from '../../src/ui/link-health-parts.ts';
import type { BytesRow, FrameRow, MonitorRow } from '../../src/ui/raw-monitor-row.ts';
import type { SearchStep } from '../../src/ui/search-progress.ts';
import type { LastSource, SourceOffer } from '../../src/ui/source-offers.ts';
import type { ControllerCodes } from '../../src/ui/trouble-codes-list.ts';

/** Invented views for looking at and testing the elements of the ways in. */
export const OFFERS: readonly SourceOffer[] = [
  {
    id: 'web-serial',
    shape: 'serial',
    title: 'USB or Bluetooth serial',
    line: 'A bridge on a cable, or one that shows up as a serial port.',
    problem: null,
  },
  {
    id: 'web-bluetooth',
    shape: 'radio',
    title: 'Bluetooth LE',
    line: 'A bridge that is paired in the browser, without a serial port.',
    problem: {
      message: 'This browser cannot do Bluetooth LE.',
      remedy: 'Use Chrome or Edge on a computer or on Android.',
    },
  },
  {
    id: 'web-usb',
    shape: 'serial',
    title: 'USB without a driver',
    line: 'On Android, by cable.',
    problem: null,
  },
  {
    id: 'web-socket',
    shape: 'network',
    title: 'Network',
    line: 'A bridge in the Wi-Fi, by its address.',
    problem: null,
  },
  {
    id: 'log-file',
    shape: 'file',
    title: 'Log file',
    line: 'A CAN log or a speed log (CSV).',
    problem: null,
  },
  {
    id: 'typed',
    shape: 'keyboard',
    title: 'Type it in',
    line: 'Crank times and speeds from paper.',
    problem: null,
  },
  { id: 'bench', shape: 'bench', title: 'Bench', line: 'A simulated engine to practise on.', problem: null },
];

export const LAST: LastSource = {
  id: 'last',
  deviceName: 'USB serial 1A86:7523',
  worked: ['115,200 baud', '250 kbit/s', 'listen-only'],
  problem: null,
};

export const STEPS: readonly SearchStep[] = [
  { text: 'Trying 1,000,000 baud', state: 'no', result: 'no answer' },
  { text: 'Trying 115,200 baud', state: 'yes', result: 'SLCAN answers' },
  { text: 'Listening at 250 kbit/s', state: 'now' },
  { text: 'Listening at 500 kbit/s', state: 'ahead' },
];

export const HEALTH: LinkHealthView = {
  framesPerSecond: 1214.3,
  busLoadPercent: [61.2, 73.9],
  malformed: 3,
  lost: null,
  brokenTransfers: 1,
  bytesPerSecond: 34012,
  secondsSinceLast: 0.02,
  addresses: [
    { channel: 0, address: 0x00, name: 'Engine', framesPerSecond: 812.2 },
    { channel: 0, address: 0x03, name: 'Transmission', framesPerSecond: 240 },
    { channel: 0, address: 0x0b, name: 'Brakes', framesPerSecond: 160.1 },
    { channel: 1, address: 0xf9, name: '', framesPerSecond: 0.2 },
  ],
  signals: [
    {
      label: 'Engine speed',
      value: '152',
      unit: 'rpm',
      source: '00',
      perSecond: 100,
      ageSeconds: 0.01,
      state: 'fresh',
    },
    {
      label: 'Rail pressure',
      value: '31.8',
      unit: 'MPa',
      source: '00',
      perSecond: 2,
      ageSeconds: 3.1,
      state: 'stale',
    },
    {
      label: 'Battery voltage',
      value: '10.7',
      unit: 'V',
      source: '31',
      perSecond: 1,
      ageSeconds: 64,
      state: 'lost',
    },
    {
      label: 'Fuel temperature',
      value: '',
      unit: '°C',
      source: '00',
      perSecond: 1,
      ageSeconds: 0.4,
      state: 'notAvailable',
    },
  ],
};

/** Frame number `at` of an invented stream of engine speed, every 1/1800 s. */
export function frameRow(at: number): FrameRow {
  const raw = 1200 + (at % 40);
  const bytes = ['FF', 'FF', 'FF', hex(raw & 255), hex(raw >> 8), 'FF', 'FF', 'FF'];
  const source = at % 4 === 0 ? 0x0b : 0;
  return {
    kind: 'frame',
    time: (at / 1800).toFixed(4),
    id: `0CF004${hex(source)}`,
    pgn: 61444,
    source,
    data: bytes.join(' '),
    decoded: `Engine speed ${(raw * 0.125).toFixed(1)} rpm`,
  };
}

const hex = (value: number) => value.toString(16).toUpperCase().padStart(2, '0');

export const mixedRow = (at: number): MonitorRow =>
  at % 17 === 5
    ? { kind: 'malformed', time: (at / 1800).toFixed(4), text: 't7FF9FFFF', reason: 'says 9 bytes, has 2' }
    : at % 23 === 7
      ? { kind: 'note', time: (at / 1800).toFixed(4), text: 'Bridge: V1013', reason: 'version' }
      : at % 11 === 3
        ? { ...frameRow(at), id: '7E8', pgn: null, source: null, data: '06 41 00 BE', decoded: '' }
        : frameRow(at);

export const bytesRow = (at: number): BytesRow => ({
  kind: 'bytes',
  time: (at / 10).toFixed(1),
  hex: 'E6 06 18 E6 98 60 1E 78',
  text: '.....`.x',
});

export const CONTROLLERS: readonly ControllerCodes[] = [
  {
    id: '0',
    name: 'Engine',
    address: '00',
    active: {
      lamps: { malfunction: 'on', redStop: 'off', amberWarning: 'slow flash', protect: 'notAvailable' },
      codes: [
        {
          spn: 157,
          fmi: 18,
          what: 'Rail pressure',
          how: 'Below normal, moderately severe',
          occurrences: 4,
          otherSpns: [],
          mark: 'Low rail pressure: the rail did not reach what the engine asked for.',
        },
        {
          spn: 1208,
          fmi: 3,
          what: '',
          how: 'Voltage above normal, or shorted to high',
          occurrences: null,
          otherSpns: [309249, 38664],
          mark: '',
        },
      ],
    },
    previous: null,
  },
  {
    id: '11',
    name: 'Brakes',
    address: '0B',
    active: { lamps: { malfunction: 'off', redStop: 'off', amberWarning: 'off', protect: 'off' }, codes: [] },
    previous: {
      lamps: { malfunction: 'off', redStop: 'off', amberWarning: 'off', protect: 'off' },
      codes: [
        {
          spn: 789,
          fmi: 5,
          what: 'Wheel sensor',
          how: 'Current below normal, or open circuit',
          occurrences: 1,
          otherSpns: [],
          mark: '',
        },
      ],
    },
  },
  { id: '49', name: 'Cab controller', address: '31', active: null, previous: null },
];

const entry = (part: Partial<IdentityEntry> & Pick<IdentityEntry, 'field'>): IdentityEntry => ({
  value: '',
  origin: null,
  from: '',
  choices: [],
  note: '',
  noteTone: 'good',
  ...part,
});

export const IDENTITY: readonly IdentityEntry[] = [
  entry({
    field: 'vin',
    value: 'ZZZTRKAA2RT000001',
    origin: 'bus',
    from: 'Engine (00)',
    note: 'The check digit fits.',
  }),
  entry({ field: 'make', value: 'ZZZZZ', origin: 'bus', from: 'Engine (00)' }),
  entry({ field: 'model', value: '', choices: [] }),
  entry({
    field: 'engineSerial',
    choices: [
      { value: '00012345', from: 'Engine (00)' },
      { value: '00099999', from: 'Retarder (0F)' },
    ],
  }),
  entry({ field: 'unitNumber', value: '4711', origin: 'typed' }),
  entry({
    field: 'software',
    value: 'A.10.2',
    origin: 'bus',
    from: 'Engine (00)',
    note: 'Told twice, differently.',
    noteTone: 'doubt',
  }),
];

export const REQUESTS: readonly AskRequest[] = [
  { id: 'vin', title: 'VIN', why: 'Fills the job’s identity.', sent: 'Request for PGN 65260.' },
  {
    id: 'component',
    title: 'Make, model, serial number',
    why: 'Selects the limit sheet.',
    sent: 'Request for PGN 65259.',
  },
  { id: 'dm2', title: 'Earlier trouble codes', why: 'Sent on request only.', sent: 'Request for PGN 65227.' },
];

export const UART = '6e400001-b5a3-f393-e0a9-e50e24dcca9e';
export const SERVICES: readonly ServiceView[] = [
  {
    uuid: UART,
    name: '',
    characteristics: [
      { uuid: '6e400003-b5a3-f393-e0a9-e50e24dcca9e', name: '', notifies: true, writable: false },
      { uuid: '6e400002-b5a3-f393-e0a9-e50e24dcca9e', name: '', notifies: false, writable: true },
    ],
  },
  {
    uuid: '0000ffe0-0000-1000-8000-00805f9b34fb',
    name: 'Serial',
    characteristics: [
      { uuid: '0000ffe1-0000-1000-8000-00805f9b34fb', name: '', notifies: true, writable: true },
    ],
  },
];
