import { html } from 'lit';
import { page } from 'vitest/browser';
import { afterAll, afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/before-after.ts';
import { BEFORE_AFTER } from './job-page-samples.ts';
import { axeFindings, clearPage, every, mount, sideways, textOf } from './mount.ts';

afterEach(clearPage);
afterAll(() => page.viewport(414, 896)); // what the other files were started with

type Both = HTMLElementTagNameMap['m-before-after'];
const both = (rows = BEFORE_AFTER) =>
  mount<Both>(html`<m-before-after .rows=${rows} work="Metering valve replaced"></m-before-after>`);

describe('m-before-after', () => {
  test('shows both sides with value, verdict, how sure and runs, and the difference', async () => {
    expect(every(await both(), '.row').map(textOf)).toEqual([
      'Pump return volume at raised rail pressure Before 612 mL ± 14 fail high more than 99.9 % sure, 2 runs After 240 mL ± 14 pass 99.1 % sure, 1 run Difference −372 mL ± 20 more than chance',
      'Rail pressure build while cranking Before 3.4 s ± 0.2 marginal 96.2 % sure, 2 runs After 3.3 s ± 0.2 too close to call 70.0 % sure, 1 run Difference −0.1 s ± 0.3 may be chance',
      'Rail pressure decay after shut-off Before – the runs disagree 2 runs After not repeated yet Difference –',
    ]);
  });

  test('says by shape too whether a difference is more than chance', async () => {
    const shapes = every(await both(), '.change').map((side) =>
      side.querySelector('m-icon')?.getAttribute('shape'),
    );
    expect(shapes).toEqual(['live', 'unsure', undefined]);
  });

  test('without anything to compare it says when there will be', async () => {
    expect(textOf(await both([]))).toContain('Nothing to compare yet. After work is noted');
  });
});

test.each([1280, 390])('at %d wide nothing scrolls sideways and axe finds nothing', async (width) => {
  await page.viewport(width, 844);
  const element = await both();
  if (width === 390) expect(await sideways(element)).toEqual([]);
  expect(await axeFindings(element)).toEqual([]);
});
