import { describe, expect, test } from 'vitest';
import { SerialPort } from 'web-serial-polyfill';
import { webUsbAdapter } from '../../adapters/web-usb.ts';
import type { LinkEvent } from '../../src/link/link-event.ts';
import type { Problem } from '../../src/problems/problem.ts';
import { millis } from '../../src/quantities/time.ts';
import { fakeUsb, fakeUsbDevice, IN_ENDPOINT, type FakeUsbRules } from './fixtures/fake-usb.ts';
import { turns } from './fixtures/turns.ts';

const clock = () => millis(0);
const text = (value: string) => new TextEncoder().encode(value);

async function setUp(rules: FakeUsbRules = {}) {
  const fake = fakeUsbDevice(rules);
  const usb = fakeUsb(fake);
  const adapter = webUsbAdapter(usb, clock, true);
  const chosen = await adapter.choose();
  const connect = async () => {
    if (!chosen.ok) throw new Error(chosen.problem.code);
    const seen = { events: [] as LinkEvent[], errors: [] as Problem[] };
    const subscription = adapter.open(chosen.value).subscribe({
      next: (event) => seen.events.push(event),
      error: (problem: Problem) => seen.errors.push(problem),
    });
    await turns();
    const first = seen.events[0];
    const write = first?.kind === 'open' ? first.write : null;
    return { ...seen, subscription, write };
  };
  return { fake, usb, adapter, chosen, connect };
}

describe('choosing a USB bridge', () => {
  test('asks for devices of the communications class and names the one chosen', async () => {
    const { usb, chosen, adapter } = await setUp();
    expect(usb.asked).toEqual([{ filters: [{ classCode: 2 }] }]); // USB CDC 1.1, 4.1
    expect(chosen).toMatchObject({
      ok: true,
      value: { device: 'USB serial bridge 1D50:606F', kind: 'usb', baudRate: 115_200 },
    });
    expect(chosen.ok && adapter.key(chosen.value)).toBe('usb:1D50:606F');
  });

  test('gives the same port for the same device, so that its closing is waited for', async () => {
    const { adapter, chosen } = await setUp();
    const [known] = await adapter.known();
    expect(chosen.ok && known!.port === chosen.value.port).toBe(true);
  });

  test('of another class says what would work instead, and is not listed', async () => {
    const { chosen, adapter } = await setUp({ interfaceClass: 0xff });
    expect(chosen).toMatchObject({ ok: false, problem: { code: 'device.usb-not-serial' } });
    expect(await adapter.known()).toEqual([]);
  });

  test('that the browser forbids says so', async () => {
    const usb = {
      ...fakeUsb(),
      requestDevice: () => Promise.reject(new DOMException('policy', 'SecurityError')),
    };
    expect(await webUsbAdapter(usb, clock).choose()).toMatchObject({ problem: { code: 'link.not-allowed' } });
  });

  test('says so when the part of the page for it cannot be loaded', async () => {
    const usb = fakeUsb(fakeUsbDevice());
    const adapter = webUsbAdapter(usb, clock, true, () => Promise.reject(new TypeError('offline')));
    expect(await adapter.choose()).toMatchObject({
      problem: { code: 'device.not-loaded', context: { detail: 'offline' } },
    });
    expect(await adapter.known()).toEqual([]);
  });

  test('is not possible where there is no WebUSB, and the reason tells why', async () => {
    const none = webUsbAdapter(undefined, clock, true);
    expect(none.availability()).toMatchObject({ usable: false, problem: { code: 'device.no-web-usb' } });
    expect(await none.choose()).toMatchObject({ problem: { code: 'device.no-web-usb' } });
    expect(await none.known()).toEqual([]);
    const insecure = webUsbAdapter(undefined, clock, false);
    expect(insecure.availability()).toMatchObject({ problem: { code: 'link.insecure-page' } });
  });

  test('loads the polyfill only when a device is looked at', async () => {
    let loads = 0;
    const load = () => (loads++, Promise.resolve({ SerialPort }));
    const adapter = webUsbAdapter(fakeUsb(fakeUsbDevice()), clock, true, load);
    adapter.availability();
    expect(loads).toBe(0);
    await adapter.choose();
    expect(loads).toBe(1);
  });
});

