import { html } from 'lit';
import { userEvent } from 'vitest/browser';
import { afterEach, describe, expect, test } from 'vitest';
import '../../src/ui/raw-monitor.ts';
import { monitorRing, type MonitorRing } from '../../src/ui/raw-monitor-ring.ts';
import { axeFindings, clearPage, drawn, every, heard, mount, one, sideways, textOf } from './mount.ts';
import { bytesRow, frameRow, mixedRow } from './source-samples.ts';

afterEach(clearPage);

type Monitor = HTMLElementTagNameMap['m-raw-monitor'];

async function monitor(pushed: number, describeRow = frameRow) {
  const ring = monitorRing(20_000, describeRow);
  feed(ring, 0, pushed);
  const element = await mount<Monitor>(html`<m-raw-monitor .source=${ring.source}></m-raw-monitor>`);
  await redrawn(element);
  return { element, ring };
}

function feed(ring: MonitorRing<number>, from: number, to: number): void {
  for (let at = from; at < to; at += 1) ring.push(at);
}

/** Until the next drawing, which comes at most 100 ms later. */
async function redrawn(element: Monitor): Promise<void> {
  const until = performance.now() + 130;
  while (performance.now() < until) await new Promise(requestAnimationFrame);
  await element.updateComplete;
}

const times = (element: Monitor) => every(element, '.rows .time').map((cell) => textOf(cell));
const timeOf = (at: number) => (at / 1800).toFixed(4);
const visible = (element: Monitor) => {
  const view = one(element, '.scroll').getBoundingClientRect();
  return every(element, '.rows [role=row]').filter((row) => {
    const { top, bottom } = row.getBoundingClientRect();
    return top >= view.top - 1 && bottom <= view.bottom + 1;
  });
};

