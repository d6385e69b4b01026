import { describe, expect, test } from 'vitest';
import { DEFECT_KINDS, type DefectKind } from '../../simulators/engine/defects.ts';
import { bridgeRun, crankingRun, deliveryRun, runningRun } from './defect-runs.ts';

const SEVERITIES = [0.3, 0.6, 1] as const;
type Direction = 'up' | 'down' | 'same';
type Run = 'delivery' | 'cranking' | 'running' | 'bridge';
type Row = readonly [defect: DefectKind, run: Run, check: string, direction: Direction];

/**
 * Which way each defect moves each check. Common practice, no source: what the trade expects, written down before it was
 * played. `same`: ports are capped, or the part is not in that path.
 */
const EXPECTED: readonly Row[] = [
  ['clogged filter', 'running', 'restriction', 'up'],
  ['clogged filter', 'cranking', 'supplyCranking', 'down'],
  ['clogged filter', 'delivery', 'delivery', 'down'],
  ['suction restriction', 'running', 'restriction', 'up'],
  ['suction restriction', 'delivery', 'delivery', 'down'],
  ['air leak', 'cranking', 'supplyCranking', 'down'],
  ['air leak', 'cranking', 'buildSeconds', 'up'],
  ['air leak', 'delivery', 'delivery', 'down'],
  ['weak supply pump', 'running', 'supplyIdle', 'down'],
  ['weak supply pump', 'running', 'supplyHighIdle', 'down'],
  ['weak supply pump', 'cranking', 'supplyCranking', 'down'],
  ['weak supply pump', 'delivery', 'delivery', 'down'],
  ['sticking metering valve', 'running', 'railSpread', 'up'],
  ['sticking metering valve', 'delivery', 'delivery', 'down'],
  ['cracked metering housing', 'running', 'pumpReturn', 'up'],
  ['cracked metering housing', 'cranking', 'supplyCranking', 'down'],
  ['worn pump elements', 'running', 'pumpReturn', 'up'],
  ['worn pump elements', 'running', 'reliefReturn', 'same'],
  ['worn pump elements', 'delivery', 'delivery', 'down'],
  ['one element dead', 'cranking', 'buildSeconds', 'up'],
  ['one element dead', 'delivery', 'delivery', 'down'],
  ['leaking outlet check valve', 'running', 'pumpReturn', 'up'],
  ['leaking outlet check valve', 'running', 'decaySeconds', 'down'],
  ['leaking outlet check valve', 'delivery', 'delivery', 'down'],
  ['leaking rail relief valve', 'running', 'reliefReturn', 'up'],
  ['leaking rail relief valve', 'running', 'decaySeconds', 'down'],
  ['leaking rail relief valve', 'delivery', 'delivery', 'down'],
  ['high injector return', 'running', 'injectorReturn', 'up'],
  ['high injector return', 'running', 'decaySeconds', 'down'],
  ['high injector return', 'delivery', 'delivery', 'same'],
  ['weak battery', 'delivery', 'crankRpm', 'down'],
  ['weak battery', 'delivery', 'batteryV', 'down'],
  ['weak battery', 'delivery', 'delivery', 'down'],
  ['corroded starter cable', 'delivery', 'crankRpm', 'down'],
  ['corroded starter cable', 'delivery', 'batteryV', 'up'],
  ['high cranking drag', 'delivery', 'crankRpm', 'down'],
  ['high cranking drag', 'delivery', 'batteryV', 'down'],
  ['high cranking drag', 'delivery', 'delivery', 'down'],
  ['noisy rail sensor', 'bridge', 'reportedRailSpread', 'up'],
  ['stuck rail sensor', 'bridge', 'reportedRailOff', 'up'],
  ['dropped frames', 'bridge', 'speedFrames', 'down'],
  ['loose bridge cable', 'bridge', 'speedFrames', 'down'],
  ['loose bridge cable', 'bridge', 'longestGapMs', 'up'],
];

const PLAY = { delivery: deliveryRun, cranking: crankingRun, running: runningRun, bridge: bridgeRun };
type Values = Readonly<Record<string, number>> | null;
const played = new Map<string, Values>();
/** Played once for each engine. */
function valuesOf(run: Run, kind: DefectKind, severity: number): Values {
  const name = severity === 0 ? `${run} sound` : `${run} ${kind} ${severity}`;
  if (!played.has(name)) played.set(name, PLAY[run](severity === 0 ? [] : [{ kind, severity }]));
  return played.get(name)!;
}

describe.each(DEFECT_KINDS)('%s', (kind) => {
  const rows = EXPECTED.filter(([defect]) => defect === kind);

  test('stands in the table', () => expect(rows.length).toBeGreaterThan(0));

  test.each(rows)('%s: %s, %s goes %s with severity', (_kind, run, check, direction) => {
    const sound = valuesOf(run, kind, 0)![check]!;
    const values = SEVERITIES.map((severity) => valuesOf(run, kind, severity)?.[check] ?? null);
    expect(values[0]).not.toBeNull(); // an engine that is a little ill still starts
    let before = sound;
    for (const value of values) {
      if (value === null) continue; // it does not start any more
      if (direction === 'same') expect(Math.abs(value - sound)).toBeLessThanOrEqual(0.02 * Math.abs(sound));
      else if (direction === 'up') expect(value).toBeGreaterThanOrEqual(before);
      else expect(value).toBeLessThanOrEqual(before);
      before = value;
    }
    const plain = check === 'batteryV' ? 0.005 : 0.02;
    const worst = values.findLast((value) => value !== null)!;
    if (direction === 'up') expect(worst).toBeGreaterThan((1 + plain) * sound);
    if (direction === 'down') expect(worst).toBeLessThan((1 - plain) * sound);
  });
});
