import { html } from 'lit';
import { userEvent } from 'vitest/browser';
import { afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/stopwatch.ts';
import type { StopwatchView } from '../../src/ui/stopwatch-words.ts';
import { HELD, stopwatch } from './check-samples.ts';
import {
  axeFindings,
  clearPage,
  drawn,
  every,
  heard,
  mount,
  one,
  sideways,
  smallTargets,
  textOf,
} from './mount.ts';

afterEach(clearPage);

type Watch = HTMLElementTagNameMap['m-stopwatch'];
const watch = (view: Partial<StopwatchView> = {}) =>
  mount<Watch>(html`<m-stopwatch .view=${stopwatch(view)}></m-stopwatch>`);
const show = async (element: Watch, view: Partial<StopwatchView>) => {
  element.view = stopwatch(view);
  await element.updateComplete;
};
const running = (elapsedSeconds: number): Partial<StopwatchView> => ({ phase: 'running', elapsedSeconds });

describe('m-stopwatch by hand', () => {
  test('starts and stops by the space bar from anywhere on the page', async () => {
    const element = await watch();
    const [starts, stops] = [heard(element, 'clock-start'), heard(element, 'clock-stop')];
    await userEvent.keyboard(' ');
    expect(starts).toEqual([{ by: 'hand' }]);
    await show(element, running(12));
    await userEvent.keyboard(' ');
    expect(stops).toEqual([{ by: 'hand' }]);
    await show(element, { phase: 'stopped', elapsedSeconds: 60 });
    await userEvent.keyboard(' ');
    expect([starts.length, stops.length]).toEqual([1, 1]);
  });

  test('the space bar on its own button presses once, not twice', async () => {
    const element = await watch();
    const starts = heard(element, 'clock-start');
    one(element, '.go').focus();
    await userEvent.keyboard(' ');
    expect(starts).toHaveLength(1);
  });

  test('leaves the space bar to fields, and to keys held down', async () => {
    const element = await watch();
    const starts = heard(element, 'clock-start');
    const field = document.createElement('input');
    document.body.append(field);
    field.focus();
    await userEvent.keyboard('a b');
    expect(field.value).toBe('a b');
    field.blur();
    document.body.dispatchEvent(new KeyboardEvent('keydown', { key: ' ', repeat: true, bubbles: true }));
    expect(starts).toEqual([]);
  });

  test('hears no key once it has left the page', async () => {
    const element = await watch();
    const starts = heard(element, 'clock-start');
    element.remove();
    await userEvent.keyboard(' ');
    expect(starts).toEqual([]);
  });

  test('a second press of a gloved hand does not stop it', async () => {
    const element = await watch(running(0.3));
    const stops = heard(element, 'clock-stop');
    one(element, '.go').click();
    expect(stops).toEqual([]);
    await show(element, running(0.6));
    one(element, '.go').click();
    expect(stops).toHaveLength(1);
  });

  test('asks before it throws a time away, and goes to the harmless answer', async () => {
    const element = await watch({ phase: 'stopped', elapsedSeconds: 60.3 });
    const resets = heard(element, 'clock-reset');
    one(element, '.reset').click();
    await expect.poll(() => element.shadowRoot?.activeElement?.className).toBe('keep');
    expect(textOf(one(element, '[role=alert]'))).toContain('Throw this time away?');
    expect(await axeFindings(element)).toEqual([]);
    await userEvent.keyboard('{Escape}');
    await expect.poll(() => element.shadowRoot?.activeElement?.className).toBe('reset');
    expect(resets).toEqual([]);
    one(element, '.reset').click();
    await element.updateComplete;
    one(element, '.danger').click();
    expect(resets).toHaveLength(1);
  });

  test('a question that is open keeps the space bar from the clock', async () => {
    const element = await watch(running(20));
    const stops = heard(element, 'clock-stop');
    one(element, '.reset').click();
    await element.updateComplete;
    (element.shadowRoot?.activeElement as HTMLElement | null)?.blur();
    await userEvent.keyboard(' ');
    expect(stops).toEqual([]);
  });
});

describe('m-stopwatch towards its target', () => {
  test('says each warning once, for the sound that goes with it', async () => {
    const element = await watch();
    const warnings = heard(element, 'clock-warn');
    for (const seconds of [0, 56.9, 57.1, 57.4, 58.2, 59.9, 60, 61, 63.2, 70])
      await show(element, running(seconds));
    await show(element, { phase: 'stopped', elapsedSeconds: 70 });
    expect(warnings).toEqual([3, 2, 1, 'now', 'over'].map((warn) => ({ warn })));
  });

  test('warns anew when it is started again', async () => {
    const element = await watch(running(58.5));
    const warnings = heard(element, 'clock-warn');
    await show(element, { phase: 'ready' });
    await show(element, running(58.5));
    expect(warnings).toEqual([{ warn: 2 }]);
  });

  test.each([
    [{}, 'ready', 'Hold the vessel under, then start.'],
    [running(12), 'collecting', 'Keep collecting.'],
    [running(58.4), 'collecting', 'Vessel away in 2.'],
    [running(60), 'collecting', 'Vessel away now.'],
    [running(64), 'over time', 'Vessel away. Over the target time.'],
    [{ phase: 'stopped', elapsedSeconds: 60.4 }, 'stopped', 'Read the vessel and type the volume.'],
    [{ phase: 'stopped', elapsedSeconds: 50 }, 'stopped', '10.0 s too short. Empty the vessel and repeat.'],
  ] as const)('%o is %s, says what to do, and axe finds nothing', async (view, word, prompt) => {
    const element = await watch(view);
    expect(textOf(one(element, '.state'))).toBe(word);
    expect(textOf(one(element, '[role=status]'))).toBe(prompt);
    expect(await axeFindings(element)).toEqual([]);
  });

  test('fills its bar in proportion and no further than full', async () => {
    const element = await watch(running(15));
    const width = () => one(element, '.fill').getAttribute('width');
    expect(width()).toBe('250'); // 15 of 60 s of a bar that is 1000 long
    await show(element, running(99));
    expect(width()).toBe('1000');
    await show(element, { ...running(9), targetSeconds: 0 });
    expect(width()).toBe('0');
  });

  test('does not announce its figure: it would never stop', async () => {
    const element = await watch(running(12));
    expect(one(element, '.figure').closest('[aria-live], [role=status], [role=alert]')).toBeNull();
  });
});

describe('m-stopwatch by itself', () => {
  const waiting = {
    startedBy: 'signal',
    waitsFor: 'Starts when rail pressure rises through 60 MPa.',
  } as const;

  test('says what it waits for, and lets the space bar be', async () => {
    const element = await watch(waiting);
    const starts = heard(element, 'clock-start');
    await userEvent.keyboard(' ');
    expect(textOf(one(element, '[role=status]'))).toBe(waiting.waitsFor);
    expect(starts).toEqual([]);
  });

  test('can be started and stopped by hand, should the signal never come', async () => {
    const element = await watch(waiting);
    const [starts, stops] = [heard(element, 'clock-start'), heard(element, 'clock-stop')];
    one(element, '.by-hand').click();
    await show(element, { ...waiting, ...running(33) });
    expect(textOf(one(element, '.by-hand'))).toBe('Stop by hand instead');
    one(element, '.by-hand').click();
    expect([starts, stops]).toEqual([[{ by: 'hand' }], [{ by: 'hand' }]]);
    expect(await axeFindings(element)).toEqual([]);
  });
});

describe('the held value beside the clock', () => {
  test.each([
    ['in', 'holds', 'pass'],
    ['below', 'too low', 'falling'],
    ['above', 'too high', 'rising'],
    ['none', 'no value', 'lost'],
  ] as const)('%s is said by word and shape', async (state, word, shape) => {
    const element = await watch({ ...running(12), held: { ...HELD, state } });
    expect(textOf(one(element, '.stands'))).toBe(word);
    expect(one(element, '.stands m-icon').getAttribute('shape')).toBe(shape);
    expect(textOf(one(element, '.held'))).toContain('asked: 60 to 80 MPa');
    expect(textOf(one(element, '.held'))).toContain('held 97 % of the time');
    expect(textOf(one(element, '.held')).includes('71.4')).toBe(state !== 'none');
    expect(await axeFindings(element)).toEqual([]);
  });
});

describe('a time typed instead', () => {
  const open = async (element: Watch) => {
    one(element, 'summary').click();
    await drawn();
    one(element, '#typed').focus();
  };

  test('is read as a stopwatch shows it and handed over as it was written', async () => {
    const element = await watch();
    const typed = heard(element, 'time-typed');
    await open(element);
    await userEvent.keyboard('1:00,4{Enter}');
    expect(typed).toEqual([{ spanMs: 60_400, typed: '1:00,4' }]);
  });

  test('is refused beside the field, and the reason goes as soon as it is corrected', async () => {
    const element = await watch();
    const typed = heard(element, 'time-typed');
    await open(element);
    await userEvent.keyboard('a minute{Enter}');
    await element.updateComplete;
    expect(textOf(one(element, '#refusal'))).toBe('“a minute” is not a plain number.');
    expect(await axeFindings(element)).toEqual([]);
    await userEvent.fill(one(element, '#typed'), '60');
    await element.updateComplete;
    expect(textOf(one(element, '#refusal'))).toBe('');
    expect(typed).toEqual([]);
  });

  test('is not offered while the clock runs, nor where the page does not want it', async () => {
    const element = await watch(running(3));
    expect(element.shadowRoot?.querySelector('details')).toBeNull();
    element.canType = false;
    await show(element, {});
    expect(element.shadowRoot?.querySelector('details')).toBeNull();
  });
});

test('m-stopwatch fits a phone, for gloves, with its figure as high as can be', async () => {
  const element = await watch({ ...running(123.4), targetSeconds: 1200, held: { ...HELD, state: 'above' } });
  expect(await sideways(element)).toEqual([]);
  await show(element, { phase: 'stopped', elapsedSeconds: 3599.9, targetSeconds: 3600 });
  every(element, 'details').forEach((each) => each.setAttribute('open', ''));
  expect(await sideways(element)).toEqual([]);
  expect(smallTargets(element, 'button, input, summary')).toEqual([]);
  expect(parseFloat(getComputedStyle(one(element, '.figure')).fontSize)).toBeGreaterThanOrEqual(48);
});
