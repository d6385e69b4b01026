import { html } from 'lit';
import { afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/limit-chart.ts';
import { axeFindings, clearPage, drawn, every, mount, one, textOf } from './mount.ts';
import { BOUNDARIES, EARLIER, POINT } from './samples.ts';

afterEach(clearPage);

const NEAREST = { boundaryMl: 294.2, label: '24 mL above the fail line (8 %)' };
const chart = (point: typeof POINT | null, width = '900px') =>
  mount<HTMLElementTagNameMap['m-limit-chart']>(
    html`<m-limit-chart
      .boundaries=${BOUNDARIES}
      .point=${point}
      .earlier=${EARLIER}
      .nearest=${point && NEAREST}
      caption="Bars: ± 2 standard uncertainties."
    ></m-limit-chart>`,
  ).then(async (element) => {
    element.style.setProperty('width', width);
    await drawn();
    await element.updateComplete;
    return element;
  });

describe('m-limit-chart', () => {
  test('names, tints and hatches each zone, so that no zone is known by its colour alone', async () => {
    const element = await chart(POINT);
    expect(every(element, '.zone-name').map((name) => textOf(name))).toEqual([
      'fail low',
      'marginal',
      'pass',
    ]);
    const hatches = every(element, 'polygon[fill]').map((polygon) => polygon.getAttribute('fill'));
    expect(hatches).toEqual(['url(#hatch-fail)', 'url(#hatch-marginal)', 'url(#hatch-pass)']);
  });

  test('says the point and the distance in words', async () => {
    const name = one(await chart(POINT), 'svg').getAttribute('aria-label');
    expect(name).toBe(
      'Limit chart from 100 to 220 rpm. run 3: 318 mL at 152.1 rpm. 24 mL above the fail line (8 %)',
    );
  });

  test('draws the run, its bars and the earlier runs', async () => {
    const element = await chart(POINT);
    expect(every(element, '.measured.now')).toHaveLength(1);
    expect(every(element, '.measured.earlier')).toHaveLength(2);
    expect(textOf(one(element, '.distance'))).toBe(NEAREST.label);
  });

  test('says when the point lies outside the speeds of the chart', async () => {
    const element = await chart({ ...POINT, speedRpm: 84 });
    expect(one(element, 'svg').getAttribute('aria-label')).toContain('outside the speeds of this chart');
    expect(every(element, '.outside-name').map((name) => textOf(name))).toContain('no limits here');
  });

  test('on a phone the distance stands below, and nothing reaches over the edge', async () => {
    const element = await chart(POINT, '358px');
    expect(textOf(one(element, '.decides'))).toBe(NEAREST.label);
    const edge = element.getBoundingClientRect().right + 1;
    for (const text of every<SVGTextElement>(element, 'text')) {
      expect(text.getBoundingClientRect().right, text.textContent ?? '').toBeLessThanOrEqual(edge);
    }
  });

  test.each([POINT, null])('axe finds nothing, with and without a run', async (point) => {
    expect(await axeFindings(await chart(point))).toEqual([]);
  });
});