describe('opening a USB bridge', () => {
  test('sets speed and 8N1 and raises DTR and RTS, as the class asks', async () => {
    // SET_LINE_CODING 0x20: rate in 4 bytes low first, stop bits 0 = 1, parity 0 = none, 8 data bits; SET_CONTROL_LINE_STATE
    // 0x22: bit 0 DTR, bit 1 RTS. Source: USB CDC 1.1, 6.2.12 and 6.2.14. 115,200 = 0x0001C200.
    const { fake, connect } = await setUp();
    const { subscription } = await connect();
    expect(fake.controls[0]).toEqual({ request: 0x20, value: 0, bytes: [0x00, 0xc2, 0x01, 0x00, 0, 0, 8] });
    expect(fake.controls.slice(1).map(({ request, value }) => [request, value])).toEqual([
      [0x22, 1],
      [0x22, 3],
    ]);
    subscription.unsubscribe();
    await turns();
    expect(fake.controls.at(-1)).toMatchObject({ request: 0x22, value: 0 });
  });

  test.each([
    [{ claim: new DOMException('Unable to claim interface.', 'NetworkError') }, 'link.port-busy'],
    [{ open: new DOMException('Access denied.', 'SecurityError') }, 'device.usb-driver'],
    [{ open: new DOMException('The device was disconnected.', 'NotFoundError') }, 'link.open-failed'],
    [{ claim: new DOMException('odd', 'OddError') }, 'link.open-failed'],
  ])('that fails with %j is %s and leaves it closed', async (rules, code) => {
    const { fake, usb, connect } = await setUp(rules);
    const { errors } = await connect();
    expect(errors.map((problem) => problem.code)).toEqual([code]);
    expect([fake.isOpen, usb.listeners, fake.reads.now]).toEqual([false, 0, 0]);
  });

  test('that this page has open already is refused as busy, though WebUSB would not mind', async () => {
    const { connect } = await setUp();
    const first = await connect();
    const second = await connect();
    expect(second.errors.map((problem) => problem.code)).toEqual(['link.port-busy']);
    first.subscription.unsubscribe();
  });
});

describe('reading from a USB bridge', () => {
  test('keeps at most four reads under way, however much comes', async () => {
    const { fake, connect } = await setUp();
    const { events, subscription } = await connect();
    for (let piece = 0; piece < 300; piece++) {
      fake.feed(text('T0CF00400'));
      await turns(1);
    }
    expect(events.filter(({ kind }) => kind === 'bytes').length).toBe(300);
    expect(fake.reads.most).toBeLessThanOrEqual(4);
    subscription.unsubscribe();
  });

  test("the polyfill's own stream lets reads pile up, which is why it is not used", async () => {
    const fake = fakeUsbDevice();
    const port = new SerialPort(fake.device);
    await port.open({ baudRate: 115_200, bufferSize: 65_536 });
    const reader = port.readable!.getReader();
    const drain = async () => {
      for (let next = await reader.read(); !next.done; next = await reader.read());
    };
    const drained = drain().catch(() => undefined);
    for (let piece = 0; piece < 200; piece++) {
      fake.feed(text('T0CF00400'));
      await turns(1);
    }
    expect(fake.reads.most).toBeGreaterThan(100);
    await reader.cancel();
    await drained;
  });

  test('a stalled endpoint is cleared, once a stall, and is a gap', async () => {
    const { fake, connect } = await setUp();
    const { events, errors, subscription } = await connect();
    for (const round of ['a', 'b']) {
      fake.stall();
      await turns();
      fake.feed(text(round));
      await turns();
    }
    expect(events.map((event) => (event.kind === 'gap' ? event.problem.code : event.kind))).toEqual([
      'open',
      'link.stream-error',
      'bytes',
      'link.stream-error',
      'bytes',
    ]);
    expect([fake.cleared, errors, IN_ENDPOINT]).toEqual([2, [], 2]);
    subscription.unsubscribe();
  });

  test('too much at once is an overrun', async () => {
    const { fake, connect } = await setUp();
    const { events, subscription } = await connect();
    fake.babble();
    await turns();
    expect(events.at(-1)).toMatchObject({ kind: 'gap', problem: { code: 'link.overrun' } });
    subscription.unsubscribe();
  });

  test('a device that goes silently is lost by the event alone', async () => {
    const { fake, usb, connect } = await setUp();
    const { errors } = await connect();
    usb.tell('disconnect', fakeUsbDevice().device); // another one
    expect(errors).toEqual([]);
    usb.tell('disconnect', fake.device);
    await turns();
    expect(errors.map((problem) => problem.code)).toEqual(['link.lost']);
    expect([fake.isOpen, usb.listeners]).toEqual([false, 0]);
  });
});

describe('writing to and leaving a USB bridge', () => {
  test('sends what is written, in order', async () => {
    const { fake, connect } = await setUp();
    const { write, subscription } = await connect();
    expect(await Promise.all(['C\r', 'S5\r', 'L\r'].map((line) => write!(text(line))))).toEqual(
      Array.from({ length: 3 }, () => ({ ok: true, value: undefined })),
    );
    expect(fake.sent.map((bytes) => new TextDecoder().decode(bytes))).toEqual(['C\r', 'S5\r', 'L\r']);
    subscription.unsubscribe();
  });

  test('a device that refuses to lower its signals is freed all the same', async () => {
    const refusal = new DOMException('A transfer error has occurred.', 'NetworkError');
    const { fake, connect } = await setUp({
      control: (request, value) => (request === 0x22 && value === 0 ? refusal : null),
    });
    const { subscription } = await connect();
    subscription.unsubscribe();
    await turns();
    expect([fake.isOpen, fake.reads.now]).toEqual([false, 0]);
  });
});
