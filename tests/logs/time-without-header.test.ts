import { expect, test } from 'vitest';
import { planSpeedLog } from '../../src/logs/plan-import.ts';

const plan = (text: string) => {
  const planned = planSpeedLog(new TextEncoder().encode(text));
  if (!planned.ok) throw new Error(planned.problem.code);
  return planned.value;
};

test('a column of flags is not taken for the time of a log without a header', () => {
  const { time, needs } = plan('0,0\n0,0\n151,1\n152,1\n150,1\n151,0\n0,0\n0,1\n');
  expect(time).toEqual({ source: 'interval', intervalMs: null });
  expect(needs).toContain('interval');
});

test('a column that steps up once is not taken for time either', () => {
  const rows = Array.from(
    { length: 20 },
    (_, i) => `${i < 10 ? 0 : 1},${i > 3 && i < 16 ? 150 + (i % 3) : 0}`,
  );
  expect(plan(rows.join('\n')).time.source).toBe('interval');
});

test('whole seconds at four rows a second are time without a header', () => {
  const rows = Array.from(
    { length: 40 },
    (_, i) => `${Math.floor(i / 4) + 0.5},${i > 8 && i < 32 ? 150 + (i % 3) : 0}`,
  );
  expect(plan(rows.join('\n')).time).toMatchObject({ source: 'column', column: 0 });
});
