import { html } from 'lit';
import { page } from 'vitest/browser';
import { afterAll, afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/job-sheet.ts';
import type { JobSheetView } from '../../src/ui/job-sheet-view.ts';
import { SHEET_VIEW } from './job-page-samples.ts';
import { axeFindings, clearPage, every, heard, mount, one, settled, sideways, textOf } from './mount.ts';

afterEach(clearPage);
afterAll(() => page.viewport(414, 896)); // what the other files were started with

type Sheet = HTMLElementTagNameMap['m-job-sheet'];
const sheet = (change: Partial<JobSheetView> = {}) =>
  mount<Sheet>(html`<m-job-sheet .view=${{ ...SHEET_VIEW, ...change }}></m-job-sheet>`);
const section = (element: Sheet, at: number) => textOf(every(element, 'section')[at]!);

describe('m-job-sheet', () => {
  test('has five parts: asked, measured, done, noted, concluded; without notes four', async () => {
    expect(every(await sheet(), 'h2').map(textOf)).toEqual([
      'What was asked',
      'What was measured',
      'What was done',
      'What was noted',
      'What was concluded',
    ]);
    expect(every(await sheet({ notes: [] }), 'h2')).toHaveLength(4);
  });

  test('says what was asked: complaint, identity, and codes with where they come from', async () => {
    const asked = section(await sheet(), 0);
    expect(asked).toContain('Loses power on hills');
    expect(asked).toContain('Engine serial number P321');
    expect(asked).toContain('VIN –');
    expect(asked).toContain('SPN 157 FMI 18 Rail pressure: too low ( from the bus, active )');
  });

  test('says of each check value, limit, sheet, verdict and how sure', async () => {
    const rows = every(await sheet(), 'tbody').map(textOf);
    expect(rows[1]).toBe(
      '2 Supply pressure while cranking 412 kPa ± 9 at least 300 kPa Invented limits, revision 3 pass 98.1 % sure',
    );
    expect(rows[3]).toContain('fail high more than 99.9 % sure to be repeated');
  });

  test('hides nothing: what was left out, what does not count, what was not done', async () => {
    const rows = every(await sheet(), 'tbody').map(textOf);
    expect(rows[2]).toBe(
      '3 Suction restriction – – left out Left out: no gauge at hand; the customer agreed.',
    );
    expect(rows[3]).toContain('Run 1 (240 mL ± 14) does not count: the hose had slipped off.');
    expect(rows[4]).toContain('not done');
  });

  test('shows the fuel path, the work and before and after', async () => {
    const element = await sheet();
    expect(textOf(one(element, 'm-fuel-path'))).toContain(SHEET_VIEW.pathWords);
    expect(section(element, 2)).toContain('Metering valve 12-34 replaced');
    expect(textOf(one(element, 'm-before-after'))).toContain('more than chance');
    expect(section(await sheet({ works: [] }), 2)).toContain('No work was done in this job.');
  });

  test('ends with decision, words, signature, revision, what stands above it, and the versions', async () => {
    const element = await sheet();
    const end = section(element, 4);
    expect(end).toContain('Repair now');
    expect(end).toContain('A. Reader, 2026-11-25 12:04');
    expect(end).toContain('Opened again 2026-11-25 11:10');
    expect(textOf(one(element, 'header'))).toContain('Signed, revision 2');
    expect(textOf(one(element, 'footer'))).toContain('grading revision 1');
    expect(textOf(one(element, 'footer'))).toContain('stands above this page');
  });

  test('an open job says that it is not the end', async () => {
    const element = await sheet({ conclusion: null, standing: 'Open: not the final page' });
    expect(section(element, 4)).toContain('Not concluded.');
    expect(every(element, '.signs')).toEqual([]);
  });

  test('a simulated engine or invented limits are said at the top', async () => {
    expect(textOf(one(await sheet(), '.practice'))).toContain('the engine is simulated');
    expect(every(await sheet({ practice: '' }), '.practice')).toEqual([]);
  });

  test('text from outside stays text', async () => {
    const element = await sheet({ complaint: '<img src=x onerror=alert(1)>' });
    expect(textOf(one(element, '.complaint'))).toBe('<img src=x onerror=alert(1)>');
    expect(every(element, 'img')).toEqual([]);
  });

  test('asks for printing', async () => {
    const element = await sheet();
    const said = heard(element, 'print-wanted');
    one(element, 'button').click();
    expect(said).toHaveLength(1);
  });
});

// 700 px: A4 between margins of 12 mm at 96 dots an inch.
test.each([1280, 700, 390])('at %d wide nothing scrolls sideways and axe finds nothing', async (width) => {
  await page.viewport(width, 844);
  const element = await sheet();
  await settled(element);
  expect(document.documentElement.scrollWidth).toBeLessThanOrEqual(width);
  if (width === 390) expect(await sideways(element)).toEqual([]);
  expect(await axeFindings(element)).toEqual([]);
});
