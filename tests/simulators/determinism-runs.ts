import { createPlayer, stepPlayer, commanded } from '../../simulators/bridge/bench-player.ts';
import { parseScript } from '../../simulators/bridge/bench-script.ts';
import { SCENARIO_BY_ID, type ScenarioId } from '../../simulators/scenarios.ts';

/** Runs with commands of every sort, short enough for a test. */
const RUNS: readonly (readonly [ScenarioId, string])[] = [
  ['healthy', 'on@0 crank@0.5 on@4 off@5'],
  ['worn', 'on@0 crank@0.5 empty@1 on@4'],
  ['weak-battery', 'on@0 crank@0.5 replace-battery@2 on@4'],
  ['leaking-pump', 'on@0 crank@0.5 on@2.5 raise-rail@3 line-pump-return@3 lower-rail@4 high-idle@4 load@5'],
  ['sound-engine', 'on@0 replace-high-pressure-pump@0 prime@0 crank@0.5 on@2.5 load@3'],
];

/** One line for each run: scenario, number of bytes, and their FNV-1a hash (32 bits; from memory, it only has to tell runs apart). */
export const hashedRuns = (): readonly string[] =>
  RUNS.map(([id, keys]) => {
    const script = parseScript(keys);
    if ('mistake' in script) throw new TypeError(script.mistake);
    const scenario = { ...SCENARIO_BY_ID[id], noise: { corruptPerByte: 0.001, dropPerByte: 0.001 } };
    const player = createPlayer({ scenario, seed: 5, script, repeats: false, busCode: '5' });
    const { toHost } = stepPlayer(commanded(player, 'Z1\rS5\rL\r'), null, 6000);
    let [hash, count] = [0x811c9dc5, 0];
    for (const bytes of toHost)
      for (const byte of bytes) {
        hash = Math.imul(hash ^ byte, 0x01000193) >>> 0;
        count += 1;
      }
    return `${id} ${count} ${hash.toString(16).padStart(8, '0')}`;
  });
