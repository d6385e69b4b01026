import { html } from 'lit';
import { afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/vessel-drawing.ts';
import { axeFindings, clearPage, every, mount, one, textOf } from './mount.ts';

afterEach(clearPage);

const vessel = (levelMl: number) =>
  mount<HTMLElementTagNameMap['m-vessel']>(
    html`<m-vessel capacity-ml="500" graduation-ml="5" .levelMl=${levelMl} guide></m-vessel>`,
  );

describe('m-vessel', () => {
  test('never writes the value, neither to the eye nor to a screen reader', async () => {
    const element = await vessel(317.5);
    const spoken = every(element, '[aria-label], title, desc').map((part) => part.getAttribute('aria-label'));
    const all = `${textOf(element)} ${spoken.join(' ')}`;
    expect(all).not.toMatch(/31[0-9]/);
    expect(all).toContain('Read the level at the bottom of the curve.');
  });

  test('draws the bottom of the curve at the level against the marks of both scales', async () => {
    const element = await vessel(300);
    for (const part of ['.whole', '.lens']) {
      const skin = one<SVGPathElement>(element, `${part} .skin`);
      const lowest = skin.getBBox().y + skin.getBBox().height;
      const mark = every<SVGLineElement>(element, `${part} .mark.major`).find(
        (line) => Math.abs(line.y1.baseVal.value - lowest) < 0.5,
      );
      expect(mark, part).toBeDefined();
    }
  });

  test('shows an empty vessel without liquid and a full one to the top mark', async () => {
    const element = await vessel(0);
    expect(every(element, '.fuel')).toHaveLength(0);
    element.levelMl = 9999;
    await element.updateComplete;
    const top = one<SVGPathElement>(element, '.whole .skin').getBBox();
    const lowest = top.y + top.height;
    expect(
      every<SVGLineElement>(element, '.whole .mark').some(
        (line) => Math.abs(line.y1.baseVal.value - lowest) < 0.5,
      ),
    ).toBe(true);
  });

  test('is tall enough on a phone, and axe finds nothing', async () => {
    const element = await vessel(317.5);
    element.style.setProperty('width', '358px');
    expect(one(element, 'svg').getBoundingClientRect().height).toBeGreaterThan(500);
    expect(await axeFindings(element)).toEqual([]);
  });
});
