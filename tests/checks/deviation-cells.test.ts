import { describe, expect, it } from 'vitest';
import { cellTable, toldStretch } from '../../src/checks/deviation-cells.ts';
import type { DeviationRows } from '../../src/checks/deviation-rows.ts';

/** Ten rows a second apart: the first half at 1000 rpm, the second at 1600; load 20 in even seconds, 80 in odd ones. */
const rows = (change: Partial<DeviationRows> = {}): DeviationRows => {
  const seconds = Float64Array.from({ length: 10 }, (_, place) => place);
  return {
    atMs: seconds.map((s) => s * 1000),
    deviationKPa: seconds.map((s) => -100 * s),
    commandedKPa: seconds.map(() => 100_000),
    speedRpm: seconds.map((s) => (s < 5 ? 1000 : 1600)),
    loadPercent: seconds.map((s) => (s % 2 === 0 ? 20 : 80)),
    joined: Uint8Array.from(seconds, (s) => (s === 0 ? 0 : 1)),
    knownMs: 9000,
    ...change,
  };
};
const none = new Float64Array(10).fill(NaN);

describe('the deviation by speed and load', () => {
  it('counts each row in the one cell of its speed and its load', () => {
    const cells = cellTable(rows(), [1500], [50]);
    expect(cells.map((row) => row.map(({ values }) => values))).toEqual([
      [3, 2],
      [2, 3],
    ]);
    // By hand: a row stands for the second before it; the first has none. Seconds 2 and 4: −300. 1 and 3: −200.
    expect(cells[0]!.map(({ seconds, meanKPa }) => [seconds, meanKPa])).toEqual([
      [2, -300],
      [2, -200],
    ]);
    expect(cells[1]!.map(({ seconds, meanKPa, worstKPa }) => [seconds, meanKPa, worstKPa])).toEqual([
      [2, -700, -800],
      [3, -700, -900],
    ]);
  });

  it('has the ends of its bands as the tables of one axis have them', () => {
    const [row] = cellTable(rows(), [1500], [25, 75]);
    expect(row!.map(({ from, to }) => [from, to])).toEqual([
      [null, 25],
      [25, 75],
      [75, null],
    ]);
  });

  it('has one cell a row where no load is known, and one row where no speed is', () => {
    const withoutLoad = cellTable(rows({ loadPercent: none }), [1500], [50]);
    expect(withoutLoad.map((row) => row.map(({ values }) => values))).toEqual([[5], [5]]);
    const withoutSpeed = cellTable(rows({ speedRpm: none }), [1500], [50]);
    expect(withoutSpeed.map((row) => row.map(({ values }) => values))).toEqual([[5, 5]]);
    expect(cellTable(rows({ speedRpm: none, loadPercent: none }), [1500], [50])[0]).toMatchObject([
      { values: 10, from: null, to: null },
    ]);
  });

  it('leaves out a row that does not know what others know', () => {
    const some = rows().loadPercent.map((load, row) => (row < 8 ? NaN : load));
    const values = cellTable(rows({ loadPercent: some }), [1500], [50]).map((row) =>
      row.map((each) => each.values),
    );
    expect(values).toEqual([
      [0, 0],
      [1, 1],
    ]);
  });
});

describe('what was going on in a stretch', () => {
  const stretch = { startMs: 3000, endMs: 6000, meanShortfallKPa: 450, firstRow: 3, lastRow: 6 };

  it('is its largest shortfall, and the mean speed and load of its rows', () => {
    // By hand: rows 3 to 6: 600 kPa at the most; (1000 + 1000 + 1600 + 1600) / 4; (80 + 20 + 80 + 20) / 4.
    expect(toldStretch(rows(), stretch)).toEqual({
      ...stretch,
      mostShortfallKPa: 600,
      speedRpm: 1300,
      loadPercent: 50,
    });
  });

  it('is not told where it is not known', () => {
    expect(toldStretch(rows({ speedRpm: none, loadPercent: none }), stretch)).toMatchObject({
      speedRpm: null,
      loadPercent: null,
    });
  });
});
