import { describe, expect, test } from 'vitest';
import { dateOrderOf, guessTimeColumn, guessTimeKind, type TimeGuess } from '../../src/logs/time-column.ts';
import { planTime } from '../../src/logs/plan-time.ts';
import { profileOf, profilesOf } from './log-profiles.ts';

/** The guess for one column, as [kind, needs]; null where it is not time. */
function kindOf(
  header: string,
  cells: readonly (string | number)[],
): readonly [string, readonly string[]] | null {
  const { column, kind, needs } = guessTimeColumn([profileOf(header, cells)]);
  return column === null ? null : [kind, needs];
}
const count = (rows: number, make: (i: number) => string | number) => Array.from({ length: rows }, (_, i) => make(i)); // prettier-ignore
const guess = (text: string): TimeGuess => guessTimeColumn(profilesOf(text));

describe('how a column of time is written', () => {
  test.each<[string, string, readonly (string | number)[], string]>([
    ['seconds by their unit', 'Time (s)', [0, 1, 2, 3], 'seconds'],
    ['milliseconds by their unit', 'Time (ms)', [0, 1, 2, 3], 'milliseconds'],
    ['minutes by their unit', 'Time (min)', [0, 0.5, 1, 1.5], 'minutes'],
    ['seconds by a word', 'Elapsed seconds', [0, 1, 2, 3], 'seconds'],
    ['milliseconds by a word', 'millis', [0, 500, 1000], 'milliseconds'],
    ['seconds by their fractions', 'Time', ['0.0', '0.5', '1.0'], 'seconds'],
    ['milliseconds by the size of their steps', 'Time', [0, 500, 1000, 1500], 'milliseconds'],
    ['seconds that repeat', 'Time', [0, 0, 1, 1, 2, 2, 3, 3], 'seconds'],
    ['clock times', 'anything', ['10:00:00', '10:00:01', '10:00:02'], 'clock'],
    ['clock times with AM and PM', 'x', ['11:59:59 AM', '12:00:00 PM', '12:00:01 PM'], 'clock'],
    ['minutes and seconds with a fraction', 'x', ['00:00.0', '00:00.5', '00:01.0'], 'minuteSecond'],
    ['minutes and seconds beyond the hour', 'x', ['1000:00', '1000:01', '1000:02'], 'minuteSecond'],
    ['minutes and seconds where few rows share one', 'x', ['00:00', '00:01', '00:02'], 'minuteSecond'],
    ['dates with a time', 'x', ['2024-03-12 10:00:00', '2024-03-12 10:00:01'], 'dateTime'],
    ['dates with the month first', 'x', ['03/31/2024 10:00:00', '03/31/2024 10:00:01'], 'dateTime'],
    ['Unix seconds', 'time', [1710237600, 1710237601, 1710237602], 'unixSeconds'],
    ['Unix milliseconds', 'time', [1710237600000, 1710237600500, 1710237601000], 'unixMilliseconds'],
    ['days of a spreadsheet', 'Time', ['45363.416667', '45363.416673', '45363.416678'], 'excelDay'],
    ['parts of a day', 'Time', ['0.416667', '0.416673', '0.416678'], 'excelDay'],
  ])('%s', (_, header, cells, kind) => expect(kindOf(header, cells)).toEqual([kind, []]));

  test('clock times to the minute are minutes of a clock where many rows share them', () => {
    expect(
      guessTimeKind(
        profileOf(
          'Time',
          count(60, (i) => `12:0${Math.floor(i / 20)}`),
        ),
      ),
    ).toBe('clock');
  });

  test('small whole steps under a name of time ask for the unit', () => {
    expect(kindOf('Time', [1, 2, 3, 4])).toEqual(['seconds', ['timeUnit']]);
    expect(kindOf('Time', [0, 5, 10, 15])).toEqual(['milliseconds', ['timeUnit']]);
  });

  test('fractions in long steps ask for the unit', () => {
    expect(kindOf('Time', ['0.5', '3.5', '6.5', '9.5'])).toEqual(['seconds', ['timeUnit']]);
  });

  test('no header: fractions in short steps, and even steps of ten or more', () => {
    expect(kindOf('', ['0.0', '0.5', '1.0'])).toEqual(['seconds', []]);
    expect(kindOf('', [0, 500, 1000, 1500])).toEqual(['milliseconds', []]);
    expect(kindOf('', [0, 17, 400, 1500, 1510])).toBeNull(); // uneven
  });

  test('a tenth of the steps may fall or stand, more may not', () => {
    expect(kindOf('Time (s)', ['0', '0.5', '1', '0', '0.5', '1'])).toEqual(['seconds', []]);
    expect(kindOf('Time (s)', ['0', '0.5', '0', '0.5', '0', '0.5'])).toBeNull();
    expect(kindOf('Time (s)', ['3', '3', '3'])).toBeNull();
  });

  test.each([
    ['a row number', 'No.', [1, 2, 3, 4]],
    ['a sample number in tens', 'Sample', [10, 20, 30, 40]],
    ['engine hours', 'Engine hours', ['1200.1', '1200.2', '1200.3']],
    ['an injection time', 'Injection time (ms)', ['1.0', '1.5', '2.0']],
    ['a speed that rises', 'Engine speed', [100, 120, 140]],
    ['words', 'Time', ['soon', 'later', 'never']],
    ['one cell', 'Time (s)', ['0.5']],
    ['no cell', 'Time (s)', []],
    ['dates without a time', 'Date', ['2024-03-12', '2024-03-13']],
  ])('%s is no time', (_, header, cells) => expect(kindOf(header, cells)).toBeNull());
});

