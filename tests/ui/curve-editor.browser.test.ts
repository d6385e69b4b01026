import { html } from 'lit';
import { page, userEvent } from 'vitest/browser';
import { afterAll, afterEach, describe, expect, test } from 'vitest';
import type { CurveDraft } from '../../src/ui/curve-edit.ts';
import '../../src/ui/curve-editor.ts';
import type { CurvesChanged } from '../../src/ui/curve-editor.ts';
import {
  axeFindings,
  clearPage,
  drawn,
  every,
  heard,
  mount,
  one,
  settled,
  sideways,
  smallTargets,
  textOf,
} from './mount.ts';
import { DRAFT } from './sheet-samples.ts';

afterEach(clearPage);
afterAll(() => page.viewport(414, 896)); // what the other files were started with

type Editor = HTMLElementTagNameMap['m-curve-editor'];

async function editor(draft: CurveDraft = DRAFT, unit: 'mL' | 'usFlOz' = 'mL'): Promise<Editor> {
  const element = await mount<Editor>(html`<m-curve-editor .draft=${draft} .unit=${unit}></m-curve-editor>`);
  await drawn();
  await settled(element);
  return element;
}
const table = (element: Editor) => one(element, 'm-curve-table');
const chart = (element: Editor) => one(element, 'm-curve-chart');
const cell = (element: Editor, id: string) => one<HTMLInputElement>(table(element), `#${id}`);
const button = (element: Element, name: string) =>
  every(element, 'button').find((each) => textOf(each).includes(name))!;
const changes = (element: Editor) => heard(element, 'curves-changed') as CurvesChanged[];

/** A pointer with everything a drag needs; captured pointers of the browser's own are not made from script. */
function point(target: Element, type: string, x: number, y: number) {
  target.dispatchEvent(
    new PointerEvent(type, {
      clientX: x,
      clientY: y,
      button: 0,
      pointerId: 1,
      bubbles: true,
      composed: true,
    }),
  );
}

describe('m-curve-editor by keyboard alone', () => {
  test('a curve is typed from nothing, put in order, undone and tried', async () => {
    const element = await editor({
      failBelow: [],
      passAbove: [
        { speed: '100', volume: '235' },
        { speed: '220', volume: '505' },
      ],
      failAbove: [],
      join: 'straight',
    });
    const said = changes(element);
    await userEvent.tab(); // joins
    await userEvent.keyboard('{ArrowRight}');
    expect(said.at(-1)?.draft.join).toBe('monotone cubic');
    await userEvent.keyboard('{ArrowLeft}');
    for (
      let step = 0;
      step < 20 && textOf(table(element).shadowRoot?.activeElement ?? element) !== 'Add a point';
      step += 1
    )
      await userEvent.tab();
    await userEvent.keyboard('{Enter}');
    await expect.poll(() => table(element).shadowRoot?.activeElement?.id).toBe('speed-0');
    await userEvent.keyboard('220{Enter}430{Enter}');
    await expect.poll(() => table(element).shadowRoot?.activeElement?.id).toBe('speed-1');
    await userEvent.keyboard('100{Enter}180,5');
    expect(textOf(table(element))).toContain('Slower than the point before it (220 rpm)');
    expect(said.at(-1)?.chart).toBeNull();
    for (let step = 0; step < 4; step += 1) await userEvent.tab(); // its two tools, "Add a point", and out to the try fields
    await expect.poll(() => one(element, 'm-curve-try').shadowRoot?.activeElement?.id).toBe('speed');
    expect(said.at(-1)?.chart?.failBelow).toEqual([[100, 180.5], [220, 430]]); // prettier-ignore
    await userEvent.keyboard('160');
    await userEvent.tab();
    await userEvent.keyboard('300');
    await settled(element);
    // By hand: fail below at 160 rpm is the middle of 180.5 and 430, 305.25; 300 lies 5.25 below it.
    expect(textOf(one(element, 'm-curve-try'))).toContain(
      'fail low 5.25 mL (1.72 %) below the line “fail below” at 305 mL.',
    );
    await userEvent.keyboard('{Control>}z{/Control}');
    expect(said.at(-1)?.draft.failBelow.map(({ speed }) => speed)).not.toEqual(['100', '220']);
    await userEvent.keyboard('{Control>}{Shift>}z{/Shift}{/Control}');
    expect(said.at(-1)?.draft.failBelow.map(({ speed }) => speed)).toEqual(['100', '220']);
  });

  test('arrow keys nudge the chosen point, Page Down goes to the next, Delete removes it', async () => {
    const element = await editor();
    const said = changes(element);
    one<SVGElement & HTMLElement>(chart(element), '.handle[tabindex="0"]').focus();
    await userEvent.keyboard('{ArrowUp}{Shift>}{ArrowRight}{/Shift}');
    expect(said.at(-1)?.draft.failBelow[0]).toEqual({ speed: '110', volume: '181' });
    await userEvent.keyboard('{PageDown}');
    await settled(element);
    await userEvent.keyboard('{ArrowDown}');
    expect(said.at(-1)?.draft.failBelow[1]).toEqual({ speed: '150', volume: '289' });
    await userEvent.keyboard('{Delete}');
    expect(said.at(-1)?.draft.failBelow.map(({ speed }) => speed)).toEqual(['110', '220']);
  });

  test('the boundaries are tabs that the arrow keys walk', async () => {
    const element = await editor();
    one(element, '#tab-failBelow').focus();
    await userEvent.keyboard('{ArrowRight}');
    await expect.poll(() => element.shadowRoot?.activeElement?.id).toBe('tab-passAbove');
    expect(cell(element, 'volume-0').value).toBe('235');
    await userEvent.keyboard('{ArrowLeft}{ArrowLeft}');
    await expect.poll(() => element.shadowRoot?.activeElement?.id).toBe('tab-failAbove');
    expect(textOf(element)).toContain('Most charts have no upper boundary');
  });
});

