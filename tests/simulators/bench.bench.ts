import { bench, describe } from 'vitest';
import { createBench, stepBench } from '../../simulators/bench.ts';
import { JOB_SCENARIOS, SCENARIOS } from '../../simulators/scenarios.ts';
import { bytesOf, HANDSHAKE } from './bench-runs.ts';

/** One iteration simulates this much; 200 times real time (issue 6) means at most 50 ms, or 20 iterations a second. */
const SIMULATED_MS = 10_000;

describe('ten simulated seconds, cranking and broadcasting, in steps of 20 ms', () => {
  for (const scenario of [...SCENARIOS, ...JOB_SCENARIOS]) {
    bench(
      scenario.id,
      () => {
        let state = createBench(scenario, 1);
        let fromHost: Uint8Array | null = bytesOf(HANDSHAKE);
        let bytes = 0;
        while (state.timeMs < SIMULATED_MS) {
          const step = stepBench(state, { keyOn: true, starterOn: state.timeMs > 1000, fromHost }, 20);
          state = step.state;
          bytes += step.toHost.length;
          fromHost = null;
        }
        if (bytes < 20_000) throw new Error('the bridge said nothing');
      },
      { warmupIterations: 30 },
    );
  }
});
