import { describe, expect, test } from 'vitest';
import {
  bothWays,
  instrumentWorth,
  readGauge,
  readInstrument,
  type GaugeInstrument,
  type InstrumentText,
} from '../../src/ui/gauge-reading.ts';

const DIAL: GaugeInstrument = {
  id: 'dial',
  name: 'Supply gauge 0 to 10 bar',
  kind: 'dial',
  unit: 'bar',
  fullScale: 10,
  percent: 1.6,
  digits: 0,
  step: 0.2,
};
const DISPLAY: GaugeInstrument = {
  ...DIAL,
  kind: 'display',
  unit: 'kPa',
  fullScale: 2000,
  percent: 0.5,
  digits: 2,
  step: 1,
};
const SUPPLY = {
  quantity: 'pressure',
  likely: { min: 0, max: 2000 },
  instrument: null,
  confirmed: false,
} as const;

describe('a value read off an instrument', () => {
  test.each([
    ['412', 'kPa', 412],
    ['4,12', 'bar', 412],
    ['60', 'psi', 413.685437589601], // NIST SP 811 B.8: 1 psi = 6.894757 kPa
    ['0.41', 'MPa', 410],
    ['5', 'inHg', 16.9319431017], // NIST SP 811 B.8: 1 inHg (0 degC) = 3.38638 kPa
  ] as const)('%s %s is kept in kPa', (text, unit, kPa) => {
    const read = readGauge(text, unit, SUPPLY);
    expect('value' in read ? read.value : NaN).toBeCloseTo(kPa, 3);
  });

  test('1265 bar of supply pressure is asked about, with the unit that was likely meant', () => {
    const unlikely = {
      value: 126_500,
      question: '1265\u00a0bar is more than is usual here (0\u00a0bar to 20\u00a0bar). Is it so?',
      instead: ['kPa'],
    };
    expect(readGauge('1265', 'bar', SUPPLY)).toEqual({ unlikely });
    expect(readGauge('1265', 'bar', { ...SUPPLY, confirmed: true })).toEqual({ value: 126_500 });
    expect(readGauge('1265', 'kPa', SUPPLY)).toEqual({ value: 1265 });
  });

  test('a value below what is usual is asked about too, also where no unit makes sense of it', () => {
    const read = readGauge('-3', 'kPa', SUPPLY);
    expect(read).toMatchObject({ unlikely: { value: -3, instead: [] } });
    expect('unlikely' in read && read.unlikely.question).toContain('less than is usual');
  });

  test.each([
    ['', 'Type a number first.'],
    ['4 bar', '“4 bar” is not a plain number.'],
    ['1e3', '“1e3” is not a plain number.'],
    ['999999', '999999\u00a0bar cannot be. Check the number and the unit.'],
    ['-2', '-2\u00a0bar cannot be. Check the number and the unit.'],
  ])('%s is refused, confirmed or not: %s', (text, refusal) => {
    expect(readGauge(text, 'bar', SUPPLY)).toEqual({ refusal });
    expect(readGauge(text, 'bar', { ...SUPPLY, confirmed: true })).toEqual({ refusal });
  });

  test('a time of more than ten minutes is refused', () => {
    const time = { ...SUPPLY, quantity: 'time', likely: { min: 0, max: 60_000 } } as const;
    expect(readGauge('601', 's', time)).toMatchObject({
      refusal: expect.stringContaining('cannot be') as string,
    });
    expect(readGauge('90', 's', time)).toMatchObject({ unlikely: { value: 90_000 } });
  });

  test('an instrument cannot have shown more than its full scale', () => {
    const read = readGauge('12', 'bar', { ...SUPPLY, instrument: DIAL });
    expect('refusal' in read && read.refusal).toContain('shows no more than 10\u00a0bar');
    expect(readGauge('10', 'bar', { ...SUPPLY, instrument: DIAL })).toEqual({ value: 1000 });
    const vacuum = { ...SUPPLY, likely: { min: -80, max: 80 }, instrument: { ...DIAL, fullScale: 0.5 } };
    expect(readGauge('-0.6', 'bar', vacuum)).toMatchObject({ refusal: expect.any(String) as string });
  });

  test('is shown both ways', () => {
    expect(bothWays(1265, 'bar')).toBe('12.65\u00a0bar = 1\u202f265\u00a0kPa');
    expect(bothWays(412, 'kPa')).toBe('412\u00a0kPa = 4.12\u00a0bar');
    expect(bothWays(30_400, 's')).toBe('30.4\u00a0s');
  });
});

describe('what an instrument is worth', () => {
  test('a dial: its class of the full scale, wherever the needle stands, and half a division', () => {
    // by hand: 1.6 % of 10 bar = 0.16 bar = 16 kPa; half of 0.2 bar = 10 kPa
    const worth = instrumentWorth(100, DIAL);
    expect(worth.tolerance).toBeCloseTo(16);
    expect(worth.halfStep).toBeCloseTo(10);
    expect(instrumentWorth(900, DIAL)).toEqual(worth);
  });

  test('a display: per cent of what it shows and its digits, and half a step', () => {
    // by hand: 0.5 % of 400 kPa = 2 kPa, and 2 digits of 1 kPa
    expect(instrumentWorth(400, DISPLAY)).toEqual({ tolerance: 4, halfStep: 0.5 });
  });
});

describe('an instrument that is typed', () => {
  const TEXT: InstrumentText = {
    name: ' Gauge 2 ',
    kind: 'dial',
    fullScale: '10',
    percent: '1,6',
    digits: '',
    step: '0.2',
  };

  test('is read with comma or point', () => {
    expect(readInstrument(TEXT, 'bar')).toEqual({
      instrument: { ...DIAL, id: 'typed', name: 'Gauge 2' },
    });
  });

  test('says what is wrong with each field', () => {
    expect(readInstrument({ ...TEXT, name: ' ', fullScale: '0', percent: '40', step: '' }, 'bar')).toEqual({
      mistakes: {
        name: 'Give the instrument a name.',
        fullScale: 'The least that can be entered is 0.001 bar.',
        percent: 'The most that can be entered is 25 %.',
        step: 'Type a number first.',
      },
    });
    expect(readInstrument({ ...TEXT, step: '20' }, 'bar')).toEqual({
      mistakes: { step: 'A step cannot be more than the full scale.' },
    });
    expect(readInstrument({ ...TEXT, kind: 'display' }, 'bar')).toEqual({
      mistakes: { digits: 'Type a number first.' },
    });
  });
});
