import { html } from 'lit';
import { userEvent } from 'vitest/browser';
import { afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/ask-dialog.ts';
import { axeFindings, clearPage, every, heard, mount, one, smallTargets, textOf } from './mount.ts';
import { REQUESTS } from './source-samples.ts';

afterEach(clearPage);

type Ask = HTMLElementTagNameMap['m-ask'];
const ask = (open = true) =>
  mount<Ask>(html`<m-ask ?open=${open} .requests=${REQUESTS} device-name="Bench bridge"></m-ask>`);
const boxes = (element: Ask) => every<HTMLInputElement>(element, 'input');

describe('m-ask', () => {
  test('is not there until it is opened, and is modal then', async () => {
    const element = await ask(false);
    const dialog = one<HTMLDialogElement>(element, 'dialog');
    expect(dialog.open).toBe(false);
    element.open = true;
    await element.updateComplete;
    expect(dialog.matches(':modal')).toBe(true);
  });

  test('ticks nothing by itself and allows nothing while nothing is ticked', async () => {
    const element = await ask();
    const allowed = heard(element, 'ask-allowed');
    expect(boxes(element).map((box) => box.checked)).toEqual([false, false, false]);
    const button = one(element, '.primary');
    expect(button.getAttribute('aria-disabled')).toBe('true');
    expect(textOf(one(element, '#ticked'))).toBe('Tick what may be asked for.');
    button.click();
    expect(allowed).toEqual([]);
    expect(element.open).toBe(true);
  });

  test('says what is sent, for how long the bridge is open, and what that does', async () => {
    const text = textOf(await ask());
    for (const words of [
      'Request for PGN 65260.',
      'Bench bridge is opened normally for about 2 seconds, then listens only again.',
      'it acknowledges the frames of others',
      'At a wrong bit rate it would disturb the bus',
      'nothing is sent before frames have been read at this rate',
      'Nothing is commanded, set or cleared.',
    ]) {
      expect.soft(text).toContain(words);
    }
  });

  test('allows what is ticked, in the order of the list, once', async () => {
    const element = await ask();
    const allowed = heard(element, 'ask-allowed');
    const cancelled = heard(element, 'ask-cancelled');
    boxes(element)[2]?.click();
    boxes(element)[0]?.click();
    boxes(element)[1]?.click();
    boxes(element)[1]?.click();
    await element.updateComplete;
    one(element, '.primary').click();
    await element.updateComplete;
    expect(allowed).toEqual([{ ids: ['vin', 'dm2'] }]);
    await expect.poll(() => one<HTMLDialogElement>(element, 'dialog').open).toBe(false);
    expect(cancelled).toEqual([]);
  });

  test('forgets its ticks: allowing once is not allowing for ever', async () => {
    const element = await ask();
    boxes(element)[0]?.click();
    await element.updateComplete;
    one(element, '.primary').click();
    await element.updateComplete;
    element.open = true;
    await element.updateComplete;
    expect(boxes(element).map((box) => box.checked)).toEqual([false, false, false]);
  });

  test('is worked by keyboard alone', async () => {
    const element = await ask();
    const allowed = heard(element, 'ask-allowed');
    boxes(element)[0]?.focus();
    await userEvent.keyboard(' ');
    await element.updateComplete;
    await userEvent.tab();
    await userEvent.tab();
    await userEvent.tab();
    await userEvent.keyboard('{Enter}');
    expect(allowed).toEqual([{ ids: ['vin'] }]);
  });

  test.each(['the button', 'Escape'])('is cancelled by %s, once', async (way) => {
    const element = await ask();
    const cancelled = heard(element, 'ask-cancelled');
    boxes(element)[0]?.focus();
    if (way === 'Escape') await userEvent.keyboard('{Escape}');
    else every(element, '.actions button')[1]?.click();
    await expect.poll(() => cancelled.length).toBe(1);
    await expect.poll(() => one<HTMLDialogElement>(element, 'dialog').open).toBe(false);
    expect(element.open).toBe(false);
  });

  test('keeps its buttons in view, has targets for gloves, and axe finds nothing', async () => {
    const element = await ask();
    const { left, right, bottom } = one(element, '.actions').getBoundingClientRect();
    expect(bottom).toBeLessThanOrEqual(innerHeight);
    expect(left).toBeGreaterThanOrEqual(0);
    expect(right).toBeLessThanOrEqual(innerWidth);
    expect(smallTargets(element, 'label, button')).toEqual([]);
    expect(await axeFindings(element)).toEqual([]);
  });
});
