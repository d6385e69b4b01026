import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { encodeSlcanFrame } from '../../src/wire/slcan-encode.ts';
import { passesOn } from '../../simulators/bridge/slcan-device.ts';
import { openBluetoothBench, whyNoBluetooth, type BluetoothBench } from './fixtures/bluetooth-bench.ts';
import { emulateBridge, type EmulatedBridge } from './fixtures/bluetooth-peripheral.ts';

const reason = whyNoBluetooth();
if (reason !== null) console.log(`Web Bluetooth on the browser's own stack is skipped: ${reason}.`);

const FRAMES = 2_000;
const WAIT = { timeout: 60_000, interval: 100 };
const EEC1 = 0x0cf00400;
const SHOP = '09:09:09:09:09:09';
const ODD_ADDRESS = '0A:0A:0A:0A:0A:0A';
const UART = {
  service: '6e400001-b5a3-f393-e0a9-e50e24dcca9e',
  notify: '6e400003-b5a3-f393-e0a9-e50e24dcca9e',
  write: '6e400002-b5a3-f393-e0a9-e50e24dcca9e',
};
const ODD = {
  service: '0a5c0001-9d5e-4f8b-8a57-1d2c3b4a5968',
  notify: '0a5c0002-9d5e-4f8b-8a57-1d2c3b4a5968',
  write: '0a5c0003-9d5e-4f8b-8a57-1d2c3b4a5968',
};

/** The line that the SLCAN grammar gives for the bridge's frame: id 0CF00400, 8 bytes, a number in bytes 4 and 5. */
function lineOf(number: number): string {
  const hex = (byte: number) => byte.toString(16).toUpperCase().padStart(2, '0');
  return `T0CF004008FFFFFF${hex(number & 0xff)}${hex(number >> 8)}FFFFFF`;
}

