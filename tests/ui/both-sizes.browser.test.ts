import { html, type TemplateResult } from 'lit';
import { page } from 'vitest/browser';
import { afterAll, afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/ask-dialog.ts';
import '../../src/ui/characteristic-picker.ts';
import '../../src/ui/identity-card.ts';
import '../../src/ui/link-health.ts';
import '../../src/ui/raw-monitor.ts';
import '../../src/ui/search-progress.ts';
import '../../src/ui/source-offers.ts';
import '../../src/ui/source-state.ts';
import '../../src/ui/trouble-codes-list.ts';
import '../../src/ui/typed-cranks.ts';
import '../../src/ui/value-tile.ts';
import { axeFindings, clearPage, drawn, every, mount, one } from './mount.ts';
import {
  bytesRow,
  CONTROLLERS,
  HEALTH,
  IDENTITY,
  LAST,
  mixedRow,
  OFFERS,
  REQUESTS,
  SERVICES,
  STEPS,
} from './source-samples.ts';

const outcome = {
  tone: 'found',
  headline: 'Engine speed is coming in',
  facts: LAST.worked,
  advice: '',
} as const;
const ELEMENTS: Readonly<Record<string, () => TemplateResult>> = {
  sources: () => html`<m-source-offers .offers=${OFFERS} .last=${LAST}></m-source-offers>`,
  search: () => html`<m-search-progress .steps=${STEPS} .done=${0.4}></m-search-progress>`,
  found: () => html`<m-search-progress .steps=${STEPS} .outcome=${outcome}></m-search-progress>`,
  health: () => html`<m-link-health .health=${HEALTH} ?expanded=${true}></m-link-health>`,
  frames: () => html`<m-raw-monitor .source=${{ count: () => 900, row: mixedRow }}></m-raw-monitor>`,
  bytes: () =>
    html`<m-raw-monitor mode="bytes" .source=${{ count: () => 900, row: bytesRow }}></m-raw-monitor>`,
  codes: () => html`<m-trouble-codes .controllers=${CONTROLLERS}></m-trouble-codes>`,
  identity: () => html`<m-identity .entries=${IDENTITY}></m-identity>`,
  ask: () => html`<m-ask open .requests=${REQUESTS}></m-ask>`,
  cranks: () => html`<m-typed-cranks .rows=${[{ seconds: '14,9', rpm: '151.8' }]}></m-typed-cranks>`,
  picker: () => html`<m-characteristic-picker .services=${SERVICES}></m-characteristic-picker>`,
  reopening: () =>
    html`<m-source-state
      state="reopening"
      device-name="USB serial 1A86:7523"
      .secondsSinceLoss=${4.2}
      .malformed=${12}
    ></m-source-state>`,
  stale: () =>
    html`<m-value-tile
      label="Engine speed"
      value="152"
      unit="rpm"
      state="stale"
      age-seconds="3599"
      size="huge"
    ></m-value-tile>`,
};

afterEach(clearPage);
afterAll(() => page.viewport(414, 896)); // what the other files were started with

describe.each([
  [1280, 800],
  [390, 844],
])('at %d × %d', (width, height) => {
  test.each(Object.keys(ELEMENTS))('%s scrolls nothing sideways, and axe finds nothing', async (name) => {
    await page.viewport(width, height);
    const element = await mount(ELEMENTS[name]?.() ?? html``);
    await drawn();
    expect(innerWidth).toBe(width);
    expect(document.documentElement.scrollWidth).toBeLessThanOrEqual(width);
    expect(await axeFindings(element)).toEqual([]);
  });
});

describe('the raw monitor', () => {
  test.each([
    [1280, 1.75, ['Time, s', 'Identifier', 'PGN', 'From', 'Data', 'Decoded']],
    [390, 3.25, ['Time, s', 'Identifier', 'Data', 'Decoded']],
  ])('at %d wide has rows of %d rem and its columns in line', async (width, rem, heads) => {
    await page.viewport(width, 844);
    const element = await mount(ELEMENTS['frames']?.() ?? html``);
    await drawn();
    const rootPx = parseFloat(getComputedStyle(document.documentElement).fontSize);
    for (const row of every(element, '.rows [role=row]')) {
      expect(row.getBoundingClientRect().height).toBeCloseTo(rem * rootPx, 1);
    }
    const shown = every(element, '[role=columnheader]').filter(
      (head) => getComputedStyle(head).display !== 'none',
    );
    expect(shown.map((head) => head.textContent)).toEqual(heads);
    const lefts = (cell: string) =>
      new Set(every(element, `.rows ${cell}`).map((each) => Math.round(each.getBoundingClientRect().left)));
    expect(lefts('.data').size).toBe(1);
    expect(lefts('.frame .decoded').size).toBe(1);
    expect(one(element, '.scroll').scrollWidth).toBeLessThanOrEqual(one(element, '.scroll').clientWidth);
  });
});
