import { describe, expect, test } from 'vitest';
import { monotonicTime } from '../../src/logs/monotonic-time.ts';
import { toLinkEvents } from '../../src/logs/to-link-events.ts';
import { parseClock, parseDateTime } from '../../src/logs/time-cell.ts';
import { readText } from './log-bytes.ts';

const run = (stamps: readonly number[], kind: Parameters<typeof monotonicTime>[2] = 'clock') =>
  monotonicTime(Float64Array.from(stamps), stamps.map((_, i) => i + 2), kind); // prettier-ignore

describe('time cells', () => {
  test.each([
    ['10:00:00', 36_000_000],
    ['9:05:07.25', 32_707_250],
    ['09:05:07,250', 32_707_250],
    ['09:05:07:250', 32_707_250],
    ['12:00:00 AM', 0],
    ['12:00:01 pm', 43_201_000],
    ['1:00:00 P.M.', 46_800_000],
  ])('%s is %d ms after midnight', (text, ms) => expect(parseClock(text)).toBe(ms));

  test.each(['', '25', '10:61:00', '13:00:00 PM', '0:00:00 AM', 'ten', '1:2:3:4:5'])(
    '"%s" is no clock time',
    (text) => expect(parseClock(text)).toBeNaN(),
  );

  test('dates agree with the runtime, in either order of day and month', () => {
    const expected = Date.parse('2024-03-12T10:00:00.500Z');
    expect(parseDateTime('2024-03-12 10:00:00.5', 'yearFirst')).toBe(expected);
    expect(parseDateTime('20240312T100000.5', 'yearFirst')).toBe(expected);
    expect(parseDateTime('12.03.2024 10:00:00,500', 'dayFirst')).toBe(expected);
    expect(parseDateTime('3/12/24 10:00:00.5 AM', 'monthFirst')).toBe(expected);
    expect(parseDateTime('12-Mar-2024 10:00:00.5', 'dayFirst')).toBe(expected);
    expect(parseDateTime('31/31/2024 10:00:00', 'dayFirst')).toBeNaN();
  });
});

describe('stamps that never fall', () => {
  test('two rows a second spread to half seconds, three to thirds', () => {
    expect([...run([0, 0, 1000, 1000, 2000, 2000]).atMs]).toEqual([0, 500, 1000, 1500, 2000, 2500]);
    const thirds = run([0, 0, 0, 1000, 1000, 1000, 2000, 2000, 2000]);
    expect(thirds.atMs[4]).toBeCloseTo(1000 + 1000 / 3, 6);
    expect(thirds.spread).toEqual({ rows: 6, resolutionMs: 1000 });
  });

  test('a backward step is a break behind a hole, never a negative interval', () => {
    const { atMs, breaks } = run([0, 500, 1000, 200, 700], 'seconds');
    expect([...atMs].every((at, i) => i === 0 || at > (atMs[i - 1] ?? 0))).toBe(true);
    expect((atMs[3] ?? 0) - (atMs[2] ?? 0)).toBeGreaterThan(1500);
    expect((atMs[4] ?? 0) - (atMs[3] ?? 0)).toBe(500);
    expect(breaks).toEqual([{ kind: 'backwards', line: 5, atMs: atMs[3], spanMs: 800 }]);
  });

  test('a clock set back by an hour is a break, midnight is none', () => {
    const hour = 3_600_000;
    expect(run([2 * hour, 2 * hour + 500, hour + 1000, hour + 1500]).breaks).toHaveLength(1);
    const midnight = run([24 * hour - 500, 0, 500, 1000]);
    expect(midnight.breaks).toEqual([]);
    expect([...midnight.atMs].map((at) => at - (midnight.atMs[0] ?? 0))).toEqual([0, 500, 1000, 1500]);
  });

  test('a twelve-hour clock without AM and PM goes on after 12:59', () => {
    const { log } = readText('Time,RPM\n12:59:59.0,140\n12:59:59.5,141\n1:00:00.0,142\n1:00:00.5,143\n');
    expect([...(log.readings.engineSpeed?.atMs ?? [])]).toEqual([0, 500, 1000, 1500]);
    expect(log.breaks).toEqual([]);
  });

  test('a paused log keeps its time and names the pause', () => {
    const { breaks, atMs } = run([0, 500, 1000, 61_000, 61_500], 'seconds');
    expect(atMs[3]).toBe(61_000);
    expect(breaks).toEqual([{ kind: 'pause', line: 5, atMs: 61_000, spanMs: 60_000 }]);
  });

  test('a slow log pauses where more than three of its intervals are missing', () => {
    expect(run([0, 2000, 4000, 10_000, 12_000], 'seconds').breaks).toEqual([]);
    const { breaks } = run([0, 2000, 4000, 11_000, 13_000], 'seconds');
    expect(breaks).toEqual([{ kind: 'pause', line: 5, atMs: 11_000, spanMs: 7000 }]);
  });

  test('serial day numbers of a spreadsheet differ as their days do', () => {
    // one day is 86,400 s: half a second is 1/172,800 of it
    const day = (half: number) => (45_363.41666667 + half / 172_800).toFixed(10);
    const { log, plan } = readText(
      `Time,RPM\n${[0, 1, 2, 3].map((i) => `${day(i)},${140 + i}`).join('\n')}\n`,
    );
    expect(plan.time).toMatchObject({ kind: 'excelDay' });
    log.readings.engineSpeed?.atMs.forEach((at, i) => expect(at).toBeCloseTo(500 * i, 1));
  });
});

