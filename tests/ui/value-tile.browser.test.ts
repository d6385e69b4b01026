import { html } from 'lit';
import { afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/value-tile.ts';
import type { ValueState } from '../../src/ui/value-tile.ts';
import { axeFindings, clearPage, mount, one, textOf } from './mount.ts';

afterEach(clearPage);

const STATES: readonly [ValueState, string, string, boolean][] = [
  ['waiting', 'waiting', 'waiting', false],
  ['fresh', 'live', 'live', true],
  ['stale', 'stale 2.4 s', 'stale', true],
  ['lost', 'lost 2.4 s', 'lost', false],
  ['notAvailable', 'not available', 'none', false],
];

describe('m-value-tile', () => {
  test.each(STATES)(
    'says %s by word and shape, and shows only numbers that hold',
    async (state, word, shape, shown) => {
      const tile = await mount(
        html`<m-value-tile
          label="Engine speed"
          value="152"
          unit="rpm"
          state=${state}
          age-seconds="2.4"
        ></m-value-tile>`,
      );
      expect(textOf(one(tile, '.state'))).toBe(word);
      expect(one(tile, '.state m-icon').getAttribute('shape')).toBe(shape);
      expect(textOf(one(tile, '.value')) === '152').toBe(shown);
      expect(await axeFindings(tile)).toEqual([]);
    },
  );

  test('does not announce its numbers: they would never stop', async () => {
    const tile = await mount(html`<m-value-tile label="Speed" value="152" state="fresh"></m-value-tile>`);
    expect(tile.shadowRoot?.querySelector('[aria-live], [role=status], [role=alert]')).toBeNull();
  });

  test('shows its trend only while the number is fresh', async () => {
    const tile = await mount<HTMLElementTagNameMap['m-value-tile']>(
      html`<m-value-tile label="Speed" value="152" state="fresh" trend="rising"></m-value-tile>`,
    );
    expect(one(tile, '.trend').getAttribute('label')).toBe('rising');
    tile.state = 'stale';
    await tile.updateComplete;
    expect(tile.shadowRoot?.querySelector('.trend')).toBeNull();
  });

  test.each(['152', '199.9', '29000', '29,000.5'])(
    'keeps %s with its unit inside a phone-wide tile, huge',
    async (value) => {
      const tile = await mount(
        html`<m-value-tile
          label="Rail pressure"
          value=${value}
          unit="MPa"
          state="fresh"
          size="huge"
        ></m-value-tile>`,
      );
      tile.style.setProperty('width', '358px');
      const right = (selector: string) => one(tile, selector).getBoundingClientRect().right;
      expect(right('.unit')).toBeLessThanOrEqual(right('.panel'));
      expect(parseFloat(getComputedStyle(one(tile, '.value')).fontSize)).toBeGreaterThanOrEqual(48);
    },
  );
});
