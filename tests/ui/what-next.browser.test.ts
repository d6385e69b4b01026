import { html } from 'lit';
import { page, userEvent } from 'vitest/browser';
import { afterAll, afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/what-next.ts';
import type { NextStepView } from '../../src/ui/what-next.ts';
import { NEXT } from './job-samples.ts';
import { axeFindings, clearPage, every, heard, mount, one, sideways, smallTargets, textOf } from './mount.ts';

afterEach(clearPage);
afterAll(() => page.viewport(414, 896)); // what the other files were started with

type Next = HTMLElementTagNameMap['m-what-next'];
const next = (change: Partial<NextStepView> = {}) =>
  mount<Next>(
    html`<m-what-next .next=${{ ...NEXT, ...change }} defers-to="The maker decides."></m-what-next>`,
  );

describe('m-what-next', () => {
  test('says what, why, and what stands above it', async () => {
    const element = await next();
    expect(textOf(one(element, 'h2'))).toBe(NEXT.sentence);
    expect(textOf(one(element, '.why'))).toBe(NEXT.why);
    expect(textOf(one(element, '.defers'))).toBe('The maker decides.');
  });

  test('ranks the causes, and opens where to look by keyboard', async () => {
    const element = await next();
    expect(every(element, 'summary').map(textOf)).toEqual([
      '1 Worn pumping elements Pumping elements and outlet check valves',
      '2 Metering valve sticks Metering valve and housing',
    ]);
    one(element, 'summary').focus();
    await userEvent.keyboard('{Enter}');
    expect(one<HTMLDetailsElement>(element, 'details').open).toBe(true);
    expect(textOf(one(element, 'dl'))).toBe(
      'Look at Swarf in the filter; the return hose hot within a minute. Put right Replace the pump. Speaks for it Pump return volume: fail high; Rail pressure build: marginal',
    );
    expect(textOf(every(element, 'dl')[1]!)).not.toContain('Speaks for it');
  });

  test('says the step with its check when it is taken', async () => {
    const element = await next();
    const taken = heard(element, 'next-step');
    one(element, '.primary').focus();
    await userEvent.keyboard('{Enter}');
    expect(taken).toEqual([{ step: 'repeat check', checkId: 'pump-return' }]);
  });

  test('shows no button and no causes where there are none, and nothing before it is known', async () => {
    const element = await next({ action: '', causes: [] });
    expect([every(element, 'button'), every(element, '.causes')]).toEqual([[], []]);
    element.next = null;
    await element.updateComplete;
    expect(textOf(element)).toBe('');
  });
});

test.each([1280, 390])(
  'at %d wide nothing scrolls sideways, all is for gloves, axe finds nothing',
  async (width) => {
    await page.viewport(width, 844);
    const element = await next();
    every<HTMLDetailsElement>(element, 'details').forEach((each) => (each.open = true));
    if (width === 390) expect(await sideways(element)).toEqual([]);
    expect(smallTargets(element, 'button, summary')).toEqual([]);
    expect(await axeFindings(element)).toEqual([]);
  },
);