describe('m-curve-editor on the chart', () => {
  test('a point is dragged: table and chart say the same, one undo takes it back', async () => {
    const element = await editor();
    const said = changes(element);
    const handle = every<SVGElement & HTMLElement>(chart(element), '.handle')[1]!;
    handle.setPointerCapture = () => undefined; // only a real pointer can be captured
    const knob = handle.querySelector('.knob')!.getBoundingClientRect();
    const [x, y] = [knob.x + knob.width / 2, knob.y + knob.height / 2];
    point(handle, 'pointerdown', x, y);
    point(handle, 'pointermove', x + 20, y - 30);
    point(handle, 'pointermove', x + 20, y - 40);
    point(handle, 'pointerup', x + 20, y - 40);
    await settled(element);
    await drawn();
    const row = said.at(-1)!.draft.failBelow[1]!;
    expect(Number(row.speed)).toBeGreaterThan(150);
    expect(Number(row.volume)).toBeGreaterThan(290);
    expect(cell(element, 'speed-1').value).toBe(row.speed);
    expect(every(chart(element), '.handle')[1]?.getAttribute('aria-label')).toBe(
      `Fail below, point 2: ${row.speed} rpm, ${row.volume} mL`,
    );
    button(element, 'Undo').click();
    expect(said.at(-1)?.draft).toBe(DRAFT);
  });

  test('a tap beside the points tries that place', async () => {
    const element = await editor();
    const svg = one(chart(element), 'svg').getBoundingClientRect();
    point(one(chart(element), '.ground'), 'pointerup', svg.x + svg.width / 2, svg.y + svg.height * 0.2);
    await settled(element);
    expect(textOf(one(element, 'm-curve-try'))).toContain('pass');
    expect(every(chart(element), '.tried')).toHaveLength(1);
  });

  test('zones have a word, a tint and a hatching, and go while there are mistakes', async () => {
    const element = await editor();
    const names = () => every(chart(element), '.zone-name').map((name) => textOf(name));
    expect(names()).toEqual(['fail low', 'marginal', 'pass']);
    await userEvent.fill(cell(element, 'volume-1'), '-4');
    await settled(element);
    expect(names()).toEqual([]);
    expect(textOf(table(element))).toContain('A volume cannot be below zero.');
    expect(cell(element, 'volume-1').getAttribute('aria-invalid')).toBe('true');
    expect(textOf(one(element, '#tab-failBelow'))).toContain('mistake');
    expect(await axeFindings(element)).toEqual([]);
  });

  test('crossing curves are said at the row that crosses', async () => {
    const element = await editor();
    one(element, '#tab-passAbove').click();
    await settled(element);
    await userEvent.fill(cell(element, 'volume-1'), '270');
    await settled(element);
    expect(textOf(one(table(element), '#says-1'))).toBe(
      'Pass above lies 20 mL below fail below near 150 rpm. Two points may be exchanged.',
    );
  });

  test('a smooth join is drawn as a dense line', async () => {
    const element = await editor({ ...DRAFT, join: 'monotone cubic' });
    const lines = every(chart(element), '.boundary').map(
      (line) => line.getAttribute('points')?.split(' ').length,
    );
    expect(lines[0]).toBeGreaterThan(80);
  });
});

