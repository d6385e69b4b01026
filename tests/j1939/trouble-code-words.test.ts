import { describe, expect, test } from 'vitest';
import { FMI_TEXTS, fmiText, severityOf } from '../../src/j1939/fmi-texts.ts';
import { LAMP_NAMES, lampText, litLamps } from '../../src/j1939/lamp-words.ts';
import { lowRailPressure, pressureFinding } from '../../src/j1939/low-rail-pressure.ts';
import { describeCode, SPN_WORDS, spnWords } from '../../src/j1939/trouble-code-words.ts';
import { SPN_TABLE } from '../../src/j1939/spn-table.ts';
import type { TroubleCode } from '../../src/j1939/trouble-codes.ts';

const code = (spn: number, fmi: number, more: Partial<TroubleCode> = {}): TroubleCode => ({
  spn,
  fmi,
  occurrences: 1,
  otherSpns: [],
  ...more,
});

describe('failure modes', () => {
  test('all 32 have words; 22 to 30 are reserved', () => {
    expect(FMI_TEXTS).toHaveLength(32);
    const reserved = FMI_TEXTS.flatMap((text, fmi) => (text.startsWith('reserved') ? [fmi] : []));
    expect(reserved).toEqual([22, 23, 24, 25, 26, 27, 28, 29, 30]);
    expect(new Set(FMI_TEXTS).size).toBe(32 - 8);
  });

  // Meanings: j1939.md, "FMI" (DA and OS agree).
  test.each([
    [0, /above normal.*most severe/],
    [1, /below normal.*most severe/],
    [2, /erratic/],
    [3, /voltage too high/],
    [4, /voltage too low/],
    [5, /open/],
    [6, /ground/],
    [7, /mechanical/],
    [8, /frequency/],
    [9, /message comes/],
    [10, /changes/],
    [11, /not known/],
    [12, /bad/],
    [13, /calibration/],
    [14, /special instructions/],
    [15, /above normal.*least severe/],
    [16, /above normal.*moderately severe/],
    [17, /below normal.*least severe/],
    [18, /below normal.*moderately severe/],
    [19, /network/],
    [20, /drifted high/],
    [21, /drifted low/],
    [31, /condition exists/],
  ])('%i says %s', (fmi, words) => expect(fmiText(fmi)).toMatch(words));

  test.each([-1, 32, 1.5, NaN])('%d is said to be none', (fmi) =>
    expect(fmiText(fmi)).toMatch(/not a failure mode/),
  );

  test('grade a value in seven cases only: three high, three low, and nothing else', () => {
    const graded = FMI_TEXTS.flatMap((_, fmi) => {
      const severity = severityOf(fmi);
      return severity ? [[fmi, severity.side, severity.words]] : [];
    });
    expect(graded).toEqual([
      [0, 'high', 'most severe'],
      [1, 'low', 'most severe'],
      [15, 'high', 'least severe'],
      [16, 'high', 'moderately severe'],
      [17, 'low', 'least severe'],
      [18, 'low', 'moderately severe'],
    ]);
    for (const [fmi, , words] of graded) expect(fmiText(Number(fmi))).toContain(words);
  });
});

describe('lamps in words', () => {
  const dark = { malfunction: 'off', redStop: 'notAvailable', amberWarning: 'off', protect: 'off' } as const;

  test('are those that are lit, the red one first', () => {
    expect(litLamps(dark)).toEqual([]);
    expect(litLamps({ ...dark, amberWarning: 'on', redStop: 'fast flash', protect: 'slow flash' })).toEqual([
      'red stop lamp flashing fast (twice a second or more)',
      'amber warning lamp on',
      'protect lamp flashing slowly (once a second)',
    ]);
  });

  test('have a name each and a word for every state', () => {
    expect(LAMP_NAMES.map(([lamp]) => lamp).sort()).toEqual(Object.keys(dark).sort());
    const words = (['off', 'on', 'slow flash', 'fast flash', 'notAvailable'] as const).map(lampText);
    expect(new Set(words).size).toBe(5);
    expect(lampText('notAvailable')).toMatch(/not driven/);
  });
});

