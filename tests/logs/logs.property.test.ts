import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { planSpeedLog } from '../../src/logs/plan-import.ts';
import { readSpeedLog } from '../../src/logs/read-log.ts';
import { toLinkEvents } from '../../src/logs/to-link-events.ts';
import { bytesOf, readText } from './log-bytes.ts';

const layout = fc.record({
  delimiter: fc.constantFrom(',', ';', '\t'),
  mark: fc.constantFrom('.', ','),
  time: fc.constantFrom('seconds', 'milliseconds', 'clock', 'ampm', 'iso', 'german'),
  encoding: fc.constantFrom('utf-8', 'utf-8-bom', 'utf-16le', 'utf-16be', 'windows-1252' as const),
  lineEnd: fc.constantFrom('\n', '\r\n'),
  preamble: fc.integer({ min: 0, max: 20 }),
  unitRow: fc.boolean(),
  summary: fc.boolean(),
  startMs: fc.integer({ min: 0, max: 863_999 }).map((tenths) => tenths * 100),
});
type Layout = typeof layout extends fc.Arbitrary<infer T> ? T : never;
const samples = fc.array(fc.integer({ min: 0, max: 24_000 }).map((tenths) => tenths / 10), { minLength: 4, maxLength: 40 }); // prettier-ignore

const two = (value: number) => String(value).padStart(2, '0');

function timeCell(ms: number, { time, mark }: Layout): string {
  const date = new Date(Date.UTC(2024, 2, 14) + ms);
  const [h, m, s] = [date.getUTCHours(), date.getUTCMinutes(), date.getUTCSeconds()];
  const clock = (hour: number | string) =>
    `${hour}:${two(m)}:${two(s)}${mark}${date.getUTCMilliseconds() / 100}`;
  switch (time) {
    case 'seconds':
      return (ms / 1000).toFixed(1).replace('.', mark);
    case 'milliseconds':
      return String(ms);
    case 'clock':
      return clock(two(h));
    case 'ampm':
      return `${clock(h % 12 || 12)} ${h < 12 ? 'AM' : 'PM'}`;
    case 'iso':
      return `2024-03-${date.getUTCDate()} ${clock(two(h))}`;
    case 'german':
      return `${date.getUTCDate()}.03.2024 ${clock(two(h))}`;
  }
}

/** Writes the log a person would have: by string building of its own, never through the code under test. */
function write(values: readonly number[], form: Layout): string {
  const cell = (text: string) => (text.includes(form.delimiter) ? `"${text}"` : text);
  const row = (...cells: string[]) => cells.map(cell).join(form.delimiter);
  const unit = form.time === 'seconds' ? 's' : form.time === 'milliseconds' ? 'ms' : '';
  const title = unit && !form.unitRow ? `Zeit (${unit})` : 'Zeit';
  return [
    ...Array.from({ length: form.preamble }, (_, i) => `Bemerkung über Nr. ${i}`),
    row(title, 'Motordrehzahl'),
    ...(form.unitRow ? [row(unit, 'rpm')] : []),
    ...values.map((v, i) =>
      row(timeCell(form.startMs + 500 * i, form), v.toFixed(1).replace('.', form.mark)),
    ),
    ...(form.summary ? ['', row('Mittelwert', '146')] : []),
  ].join(form.lineEnd);
}

describe('any log', () => {
  test('written in any layout from known samples gives the same samples back', () => {
    fc.assert(
      fc.property(samples, layout, (values, form) => {
        const { log } = readText(bytesOf(write(values, form), form.encoding));
        const { atMs, value } = log.readings.engineSpeed ?? { atMs: [], value: [] };
        expect([...value]).toEqual(values);
        const first = atMs[0] ?? 0;
        [...atMs].forEach((at, i) => expect(at - first).toBeCloseTo(500 * i, 3));
      }),
      { numRuns: 300 },
    );
  });

  test('of any bytes is read or refused, and never throws', () => {
    const characters = fc.array(fc.constantFrom(...'0123456789.,;:\t"\n\r-/ aAT°ØpmNrs()'.split('')), {
      maxLength: 300,
    });
    const any = fc.oneof(
      fc.uint8Array({ maxLength: 400 }),
      characters.map((text) => bytesOf(text.join(''))),
      characters.map((text) => bytesOf(`Time,RPM\n${text.join('')}`)),
    );
    fc.assert(
      fc.property(any, (bytes) => {
        const plan = planSpeedLog(bytes);
        if (!plan.ok) return;
        for (const answers of [{}, { intervalMs: 500, signals: { engineSpeed: 0 } }]) {
          const again = planSpeedLog(bytes, answers);
          const log = again.ok ? readSpeedLog(bytes, again.value) : again;
          if (!log.ok) continue;
          let last = -Infinity;
          for (const event of toLinkEvents(log.value)) {
            expect(event.atMs).toBeGreaterThanOrEqual(last);
            last = event.atMs;
          }
        }
      }),
      { numRuns: 1000 },
    );
  });
});
