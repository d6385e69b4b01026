import { html } from 'lit';
import { userEvent } from 'vitest/browser';
import { afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/search-progress.ts';
import type { SearchOutcome } from '../../src/ui/search-progress.ts';
import { axeFindings, clearPage, every, heard, mount, one, settled, sideways, textOf } from './mount.ts';
import { STEPS } from './source-samples.ts';

afterEach(clearPage);

const search = (outcome: SearchOutcome | null = null) =>
  mount<HTMLElementTagNameMap['m-search-progress']>(
    html`<m-search-progress
      .steps=${STEPS}
      .done=${0.4}
      .elapsedSeconds=${2.34}
      .outcome=${outcome}
    ></m-search-progress>`,
  );
const OUTCOMES: readonly [SearchOutcome, string, boolean][] = [
  [
    { tone: 'found', headline: 'SLCAN found', facts: ['115,200 baud', '250 kbit/s'], advice: '' },
    'Found',
    false,
  ],
  [{ tone: 'silent', headline: 'The bus is silent', facts: [], advice: 'Turn the key on.' }, 'Waiting', true],
  [{ tone: 'nothing', headline: 'Nothing came', facts: [], advice: 'Check the plug.' }, 'Not found', false],
];

describe('m-search-progress', () => {
  test('says in plain words what is tried, and what came of each step', async () => {
    const element = await search();
    expect(every(element, 'li').map(textOf)).toEqual([
      'Trying 1,000,000 baud no answer',
      'Trying 115,200 baud SLCAN answers',
      'Listening at 250 kbit/s',
      'Listening at 500 kbit/s',
    ]);
    expect(every(element, 'li m-icon').map((icon) => icon.getAttribute('label'))).toEqual([
      'no',
      'yes',
      'now',
      'not tried yet',
    ]);
    expect(textOf(one(element, '[aria-current=step]'))).toBe('Listening at 250 kbit/s');
    expect(textOf(one(element, '.elapsed'))).toBe('2.3 s');
    expect(textOf(one(element, 'm-progress'))).toContain('40 %');
  });

  test('announces the step, never the seconds', async () => {
    const element = await search();
    const status = one(element, '[role=status]');
    expect(textOf(status)).toBe('Listening at 250 kbit/s');
    element.elapsedSeconds = 9.9;
    await settled(element);
    expect(textOf(status)).toBe('Listening at 250 kbit/s');
    expect(textOf(one(element, '.elapsed'))).toBe('9.9 s');
  });

  test.each(OUTCOMES)('ends with %o', async (outcome, word, canStop) => {
    const element = await search(outcome);
    expect(one(element, '.outcome m-icon').getAttribute('label')).toBe(word);
    expect(textOf(one(element, '.outcome'))).toBe(
      [outcome.headline, outcome.facts.join(' · '), outcome.advice].filter(Boolean).join(' '),
    );
    expect(element.shadowRoot?.querySelector('m-progress')).toBeNull();
    expect(every(element, 'button').length).toBe(canStop ? 1 : 0);
    expect(await axeFindings(element)).toEqual([]);
  });

  test('is stopped by its button, by keyboard alone', async () => {
    const element = await search();
    const stops = heard(element, 'search-stopped');
    await userEvent.tab();
    await userEvent.keyboard('{Enter}');
    expect(stops).toHaveLength(1);
  });

  test('begins before any step is known', async () => {
    const element = await mount(html`<m-search-progress></m-search-progress>`);
    expect(one(element, 'm-progress').getAttribute('label')).toBe('Opening');
    expect(textOf(element)).toContain('0.0 s');
  });

  test('fits a phone, and axe finds nothing', async () => {
    const element = await search();
    expect(await sideways(element)).toEqual([]);
    expect(await axeFindings(element)).toEqual([]);
  });
});