describe('m-raw-monitor', () => {
  test('shows frames as received with what they say beside, and follows the end', async () => {
    const { element, ring } = await monitor(5000);
    const last = every(element, '.rows [role=row]').at(-1);
    const cells = [...(last?.querySelectorAll('[role=cell]') ?? [])].map(textOf);
    // Frame 4999 of the sample: raw 1200 + 4999 % 40 = 1239 = 0x04D7; 1239 × 0.125 rpm (J1939-71, SPN 190) = 154.875.
    expect(cells).toEqual([
      timeOf(4999),
      '0CF00400',
      '61444',
      '00',
      'FF FF FF D7 04 FF FF FF',
      'Engine speed 154.9 rpm',
    ]);
    feed(ring, 5000, 6000);
    await redrawn(element);
    expect(times(element).at(-1)).toBe(timeOf(5999));
    expect(visible(element).at(-1)?.getAttribute('aria-rowindex')).toBe('6001');
    expect(textOf(one(element, '.counts'))).toBe('Running 6 000 received');
  });

  test('draws the visible rows only, and says how many there are', async () => {
    const { element } = await monitor(20_000);
    const fit =
      one(element, '.scroll').clientHeight / (visible(element)[0]?.getBoundingClientRect().height ?? 1);
    expect(every(element, '.rows [role=row]').length).toBeLessThanOrEqual(fit + 3);
    expect(one(element, '[role=table]').getAttribute('aria-rowcount')).toBe('20001');
    expect(element.shadowRoot?.querySelector('[aria-live]')).toBeNull();
  });

  test('the space key pauses: the screen stands still while the source goes on', async () => {
    const { element, ring } = await monitor(5000);
    const paused = heard(element, 'monitor-paused');
    one(element, '.scroll').focus();
    await userEvent.keyboard(' ');
    await element.updateComplete;
    const before = times(element);
    const { scrollTop } = one(element, '.scroll');
    feed(ring, 5000, 40_000);
    await redrawn(element);
    expect(times(element)).toEqual(before);
    expect(one(element, '.scroll').scrollTop).toBe(scrollTop);
    expect(textOf(one(element, '[role=status]'))).toBe('Paused. Recording goes on.');
    await userEvent.keyboard(' ');
    await redrawn(element);
    expect(times(element).at(-1)).toBe(timeOf(39_999));
    expect(textOf(one(element, '.counts'))).toBe('Running 40 000 received last 20 000 held here');
    expect(paused).toEqual([{ paused: true }, { paused: false }]);
  });

  test('scrolling back pauses, and every row can be reached', async () => {
    const { element } = await monitor(5000);
    const scroll = one(element, '.scroll');
    scroll.scrollTop = 0;
    await redrawn(element);
    expect(element.paused).toBe(true);
    expect(textOf(visible(element)[0] ?? element)).toContain(timeOf(0));
    scroll.scrollTop = scroll.scrollHeight / 2;
    await redrawn(element);
    const shown = visible(element).map((row) => Number(row.getAttribute('aria-rowindex')) - 2);
    expect(shown[0]).toBeGreaterThan(2400);
    expect(shown).toEqual(shown.map((_, at) => (shown[0] ?? 0) + at));
    expect(visible(element).map((row) => textOf(row.querySelector('.time') ?? row))).toEqual(
      shown.map(timeOf),
    );
  });

  test('another height of the screen does not pause it', async () => {
    const { element } = await monitor(5000);
    const scroll = one(element, '.scroll');
    for (const height of ['900px', '200px', '500px']) {
      scroll.style.setProperty('height', height);
      await redrawn(element);
      await redrawn(element);
      expect(element.paused, height).toBe(false);
      expect(visible(element).at(-1)?.getAttribute('aria-rowindex')).toBe('5001');
      const rowPx = one(element, '.rows [role=row]').getBoundingClientRect().height;
      expect(visible(element).length).toBe(Math.floor(scroll.clientHeight / rowPx));
    }
  });

  test('a turned phone keeps the paused row in its place', async () => {
    const { element } = await monitor(5000);
    const firstShown = () => Number(visible(element)[0]?.getAttribute('aria-rowindex')) - 2;
    element.style.setProperty('width', '1000px');
    await redrawn(element);
    one(element, '.scroll').scrollTop =
      2000 * one(element, '.rows [role=row]').getBoundingClientRect().height;
    await redrawn(element);
    expect(firstShown()).toBe(2000);
    element.style.setProperty('width', '358px');
    await redrawn(element);
    expect(firstShown()).toBe(2000);
    element.style.setProperty('width', '1000px');
    await redrawn(element);
    expect(firstShown()).toBe(2000);
  });

  test.each(['', 'from:00'])(
    'stops with the rows that were seen, though older ones went meanwhile (%j)',
    async (filter) => {
      const { element, ring } = await monitor(30_000);
      if (filter) await userEvent.type(one(element, 'input'), filter);
      for (let turn = 0; turn < 6; turn += 1) await redrawn(element);
      const before = times(element);
      const clicked = visible(element)[3];
      const time = textOf(clicked?.querySelector('.time') ?? element);
      feed(ring, 30_000, 30_170);
      clicked?.click();
      await element.updateComplete;
      await drawn();
      expect(textOf(one(element, '.chosen .time'))).toBe(`${time} chosen`);
      expect(times(element).map((each) => each.replace(' chosen', ''))).toEqual(
        expect.arrayContaining(before),
      );
      expect(visible(element).map(textOf)).toContain(textOf(one(element, '.chosen')));
    },
  );

  test('filters old and new rows, and goes on following', async () => {
    const { element, ring } = await monitor(9000);
    await userEvent.type(one(element, 'input'), 'from:0b');
    for (let turn = 0; turn < 4; turn += 1) await redrawn(element);
    expect(textOf(one(element, '.counts'))).toBe('Running 9 000 received 2 250 fit'); // every fourth
    feed(ring, 9000, 9005);
    await redrawn(element);
    expect(textOf(one(element, '.counts'))).toContain('2 252 fit'); // 9000 and 9004
    expect(times(element).at(-1)).toBe(timeOf(9004));
    expect(every(element, '.rows .from').every((cell) => textOf(cell) === '0B')).toBe(true);
    await userEvent.clear(one(element, 'input'));
    await userEvent.type(one(element, 'input'), 'nosuch');
    await redrawn(element);
    expect(textOf(one(element, '.scroll'))).toBe('Nothing received so far fits.');
    expect(await axeFindings(element)).toEqual([]);
  });

  test('copies the visible lines where none is chosen', async () => {
    const { element } = await monitor(5000);
    const wanted = heard(element, 'copy-wanted') as { text: string; lines: number }[];
    one(element, '.copy').click();
    const lines = wanted[0]?.text.trimEnd().split('\n') ?? [];
    expect(lines.length).toBe(wanted[0]?.lines);
    expect(lines.length).toBe(visible(element).length);
    expect(lines.at(-1)).toBe(`${timeOf(4999)}\t0CF00400\tFF FF FF D7 04 FF FF FF\tEngine speed 154.9 rpm`);
  });

  test('copies rows chosen by pointer, and choosing pauses', async () => {
    const { element } = await monitor(5000);
    const wanted = heard(element, 'copy-wanted') as { text: string; lines: number }[];
    const rows = visible(element);
    rows[2]?.click();
    await element.updateComplete;
    expect(element.paused).toBe(true);
    rows[5]?.dispatchEvent(new MouseEvent('click', { bubbles: true, composed: true, shiftKey: true }));
    await element.updateComplete;
    expect(every(element, '.chosen')).toHaveLength(4);
    expect(textOf(one(element, '.copy'))).toBe('Copy 4 lines');
    one(element, '.copy').click();
    expect(wanted[0]?.lines).toBe(4);
    expect(wanted[0]?.text.split('\n')[0]).toContain(textOf(rows[2]?.querySelector('.id') ?? element));
  });

  test('chooses and copies by keyboard alone', async () => {
    const { element } = await monitor(5000);
    const wanted = heard(element, 'copy-wanted') as { text: string; lines: number }[];
    one(element, '.scroll').focus();
    await userEvent.keyboard('{ArrowUp}{Shift>}{ArrowUp}{ArrowUp}{/Shift}{Control>}c{/Control}');
    expect(wanted[0]?.text.split('\n').map((line) => line.split('\t')[0])).toEqual([
      timeOf(4997),
      timeOf(4998),
      timeOf(4999),
      '',
    ]);
    await userEvent.keyboard('{Home}');
    await redrawn(element);
    expect(textOf(visible(element)[0] ?? element)).toContain(timeOf(0));
    expect(await axeFindings(element)).toEqual([]);
  });

  test('shows malformed lines, notes and short identifiers among the frames', async () => {
    const { element } = await monitor(400, mixedRow as typeof frameRow);
    const rows = every(element, '.rows [role=row]').map(textOf);
    expect(rows.some((row) => row.endsWith('t7FF9FFFF malformed: says 9 bytes, has 2'))).toBe(true);
    expect(rows.some((row) => row.includes('7E8 – – 06 41 00 BE'))).toBe(true);
    expect(await axeFindings(element)).toEqual([]);
  });

  test('shows an unintelligible stream as bytes, with advice', async () => {
    const advice = { message: 'Bytes mean nothing at this speed.', remedy: 'Choose another.' };
    const element = await mount<Monitor>(
      html`<m-raw-monitor
        mode="bytes"
        .source=${{ count: () => 300, row: bytesRow }}
        .advice=${advice}
      ></m-raw-monitor>`,
    );
    await redrawn(element);
    expect(textOf(one(element, 'm-problem'))).toBe('Bytes mean nothing at this speed. Choose another.');
    expect(textOf(every(element, '.rows [role=row]').at(-1) ?? element)).toBe(
      '29.9 E6 06 18 E6 98 60 1E 78 .....`.x',
    );
    expect(await axeFindings(element)).toEqual([]);
    expect(await sideways(element)).toEqual([]);
    expect(one(element, '.rows .hex').scrollWidth).toBeLessThanOrEqual(
      one(element, '.rows .hex').clientWidth,
    );
  });

  test('teaches before anything came, and takes a new source as new', async () => {
    const element = await mount<Monitor>(html`<m-raw-monitor></m-raw-monitor>`);
    expect(textOf(one(element, '.scroll'))).toBe('Nothing received yet.');
    expect(await axeFindings(element)).toEqual([]);
    element.source = { count: () => 2, row: frameRow };
    await redrawn(element);
    expect(times(element)).toEqual([timeOf(0), timeOf(1)]);
  });

  test('gives each row two lines on a phone and cuts no byte off', async () => {
    const { element } = await monitor(5000);
    expect(await sideways(element)).toEqual([]);
    await redrawn(element);
    const data = every(element, '.rows .data').at(-1);
    expect(data?.scrollWidth).toBeLessThanOrEqual(data?.clientWidth ?? 0);
    expect(visible(element).at(-1)?.getAttribute('aria-rowindex')).toBe('5001');
    expect(await axeFindings(element)).toEqual([]);
  });

  test('keeps up with 1,800 frames a second of real time, drawing at most ten times a second', async () => {
    const { element, ring } = await monitor(20_000, mixedRow as typeof frameRow);
    const work = element as unknown as { performUpdate(): void };
    const update = work.performUpdate.bind(element);
    const spent: number[] = [];
    work.performUpdate = () => {
      const before = performance.now();
      update();
      spent.push(performance.now() - before);
    };
    const begun = performance.now();
    let fed = 20_000;
    while (performance.now() - begun < 3000) {
      await new Promise(requestAnimationFrame);
      const due = 20_000 + Math.floor((performance.now() - begun) * 1.8);
      feed(ring, fed, due);
      fed = due;
    }
    const seconds = (performance.now() - begun) / 1000;
    await redrawn(element);
    const total = spent.reduce((sum, each) => sum + each, 0);
    console.log(
      `raw monitor: ${fed - 20_000} frames in ${seconds.toFixed(2)} s, ${spent.length} drawings, ` +
        `${total.toFixed(0)} ms of main thread (${((100 * total) / (seconds * 1000)).toFixed(1)} %), longest ${Math.max(...spent).toFixed(1)} ms`,
    );
    expect(spent.length).toBeLessThanOrEqual(seconds * 10 + 4);
    expect(spent.length).toBeGreaterThan(3);
    expect(times(element).at(-1)).toBe(timeOf(fed - 1));
    expect(textOf(one(element, '.counts'))).toContain('last 20 000 held here');
    await drawn();
    expect(every(element, '.rows [role=row]').length).toBeLessThan(60);
  });
});
