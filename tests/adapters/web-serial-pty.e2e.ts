import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { slcanDecoder } from '../../src/wire/slcan.ts';
import { millis } from '../../src/quantities/time.ts';
import { openPtyBench, whyNoPty, type PtyBench } from './fixtures/pty-bench.ts';

const reason = whyNoPty();
if (reason !== null) console.log(`Web Serial over a pseudo-terminal is skipped: ${reason}.`);

const FRAMES = 20_000;
const WAIT = { timeout: 20_000, interval: 100 };

/** The line that the SLCAN grammar gives for the peer's frame: id 0CF00400, 8 bytes, speed in bytes 4 and 5. */
function lineOf(number: number): string {
  const hex = (byte: number) => byte.toString(16).toUpperCase().padStart(2, '0');
  return `T0CF004008FFFFFF${hex(number & 0xff)}${hex(number >> 8)}FFFFFF`;
}

describe.skipIf(reason !== null)("the browser's own Web Serial over a pseudo-terminal", () => {
  let bench: PtyBench;
  beforeAll(async () => {
    bench = await openPtyBench();
  });
  afterAll(() => bench?.close());

  const seen = () => bench.page.evaluate(() => window.serialPage.seen());
  const connect = async () => {
    const device = await bench.page.evaluate(() => window.serialPage.connect());
    await vi.waitFor(async () => expect((await seen()).kinds).toContain('open'), WAIT);
    return device;
  };
  const framesSeen = async () => (await seen()).text.split('\r').filter((line) => line.startsWith('T'));

  test('names the port by its USB ids', async () => {
    expect(await bench.page.evaluate(() => window.serialPage.usable())).toBe(true);
    expect(await connect()).toBe('USB serial bridge 1D50:606F');
  });

  test(`takes ${FRAMES} frames from python-can, every one and in order, and python-can reads ours`, async () => {
    const peer = bench.peer(FRAMES, 2);
    await vi.waitFor(() => expect(peer.lines).toContain('sent'), WAIT);
    await vi.waitFor(async () => expect(await framesSeen()).toHaveLength(FRAMES), WAIT);
    const frames = await framesSeen();
    expect(frames.findIndex((line, number) => line !== lineOf(number))).toBe(-1);
    const { batches } = slcanDecoder.step(
      slcanDecoder.initial(),
      new TextEncoder().encode((await seen()).text),
      millis(0),
    );
    const ids = batches.flatMap(({ id, count }) => [...id.subarray(0, count)]);
    expect([ids.length, new Set(ids)]).toEqual([FRAMES, new Set([0x0cf00400])]);
    const sent = bench.page.evaluate(() =>
      Promise.all([
        window.serialPage.send('T18EAFFF93EEFE00\r'),
        window.serialPage.send('T18EAFFF93ECFE00\r'),
      ]),
    );
    expect(await sent).toEqual([true, true]);
    expect(await peer.done).toBe(0);
    expect(peer.lines.slice(1)).toEqual(['18EAFFF9 eefe00', '18EAFFF9 ecfe00']);
    expect((await seen()).errors).toEqual([]);
  });

  test('frees the port on closing, so that it opens again at once', async () => {
    await bench.page.evaluate(() => window.serialPage.disconnect());
    await connect();
    expect(await bench.page.evaluate(() => window.serialPage.send('V\r'))).toBe(true);
    const peer = bench.peer(100, 0);
    expect(await peer.done).toBe(0);
    await vi.waitFor(async () => expect(await framesSeen()).toHaveLength(100), WAIT);
  });

  test('says that a port which this page holds open already is busy', async () => {
    await bench.page.evaluate(async () => window.serialPage.connect());
    await vi.waitFor(
      async () => expect((await seen()).errors).toEqual([{ code: 'link.port-busy', context: {} }]),
      WAIT,
    );
    await bench.page.reload();
    await bench.page.waitForFunction(() => 'serialPage' in window);
  });

  test('after Disconnect a second tab opens the port at once and gets every frame', async () => {
    await connect();
    const second = await bench.newPage();
    const seenThere = () => second.evaluate(() => window.serialPage.seen());
    // That a tab finds the port busy meanwhile cannot be seen here: the system lets root open a terminal twice.
    await bench.page.evaluate(() => window.serialPage.disconnect());
    await second.evaluate(() => window.serialPage.connect());
    await vi.waitFor(async () => expect((await seenThere()).kinds).toContain('open'), WAIT);
    const peer = bench.peer(50, 0);
    expect(await peer.done).toBe(0);
    const framesThere = async () => (await seenThere()).text.match(/T0CF004008/g) ?? [];
    await vi.waitFor(async () => expect(await framesThere()).toHaveLength(50), WAIT);
    expect((await seenThere()).errors).toEqual([]);
    await second.close();
  });

  test('pulled and plugged in again, it goes on through the new port object, again and again', async () => {
    await bench.page.evaluate(() => window.serialPage.reopenOnReturn());
    await connect();
    for (const round of [1, 2]) {
      await bench.unplug();
      await vi.waitFor(async () => expect((await seen()).errors).toHaveLength(round), WAIT);
      expect((await seen()).errors.at(-1)).toMatchObject({ code: 'link.lost' });
      await bench.replug();
      await vi.waitFor(
        async () => expect(await bench.page.evaluate(() => window.serialPage.isNewPort())).toBe(true),
        WAIT,
      );
      const before = (await framesSeen()).length;
      const peer = bench.peer(1000, 1);
      await vi.waitFor(() => expect(peer.lines).toContain('sent'), WAIT);
      await vi.waitFor(async () => expect(await framesSeen()).toHaveLength(before + 1000), WAIT);
      expect((await framesSeen()).slice(before)).toEqual(Array.from({ length: 1000 }, (_, n) => lineOf(n)));
      expect(await bench.page.evaluate(() => window.serialPage.send('T18EAFFF93EEFE00\r'))).toBe(true);
      expect(await peer.done).toBe(0);
      expect(peer.lines.at(-1)).toBe('18EAFFF9 eefe00');
    }
    await bench.page.evaluate(() => window.serialPage.disconnect());
  });

  test('tells a loss that the browser is not told of, once, and refuses to send from then on', async () => {
    await bench.page.reload();
    await bench.page.waitForFunction(() => 'serialPage' in window);
    await connect();
    await bench.unplug('silently');
    await vi.waitFor(async () => expect((await seen()).errors).toHaveLength(1), WAIT);
    expect((await seen()).errors).toMatchObject([{ code: 'link.lost' }]);
    expect(await bench.page.evaluate(() => window.serialPage.send('V\r'))).toBe(false);
  });
});