describe('link events of a log', () => {
  test('come in time order with missing values marked and a gap where time steps back', () => {
    const { log } = readText(
      'Time (s),RPM,Rail pressure (bar)\n0.0,0,10\n0.5,146,\n1.0,N/A,30\n0.0,140,20\n0.5,141,21\n',
    );
    const events = [...toLinkEvents(log)];
    const speeds = events.flatMap((e) =>
      e.kind === 'reading' && e.reading.signal === 'engineSpeed' ? [e.reading] : [],
    );
    expect(speeds.map(({ value, quality }) => [value, quality])).toEqual([
      [0, 'valid'], [146, 'valid'], [null, 'notAvailable'], [140, 'valid'], [141, 'valid'],
    ]); // prettier-ignore
    expect(events.filter((e) => e.kind === 'reading' && e.reading.signal === 'railPressure')).toHaveLength(4);
    expect(events.map(({ kind }) => kind).indexOf('gap')).toBe(5);
    expect(events.every(({ atMs }, i) => i === 0 || atMs >= (events[i - 1]?.atMs ?? 0))).toBe(true);
  });

  test('pressure in psi, bar, kPa and MPa arrives in kPa', () => {
    const text = (unit: string, value: string) =>
      `Time (s),RPM,Rail pressure (${unit}),Supply pressure (${unit})\n0.0,0,${value},${value}\n0.5,146,${value},${value}\n`;
    const kPa = (unit: string, value: string) => {
      const { readings } = readText(text(unit, value)).log;
      expect(readings.supplyPressure?.value[1]).toBe(readings.railPressure?.value[1]);
      return readings.railPressure?.value[1] ?? NaN;
    };
    // Source: SP 811, psi 6.894757 kPa; trade figures of the issue: 29,000 psi is 199.9 MPa, 175 psi is 1,207 kPa
    expect(kPa('psi', '29000') / 1000).toBeCloseTo(199.9, 0);
    expect(Math.abs(kPa('psi', '175') - 1207)).toBeLessThan(1);
    expect(kPa('bar', '12.5')).toBeCloseTo(1250, 9); // bar 100 kPa, SP 811
    expect(kPa('kPa', '1207')).toBe(1207);
    expect(kPa('MPa', '1.2')).toBeCloseTo(1200, 9);
  });
});
