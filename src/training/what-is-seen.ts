import type { Defect, DefectKind } from '../../simulators/engine/defects.ts';
import type { ProcedureCheck } from '../procedures/procedure.ts';

/** What somebody who looks at one point of an inspection sees on the simulated engine. It is told in words; whether that is in order is for the trainee to say. */
export interface Sight {
  readonly point: string;
  readonly ask: string;
  readonly words: string;
  /** For the reckoning at the end only. */
  readonly outOfOrder: boolean;
}

interface Wrong {
  readonly kind: DefectKind;
  /** From this severity on it can be seen. */
  readonly from: number;
  readonly words: string;
}
interface Sights {
  readonly ordinary: string;
  readonly wrong?: readonly Wrong[];
}

/** By check and point of the shipped procedure. Invented: the bench has no eyes. What the bench does not hold (level, age, water) is always in order. */
const SIGHTS: Readonly<Record<string, Sights>> = {
  'fuel-quality/level': { ordinary: 'The dipstick is wet to two thirds.' },
  'fuel-quality/age': {
    ordinary: 'The last receipt is four days old, from a busy station; the grade fits the season.',
  },
  'fuel-quality/smell': { ordinary: 'It smells of diesel fuel.' },
  'fuel-quality/water': {
    ordinary: 'The sample stands clear down to the bottom; the paste keeps its colour.',
  },
  'fuel-quality/contamination': { ordinary: 'Nothing settles and nothing glitters.' },
  'fuel-quality/vent': { ordinary: 'The cap comes off without a rush of air.' },
  'filters/indicator': {
    ordinary: 'At high idle the red band stays out of sight.',
    wrong: [{ kind: 'clogged filter', from: 0.7, words: 'At high idle the band goes into the red.' }],
  },
  'filters/age': {
    ordinary: 'The date on the housing lies well within the interval.',
    wrong: [{ kind: 'clogged filter', from: 0.6, words: 'The date on the housing is two intervals ago.' }],
  },
  'filters/pressure-filter': {
    ordinary: 'Within its interval; the element is light.',
    wrong: [
      {
        kind: 'clogged filter',
        from: 0.65,
        words: 'It carries the same old date, and its element is black.',
      },
    ],
  },
  'filters/element': {
    ordinary: 'Evenly light brown, pleats straight, the type that the label asks for.',
    wrong: [{ kind: 'clogged filter', from: 0.4, words: 'Black and slimy; two pleats are drawn together.' }],
  },
  'filters/water': { ordinary: 'Only fuel comes out of the drain.' },
  'filters/debris': { ordinary: 'The bowl is clean.' },
  'filters/seals': { ordinary: 'Housings are dry; the seals lie flat.' },
  'air-in-fuel/bubbles': {
    ordinary: 'After half a minute the hose runs clear.',
    wrong: [{ kind: 'air leak', from: 0.3, words: 'Small bubbles keep coming, in a string.' }],
  },
  'air-in-fuel/level-in-bends': { ordinary: 'Raising or lowering the level changes nothing in the hose.' },
  'air-in-fuel/connections': {
    ordinary: 'Every coupling sits tight; no damp spot.',
    wrong: [
      { kind: 'air leak', from: 0.7, words: 'One coupling turns by hand, and dust sticks to it in a ring.' },
    ],
  },
  'air-in-fuel/drain-back': {
    ordinary: 'After ten minutes the fuel stands where it stood.',
    wrong: [
      { kind: 'air leak', from: 0.55, words: 'Within a minute the fuel has gone back out of the hose.' },
    ],
  },
};

const NOTHING: Sights = { ordinary: 'Nothing catches the eye.' };

/** What is to be seen at each point of an inspection, with these things wrong; empty for other kinds of check. */
export function sightsOf(
  { id, settings }: Pick<ProcedureCheck, 'id' | 'settings'>,
  defects: readonly Defect[],
): readonly Sight[] {
  if (settings.kind !== 'inspection') return [];
  return settings.points.map((point) => {
    const place = `${id}/${point.id}`;
    const { ordinary, wrong = [] } = Object.hasOwn(SIGHTS, place) ? SIGHTS[place]! : NOTHING;
    const seen = wrong.find(({ kind, from }) =>
      defects.some((defect) => defect.kind === kind && defect.severity >= from),
    );
    return {
      point: point.id,
      ask: point.ask,
      words: seen?.words ?? ordinary,
      outOfOrder: seen !== undefined,
    };
  });
}
