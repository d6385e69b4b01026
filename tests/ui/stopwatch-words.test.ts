import { describe, expect, test } from 'vitest';
import { heldState, rangeWords, sharePercent } from '../../src/ui/held-words.ts';
import { readSpan } from '../../src/ui/read-span.ts';
import {
  stopwatchPrompt,
  stopwatchState,
  stopwatchWarning,
  timeMissed,
  type StopwatchView,
} from '../../src/ui/stopwatch-words.ts';
import { HELD, stopwatch } from './check-samples.ts';

const at = (elapsedSeconds: number, more: Partial<StopwatchView> = {}) =>
  stopwatch({ phase: 'running', elapsedSeconds, targetSeconds: 30, toleranceSeconds: 1.5, ...more });

describe('the warnings of the collection clock', () => {
  // By hand from the rule in measurement.md 4: 3, 2, 1 s before the target and at it; over past the tolerance.
  test.each([
    [0, null],
    [26.9, null],
    [27, 3],
    [27.9, 3],
    [28, 2],
    [28.99, 2],
    [29, 1],
    [29.999, 1],
    [30, 'now'],
    [31.5, 'now'],
    [31.51, 'over'],
  ] as const)('at %d of 30 s: %s', (seconds, warn) => {
    expect(stopwatchWarning(at(seconds))).toBe(warn);
  });

  test('are silent before it starts and after it was stopped', () => {
    expect(stopwatchWarning(at(31, { phase: 'ready' }))).toBeNull();
    expect(stopwatchWarning(at(45, { phase: 'stopped' }))).toBeNull();
  });

  test('a sum of milliseconds that is a hair off does not move an edge', () => {
    const hair = 0.1 + 0.2 - 0.3; // 5.6e-17
    expect(stopwatchWarning(at(27 - hair * 1e6))).toBe(3);
    expect(stopwatchState(at(31.5 + hair * 1e6))).toBe('running');
    expect(timeMissed(at(31.5 + hair * 1e6))).toBe(0);
  });
});

describe('the words of the collection clock', () => {
  test.each([
    [stopwatch(), 'Hold the vessel under, then start.'],
    [stopwatch({ startedBy: 'signal', waitsFor: 'Starts at 60 MPa.' }), 'Starts at 60 MPa.'],
    [at(4), 'Keep collecting.'],
    [at(4, { startedBy: 'cranks' }), 'Keep cranking.'],
    [at(27.5), 'Vessel away in 3.'],
    [at(27.5, { startedBy: 'cranks' }), 'Release in 3.'],
    [at(30.2), 'Vessel away now.'],
    [at(32), 'Vessel away. Over the target time.'],
    [at(32, { startedBy: 'cranks' }), 'Release the starter. Over the target time.'],
    [at(30.4, { phase: 'stopped' }), 'Read the vessel and type the volume.'],
    [at(33.25, { phase: 'stopped' }), '3.3 s too long. Empty the vessel and repeat.'],
    [at(20, { phase: 'stopped' }), '10.0 s too short. Empty the vessel and repeat.'],
    [at(4, { held: HELD }), 'Keep collecting.'],
    [at(4, { held: { ...HELD, state: 'below' } }), 'Rail pressure too low: bring it to 60 to 80 MPa.'],
    [at(4, { held: { ...HELD, state: 'above' } }), 'Rail pressure too high: bring it to 60 to 80 MPa.'],
    [at(4, { held: { ...HELD, state: 'none' } }), 'Rail pressure is not known: look at the gauge.'],
    // The countdown is nearer than the pressure.
    [at(28.5, { held: { ...HELD, state: 'below' } }), 'Vessel away in 2.'],
  ])('%# says what to do: %s', (view, words) => {
    expect(stopwatchPrompt(view)).toBe(words);
  });
});

describe('a held value', () => {
  test.each([
    [null, 60, 80, 'none'],
    [NaN, 60, 80, 'none'],
    [59.9, 60, 80, 'below'],
    [60, 60, 80, 'in'],
    [80, 60, 80, 'in'],
    [80.1, 60, 80, 'above'],
    [900, 60, null, 'in'],
    [0, null, 80, 'in'],
  ] as const)('%s against %s to %s is %s', (value, min, max, state) => {
    expect(heldState(value, min, max)).toBe(state);
  });

  test.each([
    [0, '0 %'],
    [0.001, '1 %'],
    [0.5, '50 %'],
    [0.9999, '99 %'],
    [1, '100 %'],
    [NaN, '0 %'],
  ])('a share of %d is shown as %s', (share, words) => {
    expect(sharePercent(share).replace('\u00a0', ' ')).toBe(words);
  });

  test('its range is said with open ends', () => {
    const words = [
      rangeWords('60', '80', 'MPa'),
      rangeWords('60', null, 'MPa'),
      rangeWords(null, '80', 'MPa'),
      rangeWords(null, null, 'MPa'),
    ];
    expect(words.map((each) => each.replace('\u00a0', ' '))).toEqual([
      '60 to 80 MPa',
      'at least 60 MPa',
      'at most 80 MPa',
      'any',
    ]);
  });
});

describe('a time as a stopwatch shows it', () => {
  const range = { min: 0.5, max: 3600 };
  test.each([
    ['30', 30],
    ['30,4', 30.4],
    ['30.4 s', 30.4],
    ['1:30', 90],
    ['1:30.4', 90.4],
    ['0:59,95', 59.95],
    ['10:00', 600],
  ])('%s is %d s', (text, seconds) => {
    expect(readSpan(text, range)).toEqual({ value: seconds });
  });

  test.each([
    ['', 'Type a number first.'],
    ['1:75', '“1:75” is no time: write 1:30 for a minute and a half.'],
    ['1:5', '“1:5” is no time: write 1:30 for a minute and a half.'],
    ['1:00:00', '“1:00:00” is no time: write 1:30 for a minute and a half.'],
    ['-3', 'The least that can be entered is 0.5 s.'],
    ['0', 'The least that can be entered is 0.5 s.'],
    ['61:00', 'The most that can be entered is 3600 s.'],
    ['half', '“half” is not a plain number.'],
  ])('%s is refused with a reason', (text, refusal) => {
    expect(readSpan(text, range)).toEqual({ refusal });
  });
});
