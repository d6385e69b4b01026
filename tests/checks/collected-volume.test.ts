import { describe, expect, it } from 'vitest';
import { measureCollectedVolume, type CollectedVolumeInput } from '../../src/checks/collected-volume.ts';
import { VESSELS } from '../../src/checks/vessels.ts';

const CYLINDER = VESSELS[2];
if (!CYLINDER) throw new Error('no cylinder');
const VOLUME = { valueMl: 480, standardUncertaintyMl: 2.723, vessel: CYLINDER };
const THIRTY = { durationSeconds: 30, conditions: [] };

const collect = (change: Partial<CollectedVolumeInput> = {}) =>
  measureCollectedVolume({
    limit: THIRTY,
    volume: VOLUME,
    time: { spanMs: 30_000, standardUncertaintyMs: 200 },
    ...change,
  });
const codes = (problems: readonly { readonly code: string }[]) => problems.map(({ code }) => code);

describe('a volume collected over a time', () => {
  it('in the right time is valid as it stands', () => {
    expect(collect()).toEqual({
      volume: VOLUME,
      seconds: 30,
      secondsUncertainty: 0.2,
      targetSeconds: 30,
      volumeAtTargetMl: null,
      reasons: [],
      warnings: [],
    });
  });

  it('in 32 s is outside ±5 %, and scaled to 30 s is an estimate', () => {
    const collected = collect({ time: { spanMs: 32_000, standardUncertaintyMs: 200 } });
    expect(codes(collected.reasons)).toEqual(['check.time-outside']);
    expect(collected.volumeAtTargetMl).toBe(450);
  });

  it('in 32 s is within a tolerance of 10 % where the sheet gives one', () => {
    const limit = { ...THIRTY, timeTolerancePercent: 10 };
    expect(collect({ limit, time: { spanMs: 32_000, standardUncertaintyMs: 200 } }).reasons).toEqual([]);
  });

  it('outside its time stands with a reason', () => {
    const collected = collect({
      time: { spanMs: 32_000, standardUncertaintyMs: 200 },
      overrides: [{ code: 'check.time-outside', reason: 'hose slipped, time known' }],
    });
    expect(collected.reasons).toEqual([]);
    expect(codes(collected.warnings)).toEqual(['check.time-outside', 'check.overridden']);
    expect(collected.volumeAtTargetMl).toBe(450);
  });

  it.each([null, 0, -5, NaN])('with %s for a time is not valid where the limit asks for one', (spanMs) => {
    const time = spanMs === null ? null : { spanMs, standardUncertaintyMs: 0 };
    const collected = collect({ time });
    expect(codes(collected.reasons)).toEqual(['check.no-time']);
    expect(collected.volumeAtTargetMl).toBeNull();
  });

  it('needs no time where the limit states none', () => {
    const collected = collect({ limit: { durationSeconds: null, conditions: [] }, time: null });
    expect(collected.reasons).toEqual([]);
    expect(collected.targetSeconds).toBeNull();
  });

  it('carries the conditions of its limit', () => {
    const limit = {
      ...THIRTY,
      conditions: [{ signal: 'railPressure', min: 30_000, max: null, outside: 'not valid' } as const],
    };
    expect(codes(collect({ limit, conditions: { railPressure: 25_000 } }).reasons)).toEqual([
      'check.condition-outside',
    ]);
    expect(collect({ limit, conditions: { railPressure: 31_000 } }).reasons).toEqual([]);
  });
});