describe.skipIf(reason !== null)("the browser's own Web Bluetooth with an emulated bridge", () => {
  let bench: BluetoothBench;
  let bridge: EmulatedBridge;
  let odd: EmulatedBridge;
  beforeAll(async () => {
    bench = await openBluetoothBench();
    bridge = await emulateBridge(bench.browser, SHOP, 'shop bridge', UART);
    odd = await emulateBridge(bench.browser, ODD_ADDRESS, 'odd bridge', ODD);
  });
  afterAll(() => bench?.close());

  const seen = () => bench.page.evaluate(() => window.bluetoothPage.seen());
  const choose = (services: string[] = []) =>
    bench.page.evaluate((custom) => window.bluetoothPage.choose(custom), services);
  const send = (text: string) => bench.page.evaluate((line) => window.bluetoothPage.send(line), text);
  const open = async () => {
    await bench.page.evaluate(() => window.bluetoothPage.open());
    await vi.waitFor(async () => expect((await seen()).kinds).toContain('open'), WAIT);
  };
  const framesSeen = async () => (await seen()).text.split('\r').filter((line) => line.startsWith('T'));
  /** The bus behind the bridge: frames go by, and it passes on what its setting lets through. */
  const bus = (from: EmulatedBridge, count: number) => {
    for (let number = 0; number < count; number++) {
      const data = Uint8Array.of(255, 255, 255, number & 0xff, number >> 8, 255, 255, 255);
      if (passesOn(from.device, EEC1))
        from.send(encodeSlcanFrame({ id: EEC1, extended: true, remote: false, length: 8, data }));
    }
  };
  const listen = async () => {
    const before = (await seen()).text;
    for (const command of ['V\r', 'S5\r', 'L\r']) expect(await send(command)).toBe('sent');
    await vi.waitFor(async () => expect((await seen()).text).toBe(`${before}V1013\r\r\r`), WAIT);
  };
  const takesFrames = async (from: EmulatedBridge, count: number) => {
    bus(from, count);
    await vi.waitFor(async () => expect(await framesSeen()).toHaveLength(count), WAIT);
    const frames = await framesSeen();
    expect(frames.findIndex((line, number) => line !== lineOf(number))).toBe(-1);
    expect(await seen()).toMatchObject({ errors: [], falls: 0 });
  };

  test('says that a person who closed the chooser chose nothing', async () => {
    expect(await bench.page.evaluate(() => window.bluetoothPage.usable())).toBe(true);
    bench.person = 'closes it';
    expect(await choose()).toBe('link.refused');
    expect([bench.prompts, bridge.connections]).toEqual([1, 0]);
  });

  test('opens the bridge that the person takes, over the connection that choosing made', async () => {
    bench.person = { takes: SHOP };
    expect(await choose()).toBe('shop bridge');
    await open();
    expect(await bench.page.evaluate(() => window.bluetoothPage.key())).toMatch(/^\S{10,}$/);
    expect([bridge.subscribed, bridge.connections]).toEqual([true, 1]);
  });

  test('gets the answers to V, S5 and L', listen);

  test(`takes ${FRAMES} frames, every one and in order`, () => takesFrames(bridge, FRAMES));

  test('writes long messages in pieces of 20 bytes, in order and never mixed', async () => {
    const before = bridge.written.length;
    const lines = ['A', 'B', 'C'].map((letter) => `${letter.repeat(45)}\r`);
    const sent = bench.page.evaluate(
      (texts) => Promise.all(texts.map((line) => window.bluetoothPage.send(line))),
      lines,
    );
    expect(await sent).toEqual(['sent', 'sent', 'sent']);
    await vi.waitFor(() => expect(bridge.written).toHaveLength(before + 9), WAIT);
    const pieces = bridge.written.slice(before);
    expect(pieces.map(({ bytes }) => bytes.length)).toEqual([20, 20, 6, 20, 20, 6, 20, 20, 6]);
    expect(pieces.map(({ bytes }) => new TextDecoder().decode(bytes)).join('')).toBe(lines.join(''));
    expect(new Set(pieces.map(({ type }) => type))).toEqual(new Set(['write-without-response']));
    // Too long for a command: the bridge refuses each with BEL.
    await vi.waitFor(async () => expect((await seen()).text.endsWith('\x07\x07\x07')).toBe(true), WAIT);
  });

  test('tells the loss of the bridge once, and refuses to send from then on', async () => {
    await bridge.unplug();
    await vi.waitFor(async () => expect((await seen()).errors).toHaveLength(1), WAIT);
    expect((await seen()).errors).toEqual([{ code: 'link.lost', context: { device: 'shop bridge' } }]);
    expect(await send('V\r')).toBe('link.closed');
  });

  test('says that a bridge without power cannot be reached', async () => {
    await bench.page.evaluate(() => window.bluetoothPage.open());
    await vi.waitFor(async () => expect((await seen()).errors).toHaveLength(1), WAIT);
    expect(await seen()).toMatchObject({ kinds: [], errors: [{ code: 'bluetooth.connect-failed' }] });
  });

  test('opens the bridge again without the chooser when it is back, and frames come again', async () => {
    const { prompts } = bench;
    bridge.plugIn();
    await open();
    await listen();
    await takesFrames(bridge, 200);
    expect(bench.prompts).toBe(prompts);
  });

  test('lets go on disconnecting, sends what was handed over before, and opens again at once', async () => {
    const sent = bench.page.evaluate(() => {
      const outcome = window.bluetoothPage.send('C\r');
      window.bluetoothPage.disconnect();
      return outcome;
    });
    expect(await sent).toBe('sent');
    await vi.waitFor(() => expect(bridge.subscribed).toBe(false), WAIT);
    expect(bridge.device.channel).toBe('closed');
    expect(await send('V\r')).toBe('link.closed');
    await open();
    await listen();
    await takesFrames(bridge, 50);
    await bench.page.evaluate(() => window.bluetoothPage.disconnect());
    await vi.waitFor(() => expect(bridge.subscribed).toBe(false), WAIT);
  });

  test('shows no more than the services that were named: a bridge of another kind is none', async () => {
    bench.person = { takes: ODD_ADDRESS };
    expect(await choose()).toBe('bluetooth.no-profile');
  });

  test('opens it with the service typed and the characteristics picked by hand', async () => {
    expect(await choose([ODD.service.toUpperCase()])).toBe('odd bridge');
    const { options, pick } = await bench.page.evaluate(() => ({
      options: window.bluetoothPage.options(),
      pick: window.bluetoothPage.pick(),
    }));
    const { service, notify, write } = ODD;
    expect(options).toEqual([
      { service, characteristic: notify, notifies: true, writes: false },
      { service, characteristic: write, notifies: false, writes: true },
    ]);
    expect(pick).toMatchObject({ notify: { service, characteristic: notify } });
    await open();
    await listen();
    await takesFrames(odd, 50);
  });
});
