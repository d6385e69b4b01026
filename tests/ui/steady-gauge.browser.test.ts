import { html } from 'lit';
import { userEvent } from 'vitest/browser';
import { afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/fact-list.ts';
import '../../src/ui/steady-gauge.ts';
import type { SteadyView } from '../../src/ui/steady-gauge.ts';
import '../../src/ui/value-window.ts';
import { FACTS, SPEED, steady } from './check-samples.ts';
import { axeFindings, clearPage, every, heard, mount, one, sideways, smallTargets, textOf } from './mount.ts';

afterEach(clearPage);

const FOUND = { mean: 411.6, halfSpread: 3.4, seconds: 5 };
type Gauge = HTMLElementTagNameMap['m-steady-gauge'];
const gauge = (view: Partial<SteadyView> = {}, canTake = false) =>
  mount<Gauge>(html`<m-steady-gauge .view=${steady(view)} .canTake=${canTake}></m-steady-gauge>`);

describe('m-steady-gauge', () => {
  test('says the pressure now, the speed it is asked at, and how long it has been steady', async () => {
    const element = await gauge();
    expect(textOf(one(element, '.huge'))).toBe('412 kPa');
    expect(one(element, '.huge m-icon').getAttribute('label')).toBe('steady');
    expect(textOf(one(element, '.held'))).toContain('asked: 650 to 750 rpm');
    expect(textOf(one(element, '.steadiness'))).toBe('steady , 3.2 of 5 s');
    expect(one<HTMLProgressElement>(element, 'progress').position).toBeCloseTo(3.2 / 5);
    expect(textOf(one(element, '[role=status]'))).toContain('until supply pressure is steady');
    expect(await axeFindings(element)).toEqual([]);
  });

  test('never rounds a stretch up to long enough', async () => {
    const element = await gauge({ steadySeconds: 4.99 });
    expect(textOf(one(element, '.steadiness'))).toBe('steady , 4.9 of 5 s');
  });

  test.each([
    ['below', 'too low', 'Raise the speed to 650 rpm.'],
    ['above', 'too high', 'Lower the speed to 750 rpm.'],
    ['none', 'no value', 'No engine speed comes in.'],
  ] as const)(
    'a speed %s is said by word, and what is missing is called out',
    async (state, word, missing) => {
      const element = await gauge({
        speed: { ...SPEED, state },
        steadySeconds: 0,
        missing: [missing, 'Hold it for 5 s.'],
      });
      expect(textOf(one(element, '.stands'))).toBe(word);
      expect(textOf(one(element, '[role=status]'))).toBe(missing);
      expect(textOf(one(element, 'ul'))).toBe('Hold it for 5 s.');
      expect(textOf(one(element, '.steadiness'))).toContain('not steady yet');
      expect(await axeFindings(element)).toEqual([]);
    },
  );

  test('is not done before something was found and nothing is missing', async () => {
    const element = await gauge();
    const done = heard(element, 'done');
    one(element, '.primary').click();
    element.view = steady({ found: FOUND, missing: ['Type the fuel temperature.'] });
    await element.updateComplete;
    one(element, '.primary').click();
    expect(done).toEqual([]);
    expect(one(element, '.primary').getAttribute('aria-disabled')).toBe('true');
    element.view = steady({ found: FOUND });
    await element.updateComplete;
    expect(textOf(one(element, '.found'))).toContain('Mean 412 ± 3 kPa over 5.0 s');
    one(element, '.primary').focus();
    await userEvent.keyboard('{Enter}');
    expect(done).toHaveLength(1);
    expect(await axeFindings(element)).toEqual([]);
  });

  test('lets the stretch be taken by hand only where that is wanted', async () => {
    expect((await gauge({ found: FOUND })).shadowRoot?.querySelector('.take')).toBeNull();
    const element = await gauge({ found: FOUND }, true);
    const taken = heard(element, 'stretch-taken');
    one(element, '.take').click();
    expect(taken).toHaveLength(1);
  });

  test.each(['lost', 'waiting', 'notAvailable'] as const)('prints no number while %s', async (state) => {
    const element = await gauge({ state });
    expect(textOf(one(element, '.figure'))).toBe('– –');
    const scale = one<HTMLElementTagNameMap['m-value-window']>(element, 'm-value-window');
    expect(one(scale, 'svg').getAttribute('aria-label')).toContain('No value yet.');
  });

  test('draws no scale without a limit, and fits a phone for gloves', async () => {
    const element = await gauge({ min: null, max: null, value: 12_345.6, digits: 1 }, true);
    expect(element.shadowRoot?.querySelector('m-value-window')).toBeNull();
    expect(await sideways(element)).toEqual([]);
    expect(smallTargets(element, 'button')).toEqual([]);
  });
});

describe('m-value-window', () => {
  type Scale = HTMLElementTagNameMap['m-value-window'];
  const scale = (value: number | null, earlier: Scale['earlier'] = []) =>
    mount<Scale>(
      html`<m-value-window
        label="Supply pressure"
        unit="kPa"
        .min=${350}
        .max=${500}
        .value=${value === null ? null : { value, halfWidth: 12, label: 'run 2' }}
        .earlier=${earlier}
        caption="Bars: ± 2 standard uncertainties"
      ></m-value-window>`,
    );

  test('names its zones and says aloud where the value stands', async () => {
    const element = await scale(320);
    expect(every(element, '.zone-name').map(textOf)).toEqual(['fail low', 'pass', 'fail high']);
    expect(one(element, 'svg').getAttribute('aria-label')).toBe(
      'Supply pressure: asked 350 to 500\u00a0kPa. run 2 320 ± 12 kPa: fail low.',
    );
    expect(textOf(one(element, 'figcaption'))).toContain('± 2 standard uncertainties');
    expect(await axeFindings(element)).toEqual([]);
  });

  test('puts the mark where the value lies', async () => {
    const element = await scale(425);
    const stem = one(element, '.stem');
    const [, , width] = (one(element, 'svg').getAttribute('viewBox') ?? '').split(' ').map(Number);
    expect(Number(stem.getAttribute('x1'))).toBeCloseTo((width ?? 0) / 2); // 425 is the middle of 275 to 575
  });

  test('shows each earlier run in a row of its own', async () => {
    const element = await scale(420, [
      { value: 400, halfWidth: 12, label: 'run 1' },
      { value: 402, halfWidth: 0, label: 'before' },
    ]);
    const rows = every(element, '.earlier .dot').map((dot) => Number(dot.getAttribute('cy')));
    expect(rows[1]! - rows[0]!).toBeGreaterThanOrEqual(24);
    expect(every(element, '.earlier .bars')).toHaveLength(1);
    expect(textOf(element)).toContain('run 1 400');
    expect(await sideways(element)).toEqual([]);
  });

  test('draws nothing without a limit', async () => {
    const element = await mount(html`<m-value-window></m-value-window>`);
    expect(textOf(element)).toBe('');
    expect(textOf(await scale(null))).toContain('Asked: 350 to 500');
  });
});

describe('m-facts', () => {
  test('is a table of name, value and unit, and nothing at all without facts', async () => {
    const element = await mount(html`<m-facts .facts=${FACTS}></m-facts>`);
    expect(every(element, 'tr').map(textOf)).toEqual([
      'Mean engine speed 702 rpm',
      'Spread within the stretch 6.2 kPa',
    ]);
    expect(await axeFindings(element)).toEqual([]);
    expect(await sideways(element)).toEqual([]);
    expect(textOf(await mount(html`<m-facts></m-facts>`))).toBe('');
  });
});
