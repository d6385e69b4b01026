import { gzipSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { openFile, planNumbers } from '../../src/app/open-file.ts';

const text = (content: string) => new TextEncoder().encode(content);
const CSV = 'Time (s),Engine speed (rpm)\n0,0\n0.1,150\n0.2,151\n0.3,152\n';
// EEC1 of the engine, as can-utils writes it: (seconds) interface id#data.
const CANDUMP = '(1.000000) can0 0CF00400#FFFFFF0005FFFFFF\n(1.020000) can0 0CF00400#FFFFFF0005FFFFFF\n';

test('bus text needs no questions', async () => {
  expect(await openFile({ name: 'a.log', bytes: text(CANDUMP) })).toMatchObject({
    ok: true,
    value: { kind: 'frames', wire: 'candump' },
  });
  const slcan = 'T0CF004008FFFFFF0005FFFFFF\rT0CF004008FFFFFF0005FFFFFF\r';
  expect(await openFile({ name: 'a.txt', bytes: text(slcan) })).toMatchObject({ value: { wire: 'slcan' } });
});

test('numbers come with a plan to confirm, packed or not, whatever the file is called', async () => {
  for (const file of [
    { name: 'speed.csv', bytes: text(CSV) },
    { name: 'speed.csv.gz', bytes: new Uint8Array(gzipSync(CSV)) },
    { name: 'speed.dat', bytes: new Uint8Array(gzipSync(CSV)) },
  ]) {
    const opened = await openFile(file);
    expect(opened).toMatchObject({ ok: true, value: { kind: 'numbers', plan: { needs: [] } } });
    if (opened.ok) expect(opened.value.bytes).toEqual(text(CSV));
  }
});

test('what cannot be used gives a problem of its own', async () => {
  const cases = {
    'link.gzip-damaged': new Uint8Array(gzipSync(CSV)).slice(0, 30),
    'log.empty': new Uint8Array(),
    'log.spreadsheet': Uint8Array.of(0x50, 0x4b, 3, 4, 20, 0, 6, 0, 8, 0), // zip local file header (APPNOTE 4.3.7)
    'log.not-text': Uint8Array.from({ length: 4096 }, (_, place) => (place * 7919) % 256),
  };
  for (const [code, bytes] of Object.entries(cases)) {
    const opened = await openFile({ name: 'x', bytes });
    expect(opened.ok ? 'opened' : opened.problem.code).toBe(code);
  }
});

test('answers of the person change the plan; an interval lets a log without times be used', () => {
  const untimed = text('Engine speed (rpm)\n0\n150\n151\n152\n149\n');
  const asked = planNumbers(untimed, {});
  expect(asked.ok && asked.value.kind === 'numbers' && asked.value.plan.needs).toContain('interval');
  const answered = planNumbers(untimed, { timeColumn: null, intervalMs: 100 });
  expect(answered).toMatchObject({
    ok: true,
    value: { plan: { needs: [], time: { source: 'interval', intervalMs: 100 } } },
  });
});
