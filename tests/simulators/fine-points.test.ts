import { describe, expect, test } from 'vitest';
import { createBench, stepBench } from '../../simulators/bench.ts';
import { stepController, wakingController } from '../../simulators/engine/controller.ts';
import { SOUND_ENGINE } from '../../simulators/engine/engine-parameters.ts';
import { restingEngine } from '../../simulators/engine/engine.ts';
import { pumpVolumes } from '../../simulators/engine/pump.ts';
import { SCENARIO_BY_ID } from '../../simulators/scenarios.ts';
import { bytesOf, HANDSHAKE, playBench, readLines, speedsOf, textOf } from './bench-runs.ts';

const healthy = SCENARIO_BY_ID.healthy;

describe('the speed that the controller reports', () => {
  test.each([60, 180, 700])('of a shaft that turns evenly at %d rpm is just that', (rpm) => {
    const engine = restingEngine(SOUND_ENGINE);
    let controller = wakingController(1);
    const revolutionsAStep = (rpm / 60) * 0.002;
    for (let step = 1; step < 3000; step += 1) {
      const angleRad = 2 * Math.PI * revolutionsAStep * step;
      controller = stepController(
        controller,
        { ...engine, crankshaft: { ...engine.crankshaft, travelRad: angleRad } },
        0.002,
      );
    }
    expect(controller.speedRpm).toBeCloseTo(rpm, 6);
  });
});

describe('the dead volume of the pump', () => {
  test('swallows its share of the compressed fuel on every turn', () => {
    const { pump, rail } = SOUND_ENGINE;
    const stiffness = { bulkModulusPa: 1e9, stiffeningPa: Infinity };
    const engine = { ...SOUND_ENGINE, rail: { ...rail, stiffness } };
    const drawn = (railPa: number) =>
      pumpVolumes(engine, {
        fromRad: 0,
        toRad: 2 * Math.PI,
        dtSeconds: 1,
        galleryPa: pump.halfFillPa,
        air: 0,
        opening: 1e6, // no resistance
        railPa,
        viscosityPaS: 0.003,
      }).drawnM3;
    // one turn a second, filled by half; 10 MPa is 1 % of the modulus, so 1 % of the dead volume is not refilled
    expect(drawn(0)).toBeCloseTo(pump.displacementM3 * 0.5, 15);
    expect(drawn(1e7)).toBeCloseTo(pump.displacementM3 * (0.5 - 0.01 * pump.deadRatio), 15);
  });
});

describe('time at the bench', () => {
  const inputs = { keyOn: true, starterOn: false, fromHost: null };

  test('ten times 0.2 ms are one tick, although they add up to a little less', () => {
    let bench = createBench(healthy, 1);
    for (let piece = 0; piece < 10; piece += 1) bench = stepBench(bench, inputs, 0.2).state;
    expect(bench.timeMs).toBe(2);
  });

  test('a span below zero is no time, and is not made up for later', () => {
    const back = stepBench(createBench(healthy, 1), { ...inputs, fromHost: bytesOf(HANDSHAKE) }, -500);
    expect(back.state).toMatchObject({ timeMs: 0, pendingMs: 0 });
    const after = stepBench(back.state, inputs, 100);
    expect(after.state.timeMs).toBe(100);
    expect(textOf(after.toHost)).toContain('T0CF00400');
    const waiting = stepBench(createBench(healthy, 1), inputs, 1.5).state;
    expect(stepBench(waiting, inputs, -1).state.pendingMs).toBe(1.5);
  });

  test('controllers stay awake for 2 s from when the speed is gone, not from when the key is turned', () => {
    const acts = [
      { untilMs: 3000, keyOn: true, starterOn: true },
      { untilMs: 9000, keyOn: false, starterOn: false },
    ];
    const speeds = speedsOf(readLines(playBench(healthy, acts).text));
    const lastTurning = speeds.filter(({ rpm }) => rpm > 0).at(-1)!.timeMs;
    expect(lastTurning).toBeGreaterThan(3300);
    const silentFrom = speeds.at(-1)!.timeMs;
    expect(silentFrom - lastTurning).toBeGreaterThan(1980);
    expect(silentFrom - lastTurning).toBeLessThan(2020);
  });
});
