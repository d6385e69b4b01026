import { html } from 'lit';
import { page, userEvent } from 'vitest/browser';
import { afterAll, afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/typed-codes.ts';
import { HEARD, TYPED } from './job-samples.ts';
import { axeFindings, clearPage, every, heard, mount, one, sideways, smallTargets, textOf } from './mount.ts';

afterEach(clearPage);
afterAll(() => page.viewport(414, 896)); // what the other files were started with

type Codes = HTMLElementTagNameMap['m-typed-codes'];
const codes = (typed = TYPED, bus = HEARD, fixed = false) =>
  mount<Codes>(
    html`<m-typed-codes
      .codes=${typed}
      .heard=${bus}
      .describe=${(spn: number) => (spn === 157 ? 'Rail pressure' : '')}
      ?fixed=${fixed}
    ></m-typed-codes>`,
  );

describe('m-typed-codes', () => {
  test('a code is said when both of its numbers are there', async () => {
    const element = await codes([]);
    const said = heard(element, 'codes-changed');
    one(element, '#spn-0').focus();
    await userEvent.keyboard('157{Tab}');
    expect(said).toEqual([]);
    await userEvent.keyboard('18{Tab}dash{Tab}');
    expect(said).toEqual([
      { codes: [{ spn: 157, fmi: 18, note: '' }] },
      { codes: [{ spn: 157, fmi: 18, note: 'dash' }] },
    ]);
    expect(textOf(one(element, '#says-0'))).toBe('Rail pressure');
  });

  // Nineteen and five bits (SAE J1939-73, DM1): 524287 and 31 are the last that can be.
  test.each([
    ['524287', '31', null],
    ['524288', '0', 'SPN is a whole number from 0 to 524287.'],
    ['157', '32', 'FMI is a whole number from 0 to 31.'],
    ['-1', '3', 'SPN is a whole number from 0 to 524287.'],
    ['12.5', '3', 'SPN is a whole number from 0 to 524287.'],
    ['157', '', 'Type the FMI as well'],
  ])('SPN %s FMI %s', async (spn, fmi, mistake) => {
    const element = await codes([]);
    const said = heard(element, 'codes-changed');
    await userEvent.fill(one(element, '#spn-0'), spn);
    await userEvent.fill(one(element, '#fmi-0'), fmi);
    one(element, '.more').focus();
    await element.updateComplete;
    if (mistake === null) expect(said).toEqual([{ codes: [{ spn: 524287, fmi: 31, note: '' }] }]);
    else {
      expect(said).toEqual([]);
      expect(textOf(one(element, '.mistake'))).toContain(mistake);
      expect(every(element, '[aria-invalid=true]')).toHaveLength(1);
    }
  });

  test('one more code takes the focus; a removed one is said', async () => {
    const element = await codes();
    const said = heard(element, 'codes-changed');
    one(element, '.more').click();
    await element.updateComplete;
    await element.updateComplete;
    expect(element.shadowRoot!.activeElement!.id).toBe('spn-1');
    one(element, '[aria-label="Remove code 1"]').click();
    expect(said).toEqual([{ codes: [] }]);
  });

  test('shows those of the bus beside, with their state by word and shape', async () => {
    const element = await codes();
    const rows = every(element, '.code');
    expect(rows.map(textOf)).toEqual([
      'SPN 157 · FMI 18 active . Rail pressure: too low',
      'SPN 94 · FMI 1 previous',
    ]);
    expect(rows.map((row) => row.querySelector('m-icon')?.getAttribute('shape'))).toEqual([
      'live',
      'waiting',
    ]);
    expect(textOf(await codes([], []))).toContain('None heard. Connect a bridge with the key on');
  });

  test('a signed job shows them without boxes', async () => {
    const element = await codes(TYPED, [], true);
    expect(every(element, 'input, button')).toEqual([]);
    expect(textOf(one(element, '.code'))).toBe('SPN 157 · FMI 18 Rail pressure. dash display');
  });
});

test.each([1280, 390])(
  'at %d wide nothing scrolls sideways, all is for gloves, axe finds nothing',
  async (width) => {
    await page.viewport(width, 844);
    const element = await codes();
    if (width === 390) expect(await sideways(element)).toEqual([]);
    expect(smallTargets(element, 'button, input')).toEqual([]);
    expect(await axeFindings(element)).toEqual([]);
  },
);
