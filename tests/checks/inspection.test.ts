import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { InspectionSettings } from '../../src/checks/check-settings.ts';
import { inspect, type Observation } from '../../src/checks/inspection.ts';
import { codesOf } from './example-signals.ts';

type WhenNot = InspectionSettings['points'][number]['whenNot'];
const point = (id: string, whenNot: WhenNot, cause: string | null = `${id}-cause`) => ({
  id,
  ask: `Is the ${id} in order?`,
  look: 'Look.',
  whenNot,
  cause,
});
const SETTINGS: InspectionSettings = {
  kind: 'inspection',
  points: [point('level', 'marginal'), point('water', 'fail low'), point('return', 'fail high')],
};
const saw = (seen: Observation['seen'], note = ''): Observation => ({ seen, note, photoIds: [] });
const seen = (each: Readonly<Record<string, Observation>>, settings = SETTINGS) =>
  inspect(settings, new Map(Object.entries(each)));
const GOOD = { level: saw('in order'), water: saw('in order'), return: saw('in order') };

describe('an inspection', () => {
  it('passes where all points are in order', () => {
    expect(seen(GOOD)).toMatchObject({ word: 'pass', causes: [], reasons: [], warnings: [] });
  });

  it.each([
    ['level', 'marginal'],
    ['water', 'fail low'],
    ['return', 'fail high'],
  ])('takes the word of the point %s where only that is not in order: %s', (id, word) => {
    const found = seen({ ...GOOD, [id]: saw('not in order', 'see photo') });
    expect(found).toMatchObject({ word, causes: [`${id}-cause`] });
    expect(found.warnings).toEqual([
      {
        code: 'check.point-not-in-order',
        context: { point: `Is the ${id} in order?`, note: 'see photo' },
      },
    ]);
  });

  it('takes a failure before a marginal point, and of two failures the first', () => {
    const bad = saw('not in order');
    expect(seen({ ...GOOD, level: bad, return: bad }).word).toBe('fail high');
    expect(seen({ level: bad, water: bad, return: bad }).word).toBe('fail low');
  });

  it('has no word while points are open, and names them; what is known stands all the same', () => {
    const found = seen({ water: saw('not in order'), return: saw('not looked at') });
    expect(found).toMatchObject({ word: null, causes: ['water-cause'] });
    expect(found.reasons).toEqual([
      {
        code: 'check.points-open',
        context: { number: 2, points: 'Is the level in order? Is the return in order?' },
      },
    ]);
    expect(found.points.map((each) => each.seen)).toEqual(['not looked at', 'not in order', 'not looked at']);
  });

  it('names each cause once, and none for a point without one', () => {
    const points = [
      point('a', 'fail low', 'air'),
      point('b', 'fail low', 'air'),
      point('c', 'marginal', null),
    ];
    const bad = saw('not in order');
    expect(seen({ a: bad, b: bad, c: bad }, { kind: 'inspection', points }).causes).toEqual(['air']);
  });

  it('keeps note and photographs with the point, and leaves out points that are none', () => {
    const noted = { seen: 'in order', note: 'clear', photoIds: ['p1'] } as const;
    const found = seen({ ...GOOD, level: noted, elsewhere: saw('not in order') });
    expect(found.points[0]).toMatchObject({ note: 'clear', photoIds: ['p1'] });
    expect(found.points).toHaveLength(3);
    expect(found.word).toBe('pass');
  });

  it('never gets better by one more point that is not in order', () => {
    const rank = { pass: 0, marginal: 1, 'fail low': 2, 'fail high': 2 } as const;
    const what = fc.constantFrom<Observation['seen']>('in order', 'not in order');
    fc.assert(
      fc.property(what, what, what, fc.constantFrom('level', 'water', 'return'), (a, b, c, worse) => {
        const before = seen({ level: saw(a), water: saw(b), return: saw(c) });
        const each = { level: saw(a), water: saw(b), return: saw(c), [worse]: saw('not in order') };
        const after = seen(each);
        expect(rank[after.word!]).toBeGreaterThanOrEqual(rank[before.word!]);
        expect(codesOf(after.warnings).length).toBeGreaterThanOrEqual(before.warnings.length);
      }),
    );
  });
});
