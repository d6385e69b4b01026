import { html } from 'lit';
import { userEvent } from 'vitest/browser';
import { afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/arithmetic-sheet.ts';
import '../../src/ui/caution-list.ts';
import '../../src/ui/crank-table.ts';
import '../../src/ui/empty-state.ts';
import '../../src/ui/problem-note.ts';
import '../../src/ui/progress-note.ts';
import { ICON_SHAPES } from '../../src/ui/shape-icon.ts';
import '../../src/ui/source-state.ts';
import type { SourceCondition } from '../../src/ui/source-state.ts';
import { axeFindings, clearPage, every, heard, mount, one, textOf } from './mount.ts';
import { ROWS } from './samples.ts';

afterEach(clearPage);

describe('m-crank-table', () => {
  const table = () =>
    mount<HTMLElementTagNameMap['m-crank-table']>(html`<m-crank-table .rows=${ROWS}></m-crank-table>`);

  test('shows each crank, and says when one is to count or not', async () => {
    const element = await table();
    const changes = heard(element, 'crank-counts-changed');
    const boxes = every<HTMLInputElement>(element, 'input');
    expect(boxes.map((box) => box.checked)).toEqual([true, false]);
    boxes[0]?.click();
    boxes[1]?.click();
    expect(changes).toEqual([
      { number: 1, counts: false },
      { number: 2, counts: true },
    ]);
    expect(await axeFindings(element)).toEqual([]);
  });

  test('rounds coverage down, so that a hole is never shown as whole', async () => {
    const element = await mount<HTMLElementTagNameMap['m-crank-table']>(
      html`<m-crank-table .rows=${[{ ...ROWS[0], coverage: 0.9999, meanRpm: NaN }]}></m-crank-table>`,
    );
    expect(textOf(element)).toContain('99 %');
    expect(textOf(element)).toContain('– rpm');
  });

  test('teaches while it is empty, and fits a phone', async () => {
    const empty = await mount(html`<m-crank-table></m-crank-table>`);
    expect(textOf(empty)).toContain('No crank yet.');
    const element = await table();
    element.style.setProperty('width', '358px');
    expect(one(element, 'table').getBoundingClientRect().width).toBeLessThanOrEqual(358);
    for (const label of every(element, 'label')) {
      expect(label.getBoundingClientRect().height).toBeGreaterThanOrEqual(48);
    }
    expect(await axeFindings(element)).toEqual([]);
  });
});

describe('m-cautions', () => {
  const cautions = [
    { id: 'a', text: 'Fuel can pierce the skin.' },
    { id: 'b', text: 'The engine can start.' },
  ];
  const list = () =>
    mount<HTMLElementTagNameMap['m-cautions']>(html`<m-cautions .cautions=${cautions}></m-cautions>`);

  test('says what is missing, and accepts only when all are ticked', async () => {
    const element = await list();
    const accepted = heard(element, 'cautions-accepted');
    const button = one(element, 'button');
    expect(textOf(one(element, '#why'))).toBe('Tick 2 more to go on.');
    button.click();
    for (const box of every<HTMLInputElement>(element, 'input')) box.click();
    await element.updateComplete;
    expect(accepted).toHaveLength(0);
    expect(button.getAttribute('aria-disabled')).toBe('false');
    button.click();
    expect(accepted).toHaveLength(1);
    every<HTMLInputElement>(element, 'input')[0]?.click();
    await element.updateComplete;
    button.click();
    expect(accepted).toHaveLength(1);
  });

  test('is worked by keyboard alone', async () => {
    const element = await list();
    const accepted = heard(element, 'cautions-accepted');
    await userEvent.tab();
    await userEvent.keyboard(' ');
    await userEvent.tab();
    await userEvent.keyboard(' ');
    await userEvent.tab();
    await userEvent.keyboard('{Enter}');
    expect(accepted).toHaveLength(1);
  });

  test('has big targets, and axe finds nothing', async () => {
    const element = await list();
    for (const target of every(element, 'label, button')) {
      expect(target.getBoundingClientRect().height).toBeGreaterThanOrEqual(48);
    }
    expect(await axeFindings(element)).toEqual([]);
  });
});

describe('m-source-state', () => {
  test.each([
    ['none', 'No source'],
    ['opening', 'Opening'],
    ['waiting', 'Open, waiting for data'],
    ['live', 'Live'],
    ['stale', 'Stale'],
    ['reopening', 'Lost, opening again'],
    ['lost', 'Lost'],
    ['ended', 'Ended'],
    ['error', 'Error'],
  ] as const)('says %s by word and shape', async (state: SourceCondition, word) => {
    const element = await mount(
      html`<m-source-state
        state=${state}
        device-name="Bench bridge"
        .framesPerSecond=${412.4}
        .malformed=${3}
        .secondsSinceLast=${4.2}
        .secondsSinceLoss=${72}
      ></m-source-state>`,
    );
    expect(textOf(one(element, '[role=status]'))).toBe(word);
    const text = textOf(element);
    expect(text).toContain('Bench bridge');
    expect(text).toContain('412 frames/s');
    expect(text).toContain('3 malformed');
    expect(text.includes('last 4.2 s ago')).toBe(['stale', 'lost', 'waiting'].includes(state));
    expect(text.includes('gone for 72 s')).toBe(state === 'reopening');
    expect(await axeFindings(element)).toEqual([]);
  });
});

describe('m-source-state while it opens again', () => {
  test('counts up without announcing every second', async () => {
    const element = await mount<HTMLElementTagNameMap['m-source-state']>(
      html`<m-source-state state="reopening" .secondsSinceLoss=${9.5}></m-source-state>`,
    );
    expect(textOf(element)).toBe('Lost, opening again gone for 9.5 s');
    element.secondsSinceLoss = 130;
    await element.updateComplete;
    expect(textOf(element)).toBe('Lost, opening again gone for 2 min 10 s');
    expect(textOf(one(element, '[role=status]'))).toBe('Lost, opening again');
  });
});

describe('m-problem', () => {
  const problem = { message: 'Another program is using the port.', remedy: 'Close it, then press Connect.' };

  test.each([
    ['info', 'note', 'Note'],
    ['warn', 'note', 'Caution'],
    ['error', 'alert', 'Problem'],
  ] as const)('%s shows message and remedy as %s', async (tone, role, word) => {
    const element = await mount(html`<m-problem tone=${tone} .problem=${problem}></m-problem>`);
    expect(textOf(one(element, `[role=${role}]`))).toBe(`${problem.message} ${problem.remedy}`);
    expect(one(element, 'm-icon').getAttribute('label')).toBe(word);
    expect(await axeFindings(element)).toEqual([]);
  });

  test('shows nothing without a problem', async () => {
    expect(textOf(await mount(html`<m-problem></m-problem>`))).toBe('');
  });
});

describe('m-empty', () => {
  test.each(['vessel', 'trace', 'log', 'plug', 'bench'])(
    'teaches beside the drawing of a %s and keeps its action',
    async (drawing) => {
      const element = await mount(
        html`<m-empty drawing=${drawing} heading="No run yet" text="Crank into a vessel."
          ><a href="#x">Start</a></m-empty
        >`,
      );
      expect(textOf(element)).toContain('No run yet Crank into a vessel.');
      expect(every(element, 'svg path').length).toBeGreaterThan(1);
      expect(one<HTMLSlotElement>(element, 'slot').assignedElements()).toHaveLength(1);
      expect(await axeFindings(element)).toEqual([]);
    },
  );
});

describe('m-arithmetic', () => {
  test('prints each step with rule, numbers, result and note', async () => {
    const steps = [
      { label: 'Total', formula: 'a + b', numbers: '1 s + 2 s', result: '3 s', note: 'By hand.' },
    ];
    const element = await mount(html`<m-arithmetic .steps=${steps}></m-arithmetic>`);
    expect(textOf(element)).toBe('Total a + b 1 s + 2 s By hand. 3 s');
    expect(await axeFindings(element)).toEqual([]);
  });
});

describe('m-progress', () => {
  test.each([
    [0.204, '20'],
    [7, '100'],
    [-1, '0'],
  ])('%d is %s per cent', async (done, percent) => {
    const element = await mount(html`<m-progress label="Reading" .done=${done}></m-progress>`);
    expect(one(element, '[role=progressbar]').getAttribute('aria-valuenow')).toBe(percent);
    expect(await axeFindings(element)).toEqual([]);
  });

  test('without a known size claims no percentage', async () => {
    const element = await mount(html`<m-progress label="Looking"></m-progress>`);
    expect(one(element, '[role=progressbar]').hasAttribute('aria-valuenow')).toBe(false);
    expect(await axeFindings(element)).toEqual([]);
  });
});

describe('m-icon', () => {
  test('draws every shape differently, so that none is known by colour alone', async () => {
    const outlines = new Set<string>();
    for (const shape of ICON_SHAPES) {
      const icon = await mount(html`<m-icon shape=${shape} label=${shape}></m-icon>`);
      const parts = every(icon, 'path, circle').map((part) => part.outerHTML.replace(/<!--.*?-->/g, ''));
      expect(parts.length, shape).toBeGreaterThan(0);
      outlines.add(parts.join());
      expect(one(icon, 'svg').getAttribute('aria-label')).toBe(shape);
    }
    expect(outlines.size).toBe(ICON_SHAPES.length);
  });

  test('without a label is decoration', async () => {
    const icon = await mount(html`<m-icon shape="pass"></m-icon>`);
    expect(one(icon, 'svg').getAttribute('aria-hidden')).toBe('true');
  });
});
