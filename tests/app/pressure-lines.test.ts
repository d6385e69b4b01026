import { expect, test } from 'vitest';
import { pressureLines } from '../../src/app/pressure-lines.ts';
import type { StoredCodeReport } from '../../src/jobs/code-snapshot.ts';

const LAMPS = { malfunction: 'off', redStop: 'off', amberWarning: 'on', protect: 'off' } as const;
const report = (origin: number, ...codes: readonly (readonly [number, number])[]): StoredCodeReport => ({
  origin,
  atMs: 0,
  lamps: LAMPS,
  codes: codes.map(([spn, fmi]) => ({ spn, fmi, occurrences: 1, otherSpns: [] })),
});

// SPN 157 is the rail, SPN 94 the supply; FMI 1, 17 and 18 are below normal, 3 the sensor's circuit (SAE J1939-73).
test.each([
  ['low rail pressure, each severity', [157, 1], 1],
  ['low rail pressure, moderately', [157, 18], 1],
  ['low supply pressure', [94, 17], 1],
  ['the circuit of the rail sensor is no low pressure', [157, 3], 0],
  ['rail pressure too high', [157, 0], 0],
  ['another parameter', [100, 1], 0],
] as const)('%s', (_, code, lines) => {
  expect(pressureLines({ active: [report(0, code)] })).toHaveLength(lines);
});

test('the same code of two controllers is one line, and the line names the code', () => {
  const lines = pressureLines({ active: [report(0, [157, 18], [94, 17]), report(3, [157, 18])] });
  expect(lines).toHaveLength(2);
  expect(lines[0]).toMatch(/SPN 157, FMI 18/);
});

test('no code, no line', () => expect(pressureLines({ active: [] })).toEqual([]));