describe('which column is the time', () => {
  test('the clock, not the row number beside it', () => {
    expect(guess('No.;Time;RPM\n1;10:00:00;1\n2;10:00:01;2\n3;10:00:02;3\n').column).toBe(1);
  });

  test('the one with the finest stamps', () => {
    const text = 'Time;Elapsed (s);RPM\n10:00:00;0.0;1\n10:00:00;0.5;2\n10:00:01;1.0;3\n10:00:01;1.5;4\n';
    expect(guess(text)).toMatchObject({ column: 1, kind: 'seconds' });
  });

  test('not the one to the minute where another is finer', () => {
    const text = 'Date;t (s);RPM\n12.03.2024 10:00;0.0;1\n12.03.2024 10:00;0.5;2\n12.03.2024 10:00;1.0;3\n';
    expect(guess(text)).toMatchObject({ column: 1, needs: [] });
  });

  test('stamps to the minute alone: the interval is asked for, and the note says why', () => {
    const { column, needs, notes } = guess('Date;RPM\n12.03.2024 10:00;1\n12.03.2024 10:00;2\n12.03.2024 10:00;3\n'); // prettier-ignore
    expect([column, needs]).toEqual([null, ['interval']]);
    expect(notes).toMatchObject([{ code: 'log.coarse-time', context: { column: 'Date' } }]);
  });

  test('stamps to the minute of one row a minute are time', () => {
    expect(kindOf('Date', ['12.03.2024 10:00', '12.03.2024 10:01', '12.03.2024 10:02'])?.[0]).toBe('dateTime'); // prettier-ignore
  });

  test('a bare 1, 2, 3: asked whether it is time', () => {
    const { column, needs, notes } = guess('1;140\n2;146\n3;150\n4;149\n');
    expect([column, needs]).toEqual([null, ['interval']]);
    expect(notes).toMatchObject([{ code: 'log.which-time', context: { column: 'column 1' } }]);
  });

  test('none without candidates, and no note', () => {
    expect(guess('RPM;Load\n140;20\n146;21\n141;20\n')).toMatchObject({ column: null, needs: ['interval'], notes: [] }); // prettier-ignore
  });
});

describe('day or month first', () => {
  test.each([
    ['year first', ['2024-03-12 10:00:00'], 'yearFirst'],
    ['a day above twelve in front', ['13/03/2024 10:00:00'], 'dayFirst'],
    ['a day above twelve behind', ['03/13/2024 10:00:00'], 'monthFirst'],
    ['over midnight in the same month', ['03/04/2024 23:59:59', '03/05/2024 00:00:00'], 'monthFirst'],
    ['over midnight with the day in front', ['04/03/2024 23:59:59', '05/03/2024 00:00:00'], 'dayFirst'],
    ['one day alone', ['03/04/2024 10:00:00', '03/04/2024 10:00:01'], 'dayFirst'],
    ['no date', ['x'], 'dayFirst'],
  ] as const)('%s', (_, cells, order) => expect(dateOrderOf(cells)).toBe(order));
});

describe('time by answers', () => {
  const profiles = profilesOf('Time;RPM\n1;140\n2;146\n3;150\n');

  test('an interval goes before any column', () => {
    expect(planTime(profiles, { intervalMs: 250, timeColumn: 0 })).toEqual({
      time: { source: 'interval', intervalMs: 250 },
      needs: [],
      notes: [],
    });
  });

  test('a column named is certain, its kind guessed or told', () => {
    const column = { source: 'column', column: 0, confidence: 1 };
    expect(planTime(profiles, { timeColumn: 0 }).time).toMatchObject({ ...column, kind: 'seconds' });
    expect(planTime(profiles, { timeColumn: 0, timeKind: 'minutes' }).time).toMatchObject({ ...column, kind: 'minutes' }); // prettier-ignore
  });

  test('the unit told for the column found settles the question', () => {
    expect(planTime(profiles, {}).needs).toEqual(['timeUnit']);
    expect(planTime(profiles, { timeKind: 'seconds' })).toMatchObject({
      time: { kind: 'seconds' },
      needs: [],
    });
  });

  test('"none of them" asks for the interval', () => {
    const { time, needs, notes } = planTime(profiles, { timeColumn: null });
    expect(time).toEqual({ source: 'interval', intervalMs: null });
    expect(needs).toEqual(['interval']);
    expect(notes).toMatchObject([{ code: 'log.no-time', context: { count: 2, columns: 'Time, RPM' } }]);
  });

  test('an order of dates told goes before the one guessed', () => {
    const dates = profilesOf('Date;RPM\n03/04/2024 10:00:00;1\n03/04/2024 10:00:01;2\n');
    expect(planTime(dates, {}).time).toMatchObject({ kind: 'dateTime', dateOrder: 'dayFirst' });
    expect(planTime(dates, { dateOrder: 'monthFirst' }).time).toMatchObject({ dateOrder: 'monthFirst' });
  });
});
