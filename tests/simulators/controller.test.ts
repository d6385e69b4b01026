import { describe, expect, test } from 'vitest';
import { SOUND_ENGINE } from '../../simulators/engine/engine-parameters.ts';
import { restingEngine, stepEngine } from '../../simulators/engine/engine.ts';
import { stepController, wakingController } from '../../simulators/engine/controller.ts';
import { between, crankOnce, DT_SECONDS, LEFT_OPEN, meanOf, rpmOf } from './engine-runs.ts';

const FIRES = { ...SOUND_ENGINE, firing: { ...SOUND_ENGINE.firing, afterTurns: 6 } };
const crankingAt = (frictionNm: number) =>
  crankOnce({ ...SOUND_ENGINE, crankshaft: { ...SOUND_ENGINE.crankshaft, frictionNm } }, 6, 3);

/** Lengths of the runs of one value, s, without the first and last. */
function holds(instants: ReturnType<typeof crankOnce>): { rpm: number; seconds: number }[] {
  const runs: { rpm: number; seconds: number }[] = [];
  for (const { controller } of instants) {
    const last = runs.at(-1);
    if (last?.rpm === controller.speedRpm) last.seconds += DT_SECONDS;
    else runs.push({ rpm: controller.speedRpm, seconds: DT_SECONDS });
  }
  return runs.slice(1, -1);
}

describe('the speed that the controller reports', () => {
  test.each([1, 2, 3, 4, 5, 6, 7, 8])(
    'is 0 until it has found its place 1.2 to 2.4 turns late, then steps to cranking speed (seed %d; truck A recording)',
    (seed) => {
      const run = crankOnce(SOUND_ENGINE, 4, 0, seed);
      const first = run.find(({ controller }) => controller.speedRpm > 0)!;
      const turns = first.engine.crankshaft.angleRad / (2 * Math.PI);
      expect(turns).toBeGreaterThan(1.2);
      expect(turns).toBeLessThan(2.4);
      expect(first.controller.speedRpm).toBeGreaterThan(100);
    },
  );

  test('comes later for some seeds than for others', () => {
    const firsts = [1, 2, 3, 4, 5, 6].map(
      (seed) =>
        crankOnce(SOUND_ENGINE, 2, 0, seed).find(({ controller }) => controller.speedRpm > 0)!.seconds,
    );
    expect(new Set(firsts).size).toBeGreaterThan(1);
  });

  test('is held 120 degrees long: 0.16 to 0.2 s near 117 rpm (truck A recording)', () => {
    const slow = between(crankingAt(290), 2, 6);
    const mean = meanOf(slow.map(({ engine }) => rpmOf(engine)));
    expect(mean).toBeGreaterThan(110);
    expect(mean).toBeLessThan(125);
    for (const { seconds } of holds(slow)) {
      expect(seconds).toBeGreaterThan(0.16);
      expect(seconds).toBeLessThan(0.2);
    }
  });

  test('has the mean of the true speed over whole turns', () => {
    const run = between(crankOnce(SOUND_ENGINE, 8, 0), 3, 8);
    const reported = meanOf(run.map(({ controller }) => controller.speedRpm));
    expect(reported).toBeCloseTo(meanOf(run.map(({ engine }) => rpmOf(engine))), 0);
  });

  test('stands at its last value after the engine has stopped, then falls to 0 within 1.02 s (truck A run-down)', () => {
    const run = crankOnce(SOUND_ENGINE, 5, 3);
    const stopped = run.find(({ seconds, engine }) => seconds > 5 && rpmOf(engine) === 0)!.seconds;
    const zero = run.find(({ seconds, controller }) => seconds > 5 && controller.speedRpm === 0)!.seconds;
    expect(zero).toBeGreaterThan(stopped);
    expect(zero - stopped).toBeLessThan(1.02);
  });

  test('stays 0 with the key on and nothing turning', () => {
    expect(crankOnce(SOUND_ENGINE, 0, 3).every(({ controller }) => controller.speedRpm === 0)).toBe(true);
  });
});

describe('an engine that fires', () => {
  const run = crankOnce(FIRES, 2.5, 6);
  const firing = run.find(({ engine }) => engine.firing.running)!;

  test('fires after so many turns, with rail pressure', () => {
    expect(firing.engine.crankshaft.angleRad / (2 * Math.PI)).toBeGreaterThanOrEqual(6);
    expect(firing.engine.fuel.railPa).toBeGreaterThan(15e6);
  });

  test('runs up past 400 rpm in 0.2 to 0.6 s (truck A: 121 rpm at 42.604 s, 420 at 42.933 s)', () => {
    const up = run.find(({ engine }) => rpmOf(engine) > 400)!;
    expect(up.seconds - firing.seconds).toBeGreaterThan(0.2);
    expect(up.seconds - firing.seconds).toBeLessThan(0.6);
  });

  test('overshoots a little and settles near 700 rpm (truck A: 770.5, then 697 to 702)', () => {
    const top = Math.max(...run.map(({ engine }) => rpmOf(engine)));
    expect(top).toBeGreaterThan(705);
    expect(top).toBeLessThan(800);
    const idle = meanOf(between(run, 6, 8).map(({ engine }) => rpmOf(engine)));
    expect(idle).toBeGreaterThan(680);
    expect(idle).toBeLessThan(720);
  });

  test('charges its battery at 13.9 V (truck A: 13.90 at most)', () => {
    expect(run.at(-1)!.engine.batteryV).toBe(13.9);
  });

  test('burns fuel, and stops when the key is turned off, rolling down through 400 to 50 rpm', () => {
    let { engine, controller } = run.at(-1)!;
    expect(engine.fuel.mass.burnt).toBeGreaterThan(0);
    const seen: number[] = [];
    for (let step = 0; step < 4 / DT_SECONDS; step += 1) {
      engine = stepEngine(engine, { keyOn: false, starterOn: false }, DT_SECONDS);
      controller = stepController(controller, engine, DT_SECONDS);
      seen.push(controller.speedRpm);
    }
    expect(engine.firing.running).toBe(false);
    expect(seen.some((rpm) => rpm > 50 && rpm < 400)).toBe(true);
    expect(seen.at(-1)).toBe(0);
    const speeds = seen.filter((rpm, i) => i === 0 || rpm !== seen[i - 1]);
    expect(speeds.length).toBeGreaterThan(8); // many values on the way down, not a step
  });

  test('does not fire where injection is blocked', () => {
    expect(crankOnce(SOUND_ENGINE, 15, 0).some(({ engine }) => engine.firing.running)).toBe(false);
  });

  test('counts its turns anew in each crank', () => {
    let engine = restingEngine(FIRES, LEFT_OPEN);
    let controller = wakingController(1);
    const turn = (starterOn: boolean, seconds: number) => {
      for (let step = 0; step < seconds / DT_SECONDS; step += 1) {
        engine = stepEngine(engine, { keyOn: true, starterOn }, DT_SECONDS);
        controller = stepController(controller, engine, DT_SECONDS);
      }
    };
    for (let tap = 0; tap < 4; tap += 1) {
      turn(true, 1);
      turn(false, 2);
    }
    expect(engine.crankshaft.angleRad / (2 * Math.PI)).toBeGreaterThan(6);
    expect(engine.firing.running).toBe(false);
  });
});
