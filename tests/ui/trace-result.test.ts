import { describe, expect, test } from 'vitest';
import type { Corners } from '../../src/tracing/homography.ts';
import type { Pixel } from '../../src/tracing/pixel.ts';
import { axisView, curvePlaces, frameOf, tracedChart } from '../../src/ui/trace-result.ts';
import { beginTrace, type TraceWork } from '../../src/ui/trace-state.ts';
import { placeWords, scaleWords } from '../../src/ui/trace-words.ts';

const PICTURE = { width: 1000, height: 800 };
/** A straight picture: 100 rpm at x = 100, 5 px a rpm; 0 mL at y = 700, 1 px a mL. */
const mark = (at: Pixel, text: string) => ({ at, text });
const WORK: TraceWork = {
  ...beginTrace(PICTURE).history.now,
  straight: true,
  axes: {
    x: { kind: 'linear', marks: [mark({ x: 100, y: 0 }, '100'), mark({ x: 600, y: 0 }, '200,0')] },
    y: { kind: 'linear', marks: [mark({ x: 0, y: 700 }, '0'), mark({ x: 0, y: 100 }, '600')] },
  },
  curves: {
    failBelow: [
      { x: 600, y: 400 },
      { x: 100, y: 600 },
    ],
    passAbove: [
      { x: 100, y: 500 },
      { x: 350, y: 350 },
      { x: 600, y: 300 },
    ],
    failAbove: [],
  },
};
const chartOf = (work: TraceWork, unit: 'mL' | 'L' = 'mL') => {
  const chart = tracedChart(work, PICTURE, unit);
  if (!chart.ok) throw new Error(chart.problem.code);
  return chart.value;
};
const codeOf = (work: TraceWork) => {
  const chart = tracedChart(work, PICTURE, 'mL');
  return chart.ok ? 'ok' : chart.problem.code;
};
const frame = frameOf(WORK, PICTURE);
if (!frame.ok) throw new Error(frame.problem.code);

describe('the traced chart', () => {
  test('has its points in ascending speed, however they were clicked, and leaves out what was not traced', () => {
    // By hand: (x − 100)/5 + 100 rpm, 700 − y mL.
    expect(chartOf(WORK).curves).toEqual({
      failBelow: [
        [100, 100],
        [200, 300],
      ],
      passAbove: [
        [100, 200],
        [150, 350],
        [200, 400],
      ],
    });
  });

  test('printed in litres is handed over in millilitres, its uncertainty too', () => {
    const litres: TraceWork = {
      ...WORK,
      axes: {
        ...WORK.axes,
        y: { kind: 'linear', marks: [mark({ x: 0, y: 700 }, '0'), mark({ x: 0, y: 100 }, '0,6')] },
      },
    };
    expect(chartOf(litres, 'L')).toEqual({
      ...chartOf(WORK),
      notes: expect.arrayContaining([expect.stringContaining('from 0 to 0.6, linear')]) as unknown,
    });
  });

  test('states a doubt that follows from a click of 0.7 px by hand', () => {
    // failBelow at its ends: u(y) of two marks 600 px apart and of the click, and slope 2 mL/rpm (0.4 px/px) times u(x).
    // At a mark at the end of two: hypot(0.7/√2, 300 · 0.7/(600/√2)) = 0.7; with the click 0.7·√2 = 0.99 px at x ends.
    // y of the points: 600 lies 200 off the middle 400, 400 lies 0 off: fit doubts 0.495·hypot(1, 200/300) and 0.495.
    const first = Math.hypot(0.7, 0.495 * Math.hypot(1, 2 / 3), 0.4 * 0.99);
    const last = Math.hypot(0.7, 0.495, 0.4 * 0.99);
    expect(chartOf(WORK).uVolumeMl.failBelow).toBeCloseTo(Math.sqrt((first ** 2 + last ** 2) / 2), 1);
  });

  test('makes one point of clicks on the same place along the speed', () => {
    const curves = { ...WORK.curves, failBelow: [...WORK.curves.failBelow, { x: 100.2, y: 602 }] };
    expect(curvePlaces({ ...WORK, curves }, 'failBelow', frame.value)[0]).toEqual({ x: 100.1, y: 601 });
    expect(chartOf({ ...WORK, curves }).curves.failBelow).toHaveLength(2);
  });

  test('is refused with the reason: corners, marks, logarithm, boundaries', () => {
    const [a, b, c, d] = WORK.corners;
    const crossed: Corners = [a, c, b, d];
    expect(codeOf({ ...WORK, straight: false, corners: crossed })).toBe('tracing.corners-unusable');
    const x = (marks: TraceWork['axes']['x']['marks'], kind: 'linear' | 'log' = 'linear') =>
      codeOf({ ...WORK, axes: { ...WORK.axes, x: { kind, marks } } });
    expect(x([])).toBe('tracing.too-few-marks');
    expect(x([mark({ x: 0, y: 0 }, '0'), mark({ x: 500, y: 0 }, '10')], 'log')).toBe(
      'tracing.log-needs-positive',
    );
    expect(codeOf({ ...WORK, curves: { ...WORK.curves, passAbove: [{ x: 1, y: 1 }] } })).toBe(
      'tracing.curve-missing',
    );
    expect(codeOf({ ...WORK, curves: { ...WORK.curves, failAbove: [{ x: 1, y: 1 }] } })).toBe(
      'tracing.curve-missing',
    );
  });
});

describe('a scale', () => {
  const withThird = (text: string): TraceWork => ({
    ...WORK,
    axes: {
      ...WORK.axes,
      x: { kind: 'linear', marks: [...WORK.axes.x.marks, mark({ x: 353, y: 0 }, text)] },
    },
  });

  test('leaves out a mark whose text is no number, and says why', () => {
    const { marks, fit } = axisView(withThird('15o'), 'x', frame.value);
    expect(marks[2]).toMatchObject({ value: null, refusal: '“15o” is not a plain number.', offPx: null });
    expect(fit.ok && fit.value.residual).toBeNull();
  });

  test('tells how far each mark lies off it: the middle one of three by two thirds of its three pixels', () => {
    const { marks, fit } = axisView(withThird('150'), 'x', frame.value);
    // Least squares of (100, 100), (600, 200), (353, 150): the middle mark keeps about 2/3 of its 3 px.
    expect(marks[2]!.offPx).toBeCloseTo(2, 1);
    expect(fit.ok && scaleWords(fit.value, 'rpm').residual).toMatch(
      /^The marks lie 2\.\d px \(0\.\d+ rpm\) off/,
    );
  });

  test('puts a place into the words of the chart', () => {
    const [x, y] = [axisView(WORK, 'x', frame.value).fit, axisView(WORK, 'y', frame.value).fit];
    const axes = x.ok && y.ok ? { x: x.value, y: y.value } : null;
    expect(placeWords(axes, { x: 350, y: 383 }, 'mL')).toBe('150.0 rpm, 317 mL');
    expect(placeWords(null, { x: 350, y: 383 }, 'mL')).toBe('350 px across, 383 px down');
  });
});
