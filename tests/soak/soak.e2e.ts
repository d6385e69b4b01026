import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { CDPSession, Page } from 'playwright';
import { WebSocketServer, type WebSocket } from 'ws';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { noBrowser, openShop, type Shop } from '../e2e/harness.ts';
import { acceptCautions } from '../e2e/run-flow.ts';
import { bytesBetween, FRAMES_PER_SECOND } from './busy-bus.ts';

/**
 * A full bus on the run page of the built page, in Chromium, in real time. The bytes come over a WebSocket from this process, as from a
 * bridge on the network, and reach the page's Web Serial source through a port of our own: everything from the serial reader on is the page's.
 * Takes 90 s, so it is asked for: MENISCUS_SOAK=1 npm run test:e2e -- tests/soak
 */
const wanted = process.env['MENISCUS_SOAK'] === '1';
const why = noBrowser ?? (wanted ? null : 'MENISCUS_SOAK=1 asks for it');
if (why) console.log(`soak in Chromium: skipped, ${why}`);

const WARM_UP_S = 10;
const MEASURED_S = 60;
const SEND_EVERY_MS = 20;
const MOST_SHARE = 0.3;

describe.skipIf(why !== null)('a full bus on the run page, in Chromium', () => {
  let shop: Shop;
  let bridge: BusyBridge;
  beforeAll(async () => {
    [shop, bridge] = await Promise.all([openShop(), openBridge()]);
  });
  afterAll(async () => {
    await shop?.close();
    bridge?.close();
  });

  test('takes under 30 % of one core of the main thread, and reads every frame', async () => {
    const { page, context } = await shop.visit();
    await context.addInitScript(serialOverWebSocket, bridge.url);
    await page.reload();
    await page.getByRole('button', { name: 'Choose the port' }).click();
    await acceptCautions(page);
    await page.waitForTimeout(WARM_UP_S * 1000);
    const cdp = await context.newCDPSession(page);
    await cdp.send('Performance.enable', { timeDomain: 'threadTicks' });
    const [before, sentBefore] = [await metricsOf(cdp), bridge.sentFrames()];
    await page.waitForTimeout(MEASURED_S * 1000);
    const [after, sentAfter] = [await metricsOf(cdp), bridge.sentFrames()];
    // In the thread's own time: what others do on the machine does not count.
    const share = (after.taskSeconds - before.taskSeconds) / MEASURED_S;
    const rate = (sentAfter - sentBefore) / MEASURED_S;
    console.log(
      `${rate.toFixed(0)} frames a second for ${MEASURED_S} s: main thread ${(100 * share).toFixed(1)} % of one core, ` +
        `heap ${(before.heapBytes / 1e6).toFixed(1)} to ${(after.heapBytes / 1e6).toFixed(1)} MB`,
    );
    expect(rate).toBeGreaterThan(0.9 * FRAMES_PER_SECOND);
    expect(share).toBeGreaterThan(0.001);
    expect(share).toBeLessThan(MOST_SHARE);
    // What was made is what arrived: the page shows the standing or cranking engine, not a stream that stopped.
    expect(await ageOfSpeedText(page)).not.toMatch(/no data|lost|waiting/i);
  }, 180_000);
});

interface Metrics {
  readonly taskSeconds: number;
  readonly heapBytes: number;
}

async function metricsOf(cdp: CDPSession): Promise<Metrics> {
  const { metrics } = await cdp.send('Performance.getMetrics');
  const of = (name: string) => metrics.find((metric) => metric.name === name)?.value ?? NaN;
  return { taskSeconds: of('TaskDuration'), heapBytes: of('JSHeapUsedSize') };
}

const ageOfSpeedText = (page: Page): Promise<string> =>
  page
    .locator('m-value-tile')
    .first()
    .evaluate((tile) => tile.shadowRoot?.textContent ?? '');

interface BusyBridge {
  readonly url: string;
  sentFrames(): number;
  close(): void;
}

/** A bridge that is always open: SLCAN of the busy bus to whoever connects, at the rate of the wall clock. */
async function openBridge(): Promise<BusyBridge> {
  const server: Server = createServer();
  const sockets = new WebSocketServer({ server });
  let frames = 0;
  sockets.on('connection', (socket: WebSocket) => {
    const startMs = performance.now();
    let sentMs = 0;
    const timer = setInterval(() => {
      const toMs = Math.floor((performance.now() - startMs) / 10) * 10;
      if (toMs > sentMs) socket.send(bytesBetween(sentMs, toMs));
      frames += ((toMs - sentMs) / 1000) * FRAMES_PER_SECOND;
      sentMs = toMs;
    }, SEND_EVERY_MS);
    socket.on('close', () => clearInterval(timer));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  return {
    url: `ws://127.0.0.1:${port}`,
    sentFrames: () => frames,
    close: () => {
      for (const client of sockets.clients) client.terminate();
      server.close();
    },
  };
}

/** Runs in the page: one serial port, of which the bytes come over the WebSocket; each command is answered with CR, as by a bridge. */
function serialOverWebSocket(url: string): void {
  let socket: WebSocketLike | null = null;
  const port = Object.assign(new EventTarget(), {
    readable: null as ReadableStream<Uint8Array> | null,
    writable: null as WritableStream<Uint8Array> | null,
    getInfo: () => ({ usbVendorId: 0x1234, usbProductId: 0x5678 }),
    setSignals: () => Promise.resolve(),
    open: () => {
      let answer = (bytes: Uint8Array) => void bytes;
      port.readable = new ReadableStream<Uint8Array>({
        start: (controller) => {
          answer = (bytes) => controller.enqueue(bytes);
        },
      });
      port.writable = new WritableStream<Uint8Array>({
        write: (bytes) => {
          const text = String.fromCharCode(...bytes);
          answer(new Uint8Array([...text].filter((letter) => letter === '\r').map(() => 13)));
          // `O` or `L` opens the channel: from then on the bus is heard.
          if (!/(^|\r)[OL]/.test(text) || socket) return;
          socket = new WebSocket(url);
          socket.binaryType = 'arraybuffer';
          socket.onmessage = ({ data }) => answer(new Uint8Array(data as ArrayBuffer));
        },
      });
      return Promise.resolve();
    },
    close: () => {
      socket?.close();
      socket = null;
      return Promise.resolve();
    },
  });
  const serial = Object.assign(new EventTarget(), {
    requestPort: () => Promise.resolve(port),
    getPorts: () => Promise.resolve([]),
  });
  Object.defineProperty(navigator, 'serial', { value: serial });
}

type WebSocketLike = InstanceType<typeof globalThis.WebSocket>;
