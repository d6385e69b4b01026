import { html } from 'lit';
import { userEvent } from 'vitest/browser';
import { afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/deviation.ts';
import type { DeviationView } from '../../src/ui/deviation.ts';
import '../../src/ui/pressure-curve.ts';
import type { PressureCurveView } from '../../src/ui/pressure-curve.ts';
import { curve, deviation } from './check-samples.ts';
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

const shown = (view: Partial<PressureCurveView> = {}, canChoose = false) =>
  mount<HTMLElementTagNameMap['m-pressure-curve']>(
    html`<m-pressure-curve .view=${curve(view)} .canChoose=${canChoose}></m-pressure-curve>`,
  );

describe('m-pressure-curve', () => {
  test('shows the time huge, rate and time constant beside it, and marks both crossings', async () => {
    const element = await shown();
    expect(textOf(one(element, '.huge'))).toBe('11.1 s'); // 8 ln 4 = 11.09
    expect(textOf(one(element, '.besides'))).toContain('rate −1.4 MPa/s');
    expect(textOf(one(element, '.besides'))).toContain('time constant 8.0 s');
    expect(every(element, '.crossing')).toHaveLength(2);
    expect(every(element, '.level')).toHaveLength(2);
    expect(one(element, 'svg').getAttribute('aria-label')).toContain('from 20.0 to 5.0 MPa: 11.09 s');
    expect(await axeFindings(element)).toEqual([]);
  });

  test('says what it waits for while there is nothing', async () => {
    const words = 'Rising: 18 of 30 MPa.';
    const element = await shown({ points: [], spanSeconds: null, fromSeconds: null, toSeconds: null, words });
    expect(textOf(one(element, '.figure'))).toBe('– –');
    expect(textOf(one(element, '[role=status]'))).toBe(words);
    expect(element.shadowRoot?.querySelector('section > svg')).toBeNull();
    expect(await axeFindings(element)).toEqual([]);
  });

  test('gives the trace as a table too', async () => {
    const element = await shown();
    one(element, 'summary').click();
    await drawn();
    const rows = every(element, 'tbody tr').map(textOf);
    expect([rows.length, rows[0], rows.at(-1)]).toEqual([20, '0.00 30.0', '24.00 1.9']); // 30 e^(-22/8) = 1.918
    expect(await axeFindings(element)).toEqual([]);
  });

  test('lets another stretch be chosen with a reason, never without', async () => {
    const element = await shown({}, true);
    const chosen = heard(element, 'stretch-chosen');
    every(element, 'summary')[1]?.click();
    await drawn();
    await userEvent.fill(one(element, '#start'), '6,5');
    await userEvent.fill(one(element, '#end'), '14');
    one(element, '#end').focus();
    await userEvent.keyboard('{Enter}');
    await expect.poll(() => element.shadowRoot?.activeElement?.id).toBe('reason');
    expect(textOf(one(element, '#wrong-reason'))).toBe('Say why, for the report.');
    expect(chosen).toEqual([]);
    await userEvent.keyboard('engine turned by hand before{Enter}');
    expect(chosen).toEqual([{ startMs: 6500, endMs: 14_000, reason: 'engine turned by hand before' }]);
    expect(await axeFindings(element)).toEqual([]);
  });

  test.each([
    ['14', '6', '#wrong-end', 'The end must come after the start.'],
    ['x', '6', '#wrong-start', '“x” is not a plain number.'],
    ['1', '99', '#wrong-end', 'The most that can be entered is 24 s.'],
  ])('refuses %s to %s', async (start, end, place, words) => {
    const element = await shown({}, true);
    const chosen = heard(element, 'stretch-chosen');
    one<HTMLInputElement>(element, '#start').value = start;
    one<HTMLInputElement>(element, '#end').value = end;
    one<HTMLInputElement>(element, '#reason').value = 'why';
    one(element, 'form button').click();
    await element.updateComplete;
    expect(textOf(one(element, place))).toBe(words);
    expect(chosen).toEqual([]);
  });

  test('fits a phone, for gloves', async () => {
    const element = await shown({}, true);
    every(element, 'details').forEach((each) => each.setAttribute('open', ''));
    expect(await sideways(element)).toEqual([]);
    expect(smallTargets(element, 'button, summary, input')).toEqual([]);
  });
});

const drive = (view: Partial<DeviationView> = {}) =>
  mount<HTMLElementTagNameMap['m-deviation']>(html`<m-deviation .view=${deviation(view)}></m-deviation>`);

describe('m-deviation', () => {
  test('while it records says to look at the road, and has nothing to press', async () => {
    const element = await drive({ recording: true, seconds: 125 });
    expect(textOf(element)).toContain('Eyes on the road.');
    expect(textOf(element)).toContain('2 min 5 s recorded , 7 min 55 s more at least');
    expect(every(element, 'button, a, input, [tabindex]')).toEqual([]);
    expect(await axeFindings(element)).toEqual([]);
  });

  test('shows the worst shortfall, and every band by word, shape and number', async () => {
    const element = await drive();
    expect(textOf(one(element, '.huge'))).toBe('18.4 MPa');
    const cells = every(element, 'td').map(textOf);
    expect(cells[0]).toContain('0.4 follows');
    expect(cells[1]).toContain('– too little time');
    expect(cells[2]).toContain('−3.1 runs over');
    expect(cells[3]).toContain('9.6 falls short');
    expect(every(element, 'td m-icon').map((icon) => icon.getAttribute('shape'))).toEqual([
      'pass',
      'none',
      'rising',
      'falling',
    ]);
    expect(await axeFindings(element)).toEqual([]);
  });

  test('asks for a worst stretch to be shown', async () => {
    const element = await drive();
    const asked = heard(element, 'stretch-show');
    every(element, '.stretch button')[0]?.focus();
    await userEvent.keyboard('{Enter}');
    expect(asked).toEqual([{ startMs: 312_000, endMs: 315_000 }]);
    expect(textOf(every(element, '.stretch')[1]!)).not.toContain('rpm');
  });

  test('shows a dash where nothing was found, and fits a phone: only the table scrolls', async () => {
    const element = await drive({
      worst: null,
      stretches: [],
      words: 'Drive on: too little so far.',
    });
    expect(textOf(one(element, '.figure'))).toBe('–');
    element.view = deviation();
    await element.updateComplete;
    const over = await sideways(element);
    expect(over.filter((each) => !/^(table|caption|thead|tbody|tr|th|td|small|m-icon)\./.test(each))).toEqual(
      [],
    );
    expect(one(element, '.scroll').getBoundingClientRect().width).toBeLessThanOrEqual(358);
    expect(smallTargets(element, 'button')).toEqual([]);
  });
});
