import { html } from 'lit';
import { page, userEvent } from 'vitest/browser';
import { afterAll, afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/fuel-path.ts';
import { PATH } from './job-samples.ts';
import { axeFindings, clearPage, drawn, every, heard, mount, one, sideways, smallTargets, textOf } from './mount.ts'; // prettier-ignore

afterEach(clearPage);
afterAll(() => page.viewport(414, 896)); // what the other files were started with

type Path = HTMLElementTagNameMap['m-fuel-path'];
const WORDS = 'Cleared from the tank to the separator. The loss must lie behind it.';
const path = (selected = '') =>
  mount<Path>(html`<m-fuel-path .stations=${PATH} selected=${selected} words=${WORDS}></m-fuel-path>`);
const station = (element: Path, id: string) => one(element, `[data-station="${id}"]`);

describe('m-fuel-path', () => {
  test('says each station from tank to injectors by name, word and shape; one that is missing is not checked', async () => {
    const element = await path();
    const said = every(element, '.station').map(
      (each) =>
        `${textOf(each.querySelector('.unseen')!).replace(' :', '')} ${each.querySelector('m-icon')?.getAttribute('shape')} ${textOf(each.querySelector('.state')!)}`,
    );
    expect(said).toEqual([
      'Tank and fuel pass cleared',
      'Suction line pass cleared',
      'Filter and water separator pass cleared',
      'Supply pump replay to be repeated',
      'Pressure filter unsure open question',
      'Metering valve and housing waiting not checked',
      'Pumping elements and outlet check valves fail fails',
      'Rail and pressure sensor marginal suspect',
      'Rail relief valve waiting not checked',
      'Injectors pass cleared',
    ]);
    expect(textOf(one(element, '.words'))).toBe(WORDS);
  });

  test('the line is heavy only between stations that are both cleared', async () => {
    const led = every(await path(), '.led').map((each) => each.classList[1]);
    expect(led).toEqual(['suction-line', 'suction-filter']);
  });

  test('Tab comes to it once, arrows go along it and say what is known, Enter opens', async () => {
    const element = await path();
    const opened = heard(element, 'station-opened');
    await userEvent.tab();
    expect(element.shadowRoot!.activeElement).toBe(station(element, 'tank'));
    await userEvent.keyboard('{ArrowRight}{ArrowRight}{ArrowLeft}');
    await element.updateComplete;
    expect(textOf(one(element, '.sentence'))).toBe('Suction line Cleared by Supply pressure while cranking.');
    await userEvent.keyboard('{End}{ArrowRight}');
    expect(element.shadowRoot!.activeElement).toBe(station(element, 'injectors'));
    await userEvent.keyboard('{ArrowUp}{ArrowUp}{Enter}');
    expect(opened).toEqual([{ id: 'rail' }]);
    expect(every(element, 'button[tabindex="0"]')).toHaveLength(1);
    await userEvent.keyboard('{Home}{ArrowLeft}');
    expect(element.shadowRoot!.activeElement).toBe(station(element, 'tank'));
  });

  test('a click opens and shows the sentence', async () => {
    const element = await path();
    const opened = heard(element, 'station-opened');
    station(element, 'high-pressure pump').click();
    await element.updateComplete;
    expect(opened).toEqual([{ id: 'high-pressure pump' }]);
    expect(textOf(one(element, '.sentence'))).toContain('Pump return volume: fail high.');
  });

  test('a sentence with markup in it stays text', async () => {
    const element = await path('rail');
    element.stations = [{ station: 'rail', state: 'suspect', checkIds: [], sentence: '<img src=x>' }];
    await element.updateComplete;
    expect([textOf(one(element, '.sentence p')), every(element, 'img')]).toEqual(['<img src=x>', []]);
  });

  test('is one row with the relief valve under the rail where there is room, and a list where there is not', async () => {
    await page.viewport(1280, 844);
    const element = await path();
    await drawn();
    const box = (id: string) => station(element, id).getBoundingClientRect();
    expect(box('injectors').top).toBe(box('tank').top);
    expect(box('relief valve').top).toBeGreaterThanOrEqual(box('rail').bottom);
    expect(box('relief valve').left).toBeCloseTo(box('rail').left, 0);
    await page.viewport(720, 844);
    await drawn();
    expect(box('injectors').top).toBe(box('tank').top);
    await page.viewport(390, 844);
    await drawn();
    expect(box('suction line').top).toBeGreaterThanOrEqual(box('tank').bottom - 1);
  });
});

test.each([1280, 390])(
  'at %d wide nothing scrolls sideways, all is for gloves, axe finds nothing',
  async (width) => {
    await page.viewport(width, 844);
    const element = await path('rail');
    await drawn();
    expect(document.documentElement.scrollWidth).toBeLessThanOrEqual(width);
    if (width === 390) expect(await sideways(element)).toEqual([]);
    expect(smallTargets(element, 'button')).toEqual([]);
    expect(await axeFindings(element)).toEqual([]);
  },
);
