import { Procedure } from '../../src/procedures/procedure.ts';

const quiet = (headline: string, causes: readonly string[] = []) => ({
  headline,
  causes: [...causes],
  next: ['Go on.'],
});

interface Wanted {
  readonly id: string;
  readonly station: string;
  readonly needs?: readonly string[];
  readonly low?: readonly string[];
  readonly high?: readonly string[];
  readonly runs?: number;
}

/** A steady-pressure check is the plainest kind with a measurement. */
const check = ({ id, station, needs = [], low = [], high = [], runs = 1 }: Wanted) => ({
  id,
  title: `The ${id} check`,
  purpose: 'Shows something.',
  stations: [station],
  clears: [station],
  needs: [...needs],
  cautions: [{ id: 'hot', text: 'Hot.' }],
  preparations: ['Prepare.'],
  howTo: ['Measure.'],
  settings: {
    kind: 'steady pressure',
    signal: 'supplyPressure',
    speed: null,
    leastSeconds: 5,
    steadyWithinKPa: 50,
    vacuum: false,
  },
  runsNeeded: runs,
  repeatAfter: [station],
  advice: {
    pass: quiet('Passed.'),
    marginal: quiet('Marginal.'),
    'fail low': quiet('Low.', low),
    'fail high': quiet('High.', high),
    'too close to call': quiet('Close.'),
    'not valid': quiet('Not valid.'),
  },
});

const cause = (id: string, station: string, repeat: readonly string[]) => ({
  id,
  station,
  text: `Something at the ${station}: ${id}`,
  look: 'Look.',
  repair: 'Replace it.',
  repeat: [...repeat],
});

/**
 * Four checks and three causes, so that ways can be worked out by hand. Minutes by kind (costs.ts): a steady pressure takes 15, again 5.
 * `suction` needs nothing, `supply` needs `suction`, `relief` needs `supply`, `drive` needs `relief`.
 */
export const SMALL_PROCEDURE: Procedure = Procedure.parse({
  formatVersion: 1,
  id: 'small',
  title: 'Small',
  revision: '1',
  source: 'For tests.',
  complaint: 'Low rail pressure.',
  defersTo: 'The maker.',
  priming: ['Prime.'],
  checks: [
    { id: 'suction', station: 'suction line', high: ['suction-restriction'] },
    { id: 'supply', station: 'supply pump', needs: ['suction'], low: ['weak-supply-pump'], runs: 2 },
    { id: 'relief', station: 'relief valve', needs: ['supply'], high: ['leaking-relief-valve'] },
    { id: 'drive', station: 'rail', needs: ['relief'] },
  ].map(check),
  causes: [
    cause('suction-restriction', 'suction line', ['suction']),
    cause('weak-supply-pump', 'supply pump', ['supply', 'drive']),
    cause('leaking-relief-valve', 'relief valve', ['relief']),
  ],
});
