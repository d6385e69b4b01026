import { html } from 'lit';
import { page, userEvent } from 'vitest/browser';
import { afterAll, afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/model-drawing.ts';
import type { ModelPart } from '../../src/ui/model-drawing.ts';
import { MODEL_PART_IDS } from '../../src/ui/model-layout.ts';
import { axeFindings, clearPage, drawn, every, mount, one, sideways, smallTargets, textOf } from './mount.ts';

afterEach(clearPage);
afterAll(() => page.viewport(414, 896)); // what the other files were started with

type Drawing = HTMLElementTagNameMap['m-model-drawing'];
const PARTS: readonly ModelPart[] = MODEL_PART_IDS.map((id) => ({
  id,
  name: `Part ${id}`,
  what: `What the ${id} does.`,
  constants: [{ name: 'Holds', value: '400', unit: 'L' }],
  defects:
    id === 'starter'
      ? [
          {
            kind: 'corroded starter cable',
            name: 'a bad cable',
            words: 'It cranks slowly.',
            changes: [{ name: 'Resistance', from: '1', to: '9', unit: 'mΩ' }],
          },
        ]
      : [],
}));
const drawing = () => mount<Drawing>(html`<m-model-drawing .parts=${PARTS}></m-model-drawing>`);

describe('m-model-drawing', () => {
  test('a part is reached and opened by keyboard, tells all of itself, and closes again', async () => {
    const element = await drawing();
    await userEvent.tab();
    await userEvent.tab();
    await userEvent.keyboard('{Enter}');
    await element.updateComplete;
    const told = textOf(one(element, '.told'));
    for (const words of [
      'Part starter',
      'What the starter does.',
      'a bad cable It cranks slowly.',
      'Holds 400 L',
    ])
      expect(told).toContain(words);
    expect(told).toContain('At its worst: Resistance 9 mΩ instead of 1 .');
    expect(one(element, '[data-part="starter"]').getAttribute('aria-expanded')).toBe('true');
    expect(await axeFindings(element)).toEqual([]);
    await userEvent.keyboard('{Enter}');
    await element.updateComplete;
    expect(every(element, '.told')).toEqual([]);
  });

  test('on a phone all stand below each other, the panel under its part, large enough for gloves', async () => {
    const element = await drawing();
    one(element, '[data-part="tank"]').click();
    await element.updateComplete;
    expect(await sideways(element)).toEqual([]);
    expect(smallTargets(element, 'button')).toEqual([]);
    const left = (each: HTMLElement) => each.getBoundingClientRect().left;
    const first = left(one(element, 'button'));
    const indented = every(element, 'button').filter((each) => left(each) !== first);
    expect(indented.map((each) => each.dataset['part'])).toEqual([
      'injectors',
      'relief valve',
      'test relief valve',
    ]);
    const below = one(element, '.told').getBoundingClientRect();
    expect(below.top).toBeGreaterThanOrEqual(
      one(element, '[data-part="tank"]').getBoundingClientRect().bottom,
    );
    expect(below.bottom).toBeLessThanOrEqual(
      one(element, '[data-part="suction line"]').getBoundingClientRect().top,
    );
    expect(textOf(one(element, '.told'))).toContain('No defect of the bench sits here.');
  });

  test('on a wide screen no two boxes overlap, and the panel stands below the drawing', async () => {
    await page.viewport(1280, 800);
    const element = await drawing();
    one(element, '[data-part="rail"]').click();
    await element.updateComplete;
    await drawn();
    const boxes = every(element, 'button').map((each) => each.getBoundingClientRect());
    const overlapping = boxes.filter((a, at) =>
      boxes.some(
        (b, other) =>
          other !== at && a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom,
      ),
    );
    expect(overlapping).toEqual([]);
    const lowest = Math.max(...boxes.map(({ bottom }) => bottom));
    expect(one(element, '.told').getBoundingClientRect().top).toBeGreaterThanOrEqual(lowest);
    expect(await axeFindings(element)).toEqual([]);
  });

  test('without parts nothing is drawn', async () => {
    expect(textOf(await mount(html`<m-model-drawing></m-model-drawing>`))).toBe('');
  });
});
