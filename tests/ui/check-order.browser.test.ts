import { html } from 'lit';
import { page, userEvent } from 'vitest/browser';
import { afterAll, afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/check-order.ts';
import { CHECK_ROWS } from './job-samples.ts';
import { axeFindings, clearPage, drawn, every, heard, mount, one, settled, sideways, smallTargets, textOf } from './mount.ts'; // prettier-ignore

afterEach(clearPage);
afterAll(() => page.viewport(414, 896)); // what the other files were started with

type Order = HTMLElementTagNameMap['m-check-order'];
type Runs = HTMLElementTagNameMap['m-check-runs'];
type Reason = HTMLElementTagNameMap['m-reason'];
const order = (fixed = false, checks = CHECK_ROWS) =>
  mount<Order>(html`<m-check-order .checks=${checks} next-id="pump-return" ?fixed=${fixed}></m-check-order>`);
const button = (element: Element, name: string) => one(element, `button[aria-label="${name}"]`);
const runsOf = (element: Order, checkId: string) =>
  one<Runs>(element, `[data-check=${checkId}] m-check-runs`);

describe('m-check-order', () => {
  test('says the state of each check by word and shape', async () => {
    const states = every(await order(), '.result .state').map(
      (state) => `${state.querySelector('m-icon')?.getAttribute('shape')}: ${textOf(state)}`,
    );
    expect(states).toEqual([
      'pass: pass',
      'pass: pass',
      'lost: left out',
      'replay: to be repeated',
      'marginal: marginal so far, 1 more run needed',
      'unsure: the runs disagree',
      'waiting: to do',
    ]);
  });

  test('sets off the next check alone, with its purpose and the one primary button', async () => {
    const element = await order();
    expect(every(element, '[aria-current=step]').map((row) => row.dataset['check'])).toEqual(['pump-return']);
    expect(every(element, '.primary').map((each) => each.getAttribute('aria-label'))).toEqual([
      'Repeat: Pump return volume at raised rail pressure',
    ]);
    expect(textOf(one(element, '.next'))).toContain('The metering valve was replaced since.');
  });

  test('shows value, how sure and how many runs of those needed', async () => {
    const facts = every(await order(), '.facts').map(textOf);
    expect(facts).toContain('612 mL ± 14 more than 99.9 % sure 2 of 2 runs');
    expect(facts).toContain('3.4 s ± 0.2 96.2 % sure 1 of 2 runs');
  });

  test('starts and repeats by keyboard', async () => {
    const element = await order();
    const started = heard(element, 'check-start');
    button(element, 'Repeat: Supply pressure while cranking').focus();
    await userEvent.keyboard('{Enter}');
    expect(started).toEqual([{ checkId: 'supply-cranking' }]);
  });

  test('goes on with a run that is not graded yet instead of starting another', async () => {
    const element = await order();
    const [started, opened] = [heard(element, 'check-start'), heard(element, 'run-open')];
    button(element, 'Go on: Rail pressure build while cranking').click();
    expect([started, opened]).toEqual([[], [{ runId: 'b2' }]]);
  });

  test('says what a check asks for first, by number and title, and does not start it', async () => {
    const element = await order();
    const started = heard(element, 'check-start');
    const start = button(element, `Start: ${CHECK_ROWS[6]!.title}`);
    start.click();
    expect(started).toEqual([]);
    expect(start.getAttribute('aria-disabled')).toBe('true');
    expect(textOf(one(element, `#${start.getAttribute('aria-describedby')}`))).toBe(
      'Asks first for 5 Rail pressure build while cranking, 6 Rail pressure decay after shut-off. Do it, or leave it out with a reason.',
    );
  });

  test('leaves a check out only with a reason, and gives the focus back', async () => {
    const element = await order();
    const skipped = heard(element, 'check-skip');
    button(element, 'Leave out: Fuel quality and level').focus();
    await userEvent.keyboard('{Enter}');
    await element.updateComplete;
    const reason = one<Reason>(element, 'm-reason');
    await userEvent.keyboard('  {Enter}');
    expect(skipped).toEqual([]);
    expect(textOf(reason)).toContain('Type a reason first');
    await userEvent.keyboard('Fuel was <b>changed</b> yesterday.{Enter}');
    expect(skipped).toEqual([{ checkId: 'fuel', reason: 'Fuel was <b>changed</b> yesterday.' }]);
    await element.updateComplete;
    expect(every(element, 'm-reason')).toEqual([]);
    expect(textOf(element.shadowRoot!.activeElement!)).toContain('Fuel quality and level');
  });

  test('Escape leaves the reason and keeps the check', async () => {
    const element = await order();
    const skipped = heard(element, 'check-skip');
    button(element, 'Leave out: Fuel quality and level').click();
    await element.updateComplete;
    await userEvent.keyboard('no{Escape}');
    await element.updateComplete;
    expect([skipped, every(element, 'm-reason')]).toEqual([[], []]);
  });

  test('shows why a check was left out, and takes it in again', async () => {
    const element = await order();
    const again = heard(element, 'check-unskip');
    expect(textOf(one(element, '[data-check=suction]'))).toContain('Left out: No gauge at hand');
    button(element, 'Take in again: Suction restriction').click();
    expect(again).toEqual([{ checkId: 'suction' }]);
  });

  test('a signed job can be read and its runs opened, nothing else', async () => {
    const element = await order(true);
    const opened = heard(element, 'run-open');
    expect(every(element, 'button')).toEqual([]);
    const runs = runsOf(element, 'pump-return');
    expect(every(runs, 'button').map(textOf)).toEqual(['Open', 'Open', 'Open']);
    every(runs, 'button')[2]!.click();
    expect(opened).toEqual([{ runId: 'p3' }]);
  });

  test('without checks it says what a procedure is', async () => {
    expect(textOf(await order(false, []))).toContain('A job carries a copy of a procedure');
  });
});

describe('m-check-runs', () => {
  test('a run that does not count stays, with its reason, and can count again', async () => {
    const element = await order();
    const said = heard(element, 'run-left-out');
    const runs = runsOf(element, 'pump-return');
    expect(textOf(one(runs, 'li'))).toContain('Does not count: The hose had slipped off.');
    button(runs, 'Count again: run 1 of Pump return volume at raised rail pressure').click();
    await runs.updateComplete;
    await userEvent.keyboard('It was on after all.{Enter}');
    expect(said).toEqual([{ runId: 'p1', leftOut: false, reason: 'It was on after all.' }]);
  });

  test('a run is left out with a reason', async () => {
    const element = await order();
    const said = heard(element, 'run-left-out');
    const runs = runsOf(element, 'pump-return');
    button(runs, 'Leave out: run 2 of Pump return volume at raised rail pressure').click();
    await runs.updateComplete;
    await userEvent.keyboard('Wrong vessel.{Enter}');
    expect(said).toEqual([{ runId: 'p2', leftOut: true, reason: 'Wrong vessel.' }]);
    await runs.updateComplete;
    expect(textOf(runs.shadowRoot!.activeElement!)).toBe('Open');
  });
});

test.each([1280, 390])(
  'at %d wide nothing scrolls sideways, all is for gloves, axe finds nothing',
  async (width) => {
    await page.viewport(width, 844);
    const element = await order();
    button(element, 'Leave out: Fuel quality and level').click();
    await settled(element);
    await drawn();
    expect(document.documentElement.scrollWidth).toBeLessThanOrEqual(width);
    if (width === 390) expect(await sideways(element)).toEqual([]);
    for (const part of [element, runsOf(element, 'pump-return'), one<Reason>(element, 'm-reason')]) {
      expect(smallTargets(part, 'button, input')).toEqual([]);
    }
    expect(await axeFindings(element)).toEqual([]);
  },
);