describe('m-curve-editor and a spreadsheet', () => {
  test('columns pasted into a cell are shown first and taken on a word', async () => {
    const element = await editor();
    const said = changes(element);
    const clipboardData = new DataTransfer();
    clipboardData.setData('text', 'rpm\tL\tL\n100\t0,2\t0,25\n200\t0,4\t0,5');
    cell(element, 'speed-0').dispatchEvent(
      new ClipboardEvent('paste', { clipboardData, bubbles: true, composed: true, cancelable: true }),
    );
    await expect.poll(() => element.shadowRoot?.querySelector('m-curve-paste')).not.toBeNull();
    await settled(element);
    const panel = one(element, 'm-curve-paste');
    expect(textOf(panel)).toContain(
      'This will be taken Speed, rpm Fail below , mL Pass above , mL 100 200 250 200 400 500',
    );
    expect(textOf(panel)).toContain('Converted from L to mL.');
    expect(said).toEqual([]);
    expect(await axeFindings(element)).toEqual([]);
    button(panel, 'Take 2 rows').click();
    await settled(element);
    expect(said.at(-1)?.chart).toMatchObject({ failBelow: [[100, 200], [200, 400]], passAbove: [[100, 250], [200, 500]] }); // prettier-ignore
    await expect.poll(() => element.shadowRoot?.activeElement?.id).toBe('paste');
  });

  test('one volume column asks which boundary it is', async () => {
    const element = await editor();
    const said = changes(element);
    button(element, 'Paste').click();
    await settled(element);
    const panel = one(element, 'm-curve-paste');
    await userEvent.fill(one(panel, 'textarea'), '100 700\n220 900');
    one(panel, 'label:nth-of-type(3) input').click();
    await settled(element);
    button(panel, 'Take 2 rows').click();
    expect(said.at(-1)?.chart?.failAbove).toEqual([[100, 700], [220, 900]]); // prettier-ignore
  });

  test('what cannot be read is said, nothing is taken, and Cancel leaves all as it was', async () => {
    const element = await editor();
    const said = changes(element);
    button(element, 'Paste').click();
    await settled(element);
    const panel = one(element, 'm-curve-paste');
    await userEvent.fill(one(panel, 'textarea'), 'hello');
    await settled(element);
    expect(textOf(panel)).toContain('No two columns of numbers were found.');
    button(panel, 'Take them').click();
    button(panel, 'Cancel').click();
    await settled(element);
    expect(element.shadowRoot?.querySelector('m-curve-paste')).toBeNull();
    expect(said).toEqual([]);
  });

  test('a single number pasted into a cell is pasted as ever', async () => {
    const element = await editor();
    const clipboardData = new DataTransfer();
    clipboardData.setData('text', '151');
    const event = new ClipboardEvent('paste', {
      clipboardData,
      bubbles: true,
      composed: true,
      cancelable: true,
    });
    cell(element, 'speed-0').dispatchEvent(event);
    expect(event.defaultPrevented).toBe(false);
  });
});

describe('m-curve-editor, how it looks', () => {
  test('a printed unit stands beside mL', async () => {
    const element = await editor(
      {
        ...DRAFT,
        failBelow: [
          { speed: '100', volume: '6' },
          { speed: '220', volume: '14' },
        ],
      },
      'usFlOz',
    );
    expect(textOf(table(element))).toContain('= 177.4 mL'); // 6 * 29.5735295625 (NIST SP 811)
    expect(textOf(table(element))).toContain('Volume, US fl oz');
  });

  test('setting another draft forgets what could be undone', async () => {
    const element = await editor();
    await userEvent.fill(cell(element, 'volume-1'), '300');
    expect(button(element, 'Undo').getAttribute('aria-disabled')).toBe('false');
    element.draft = DRAFT;
    await settled(element);
    expect(cell(element, 'volume-1').value).toBe('290');
    expect(button(element, 'Undo').getAttribute('aria-disabled')).toBe('true');
  });

  test('is for gloves', async () => {
    const element = await editor();
    expect(smallTargets(element, 'button')).toEqual([]);
    expect(smallTargets(table(element), 'button, input')).toEqual([]);
    expect(smallTargets(one(element, 'm-curve-try'), 'input')).toEqual([]);
    for (const reach of every(chart(element), '.reach'))
      expect(reach.getBoundingClientRect().width).toBeGreaterThanOrEqual(48);
  });

  test.each([1280, 390])('at %d wide nothing scrolls sideways and axe finds nothing', async (width) => {
    await page.viewport(width, 844);
    const element = await editor();
    expect(document.documentElement.scrollWidth).toBeLessThanOrEqual(width);
    if (width === 390) {
      expect(await sideways(element)).toEqual([]);
      expect(await sideways(table(element))).toEqual([]);
    }
    expect(await axeFindings(element)).toEqual([]);
  });
});
