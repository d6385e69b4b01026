import { html } from 'lit';
import { userEvent } from 'vitest/browser';
import { afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/link-health.ts';
import { NO_HEALTH, type LinkHealthView } from '../../src/ui/link-health-parts.ts';
import { axeFindings, clearPage, every, heard, mount, one, settled, sideways, textOf } from './mount.ts';
import { HEALTH } from './source-samples.ts';

afterEach(clearPage);

const health = (view: LinkHealthView = HEALTH, expanded = true) =>
  mount<HTMLElementTagNameMap['m-link-health']>(
    html`<m-link-health .health=${view} ?expanded=${expanded}></m-link-health>`,
  );
const figures = (element: Element) => every(element, 'dl > div').map(textOf);

describe('m-link-health', () => {
  test('says the essence in one line, trouble included', async () => {
    const element = await health(HEALTH, false);
    expect(textOf(one(element, 'summary'))).toBe(
      'Link 1\u202f214 frames/s bus 61–74 % 3 malformed 1 broken off 2 of 4 signals stale'.replaceAll(
        '\u202f',
        ' ',
      ),
    );
    expect(element.shadowRoot?.querySelector('dl')).toBeNull();
  });

  test('says so when there is no trouble', async () => {
    const calm = {
      ...HEALTH,
      malformed: 0,
      brokenTransfers: 0,
      lost: 0,
      signals: HEALTH.signals.slice(0, 1),
    };
    expect(textOf(one(await health(calm, false), 'summary'))).toContain('nothing malformed');
  });

  test('opens and closes by keyboard, and says so', async () => {
    const element = await health(HEALTH, false);
    const said = heard(element, 'health-expanded');
    await userEvent.tab();
    await userEvent.keyboard('{Enter}');
    await expect.poll(() => said).toEqual([{ expanded: true }]);
    await settled(element);
    expect(figures(element)).toHaveLength(7);
    await userEvent.keyboard('{Enter}');
    await expect.poll(() => said).toEqual([{ expanded: true }, { expanded: false }]);
  });

  test('shows bus load as a range and calls it an estimate', async () => {
    expect(figures(await health())[1]).toBe('Bus load 61–74 % estimate');
    const sure = await health({ ...HEALTH, busLoadPercent: [40.2, 40.4] });
    expect(figures(sure)[1]).toBe('Bus load 40 % estimate');
  });

  test('does not claim that nothing was lost where the bridge does not tell', async () => {
    expect(figures(await health())).toContain('Lost not told this bridge does not say');
    expect(figures(await health({ ...HEALTH, lost: 12 }))).toContain('Lost 12 told by the bridge');
    expect(figures(await health({ ...HEALTH, lost: 0 }))).toContain('Lost 0 told by the bridge');
  });

  test('lists the addresses by hexadecimal number, name and rate', async () => {
    const rows = every(await health(), '.addresses tbody tr').map(textOf);
    expect(rows).toEqual(['00 Engine 812', '03 Transmission 240', '0B Brakes 160', 'F9 ch 2 not known 0.2']);
  });

  test('shows each signal with rate, age and state by word and shape, and no number that is lost', async () => {
    const element = await health();
    const rows = every(element, '.signals tbody tr');
    expect(rows.map(textOf)).toEqual([
      'Engine speed from 00 152 rpm 100 /s 0.0 s live',
      'Rail pressure from 00 31.8 MPa 2.0 /s 3.1 s stale',
      'Battery voltage from 31 – V 1.0 /s 64 s lost',
      'Fuel temperature from 00 – °C 1.0 /s 0.4 s not available',
    ]);
    expect(rows.map((row) => row.querySelector('m-icon')?.getAttribute('shape'))).toEqual([
      'live',
      'stale',
      'lost',
      'none',
    ]);
  });

  test('teaches while nothing is known, and axe finds nothing', async () => {
    const element = await health(NO_HEALTH);
    expect(textOf(element)).toContain('None yet. A silent bus often means that the key is off.');
    expect(textOf(element)).toContain('No signal yet.');
    expect(await axeFindings(element)).toEqual([]);
  });

  test('announces nothing: the figures never stop', async () => {
    const element = await health();
    expect(element.shadowRoot?.querySelector('[aria-live], [role=status], [role=alert]')).toBeNull();
  });

  test('fits a phone, and axe finds nothing at either width', async () => {
    const element = await health();
    expect(await axeFindings(element)).toEqual([]);
    expect(await sideways(element)).toEqual([]);
    expect(one(element, 'summary').getBoundingClientRect().height).toBeGreaterThanOrEqual(48);
    expect(await axeFindings(element)).toEqual([]);
  });
});