describe('suspect parameters in words', () => {
  test.each([
    [157, /rail pressure/],
    [1349, /rail 2/],
    [5313, /commanded/],
    [164, /injection control/],
    [94, /supply/],
    [95, /filter/],
    [96, /level/],
    [97, /water/],
    [16, /suction/],
    [1382, /suction/],
    [651, /injector, cylinder 1/],
    [656, /injector, cylinder 6/],
    [190, /engine speed/],
    [637, /timing/],
  ])('%i is %s', (spn, words) => expect(spnWords(spn)).toMatch(words));

  test('name their source; what no source of the reference holds says that it is from memory', () => {
    const from = (source: string) =>
      [...SPN_WORDS].filter(([, each]) => each.source === source).map(([spn]) => spn);
    expect(from('from memory')).toEqual([652, 653, 654, 655, 656, 1347, 1348]);
    for (const { source, words } of SPN_WORDS.values()) {
      expect(source).toMatch(/^([A-Z]{2}( [A-Z]{2})*|from memory)$/);
      expect(words).toMatch(/^[a-z]/);
    }
  });

  test('do not call the measured injection control pressure the commanded rail pressure (j1939.md, disagreement 1)', () => {
    expect(spnWords(164)).not.toMatch(/commanded|rail/);
  });

  test('cover what the pipeline reads as pressure', () => {
    for (const { spn, unit } of SPN_TABLE) if (unit === 'MPa') expect(spnWords(spn)).not.toBeNull();
  });
});

describe('a code in words', () => {
  test('says what, how and how often', () => {
    expect(describeCode(code(157, 18, { occurrences: 3 }))).toEqual({
      what: 'fuel rail pressure',
      how: 'below normal (moderately severe)',
      count: '3 times',
      doubt: null,
    });
    expect(describeCode(code(157, 18)).count).toBe('once');
    expect(describeCode(code(157, 18, { occurrences: null })).count).toBeNull();
  });

  test('gives the number where it has no words', () =>
    expect(describeCode(code(4765, 2)).what).toBe('SPN 4765'));

  test('shows the doubt of an older packing with every reading', () => {
    const { doubt } = describeCode(code(1208, 3, { otherSpns: [376_864, 157], olderPacking: true }));
    expect(doubt).toMatch(/SPN 1208, or 376864, or 157 \(fuel rail pressure\)\.$/);
  });
});

describe('low rail pressure', () => {
  test.each([
    [157, 1, 'low rail', 'most severe'],
    [157, 17, 'low rail', 'least severe'],
    [157, 18, 'low rail', 'moderately severe'],
    [1349, 18, 'low rail', 'moderately severe'],
    [6589, 1, 'low rail', 'most severe'],
    [164, 17, 'low rail', 'least severe'],
    [94, 18, 'low supply', 'moderately severe'],
    [94, 1, 'low supply', 'most severe'],
    [5578, 17, 'low supply', 'least severe'],
    [1381, 1, 'low supply', 'most severe'],
  ])('SPN %i with FMI %i is %s, %s', (spn, fmi, finding, severity) => {
    const found = pressureFinding(code(spn, fmi))!;
    expect([found.finding, found.spn, found.doubtful]).toEqual([finding, spn, false]);
    expect(found.words).toContain(`is low (${severity})`);
  });

  test.each([
    [157, 3],
    [157, 4],
    [157, 5],
    [157, 6],
    [94, 3],
    [94, 4],
  ])('SPN %i with FMI %i is the sensor circuit, not the pressure', (spn, fmi) => {
    expect(pressureFinding(code(spn, fmi))!.finding).toBe('circuit');
    expect(lowRailPressure(code(spn, fmi))).toMatch(/the sensor circuit, not the pressure/);
  });

  test.each([
    [20, 'high'],
    [21, 'low'],
  ])('SPN 157 with FMI %i is a reading that drifted %s: the sensor first', (fmi, way) => {
    const found = pressureFinding(code(157, fmi))!;
    expect(found.finding).toBe('drift');
    expect(found.words).toMatch(new RegExp(`drifted ${way}.*sensor`));
  });

  test.each([0, 2, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 19, 22, 30, 31])(
    'SPN 157 with FMI %i is none of these',
    (fmi) => {
      expect(lowRailPressure(code(157, fmi))).toBeNull();
    },
  );

  test.each([100, 110, 190, 5313, 651, 95])('SPN %i with FMI 1 is about something else', (spn) => {
    expect(lowRailPressure(code(spn, 1))).toBeNull();
  });

  test('is said with its doubt where only an older packing reads as rail pressure', () => {
    const found = pressureFinding(code(9000, 18, { otherSpns: [157, 70_000], olderPacking: true }))!;
    expect([found.finding, found.spn, found.doubtful]).toEqual(['low rail', 157, true]);
    expect(found.words).toMatch(/moderately severe.*older way.*may be about something else/);
  });
});
