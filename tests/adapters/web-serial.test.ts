import { describe, expect, test, vi } from 'vitest';
import { webSerialAdapter } from '../../adapters/web-serial.ts';
import type { LinkEvent } from '../../src/link/link-event.ts';
import type { Problem } from '../../src/problems/problem.ts';
import { millis } from '../../src/quantities/time.ts';
import { fakeSerial } from './fixtures/fake-serial.ts';
import { fakeSerialPort, type FakePortRules } from './fixtures/fake-serial-port.ts';
import { turns } from './fixtures/turns.ts';

const text = (value: string) => new TextEncoder().encode(value);
const clock = () => millis(0);

function setUp(rules: FakePortRules = {}) {
  const port = fakeSerialPort(rules);
  const adapter = webSerialAdapter({ requestPort: () => Promise.resolve(port) }, clock);
  const connect = () => {
    const seen = { events: [] as LinkEvent[], errors: [] as Problem[] };
    const subscription = adapter.open({ port, baudRate: 250_000, device: 'bridge', kind: 'usb' }).subscribe({
      next: (event) => seen.events.push(event),
      error: (problem: Problem) => seen.errors.push(problem),
    });
    const write = (bytes: Uint8Array) => {
      const first = seen.events[0];
      return first?.kind === 'open' && first.write ? first.write(bytes) : null;
    };
    return { ...seen, subscription, write };
  };
  return { port, connect };
}

describe('choosing a port', () => {
  const serial = (outcome: () => Promise<never>) => webSerialAdapter({ requestPort: outcome }, clock);

  test('names it by its USB ids and offers 115,200 baud', async () => {
    const port = fakeSerialPort();
    const chosen = await webSerialAdapter({ requestPort: () => Promise.resolve(port) }, clock).choose();
    expect(chosen).toEqual({
      ok: true,
      value: { port, baudRate: 115_200, device: 'USB serial bridge 1D50:606F', kind: 'usb' },
    });
  });

  test('without USB ids is just a serial port', async () => {
    const port = Object.defineProperty(fakeSerialPort(), 'getInfo', { value: () => ({}) });
    const chosen = await webSerialAdapter({ requestPort: () => Promise.resolve(port) }, clock).choose();
    expect(chosen).toMatchObject({ value: { device: 'Serial port', kind: 'other' } });
  });

  test('that the browser forbids says so, other than a refusal by the person', async () => {
    const forbidden = serial(() => Promise.reject(new DOMException('policy', 'SecurityError')));
    expect(await forbidden.choose()).toMatchObject({ problem: { code: 'link.not-allowed' } });
    const strange = serial(() => Promise.reject('text')); // a polyfill rejects with strings
    expect(await strange.choose()).toMatchObject({
      problem: { code: 'link.not-allowed', context: { detail: 'text' } },
    });
  });

  test('lists Bluetooth serial-port devices too, by the standard service class', async () => {
    // 0x1101 on the base UUID: Bluetooth Assigned Numbers, "Serial Port" service class
    const serial = fakeSerial(fakeSerialPort());
    await webSerialAdapter(serial, clock).choose();
    expect(serial.asked).toEqual([
      { allowedBluetoothServiceClassIds: ['00001101-0000-1000-8000-00805f9b34fb'] },
    ]);
  });

  test('is not possible where there is no Web Serial, and the reason tells why', async () => {
    const none = webSerialAdapter(undefined, clock, true);
    expect(none.availability()).toMatchObject({ usable: false, problem: { code: 'link.no-web-serial' } });
    expect(await none.choose()).toMatchObject({ ok: false, problem: { code: 'link.no-web-serial' } });
    const insecure = webSerialAdapter(undefined, clock, false);
    expect(insecure.availability()).toMatchObject({ usable: false, problem: { code: 'link.insecure-page' } });
  });
});

describe('opening a port', () => {
  test('asks for the chosen speed and a buffer that outlasts a busy page', async () => {
    const { port, connect } = setUp();
    const { subscription } = connect();
    await turns();
    expect(port.openedWith).toEqual({ baudRate: 250_000, bufferSize: 65_536 });
    subscription.unsubscribe();
  });

  test.each([
    [new DOMException('open elsewhere', 'InvalidStateError'), 'link.port-busy'],
    [new DOMException('failed to open', 'NetworkError'), 'link.port-busy'],
    [new TypeError('no such speed'), 'link.open-failed'],
    [new DOMException('failed to open', 'NetworkError'), 'link.open-failed', false],
    [new DOMException('failed to open', 'NetworkError'), 'link.port-busy', true],
  ] as const)('that fails with %s is %s (connected: %s)', async (refuse, code, connected?: boolean) => {
    const { port, connect } = setUp({ refuse: refuse as DOMException });
    if (connected !== undefined) Object.defineProperty(port, 'connected', { value: connected });
    const seen = connect();
    await turns();
    expect(seen.errors.map((problem) => problem.code)).toEqual([code]);
    expect([seen.events, port.isOpen, port.listeners]).toEqual([[], false, 0]);
  });

  test.each(['missing', 'refused', 'hanging'] as const)(
    'works where control lines are %s',
    async (signals) => {
      const { port, connect } = setUp({ signals });
      const seen = connect();
      await turns();
      port.feed(text('x'));
      await turns();
      expect(seen.events.map(({ kind }) => kind)).toEqual(['open', 'bytes']);
      seen.subscription.unsubscribe();
      await turns();
      expect(port.isOpen).toBe(false);
    },
  );
});

describe('a disturbed stream', () => {
  test.each([
    ['FramingError', 'link.framing'],
    ['ParityError', 'link.parity'],
    ['BreakError', 'link.break'],
    ['BufferOverrunError', 'link.overrun'],
    ['UnknownError', 'link.stream-error'],
  ])('with %s is a gap %s, again and again, and data go on', async (name, code) => {
    const { port, connect } = setUp();
    const seen = connect();
    await turns();
    for (const round of ['a', 'b', 'c']) {
      port.corrupt(name);
      await turns();
      port.feed(text(round));
      await turns();
    }
    expect(seen.events.map((event) => (event.kind === 'gap' ? event.problem.code : event.kind))).toEqual([
      'open',
      ...Array.from({ length: 3 }, () => [code, 'bytes']).flat(),
    ]);
    seen.subscription.unsubscribe();
    await turns();
    expect(port.isOpen).toBe(false);
  });

  test.each(['read fails', 'event only', 'stream ends'] as const)(
    'of a lost device (%s) ends once',
    async (how) => {
      const { port, connect } = setUp();
      const seen = connect();
      await turns();
      port.unplug(how);
      port.unplug('event only');
      await turns();
      expect(seen.errors).toEqual([{ code: 'link.lost', context: { device: 'bridge' } }]);
      expect([port.isOpen, port.listeners]).toEqual([false, 0]);
    },
  );
});

describe('a port that gives nothing but errors', () => {
  const restless = async (name: string, rounds: number) => {
    const { port, connect } = setUp();
    const seen = connect();
    await turns();
    for (let round = 0; round < rounds; round++) {
      port.corrupt(name);
      await turns(2);
    }
    seen.subscription.unsubscribe();
    return seen;
  };

  test('of a kind unknown is lost after a few, so that the page does not spin', async () => {
    const { events, errors } = await restless('UnknownError', 40);
    expect(errors).toEqual([{ code: 'link.lost', context: { device: 'bridge' } }]);
    expect(events.filter(({ kind }) => kind === 'gap')).toHaveLength(8);
  });

  test('of framing is borne: the speed may be a wrong one that is being tried', async () => {
    const { events, errors } = await restless('FramingError', 40);
    expect(errors).toEqual([]);
    expect(events.filter(({ kind }) => kind === 'gap')).toHaveLength(40);
  });
});

describe('writing', () => {
  test('sends one message after the other, whole, and answers when each is taken', async () => {
    const gates: (() => void)[] = [];
    const { port, connect } = setUp({ write: () => new Promise((resolve) => gates.push(resolve)) });
    const seen = connect();
    await turns();
    const answered: string[] = [];
    for (const line of ['C\r', 'S5\r', 'L\r']) void seen.write(text(line))?.then(() => answered.push(line));
    await turns();
    expect([gates.length, answered]).toEqual([1, []]);
    for (const count of [1, 2, 3]) {
      gates[count - 1]?.();
      await turns();
      expect(answered).toHaveLength(count);
    }
    expect(port.sent.map((bytes) => new TextDecoder().decode(bytes))).toEqual(['C\r', 'S5\r', 'L\r']);
    seen.subscription.unsubscribe();
  });

  test('that fails is a problem, and so is the next on a stream that broke', async () => {
    const { connect } = setUp({ write: () => Promise.reject(new DOMException('gone', 'NetworkError')) });
    const seen = connect();
    await turns();
    expect(await seen.write(text('V\r'))).toMatchObject({
      ok: false,
      problem: { code: 'link.write-failed' },
    });
    expect(await seen.write(text('V\r'))).toMatchObject({
      ok: false,
      problem: { code: 'link.write-failed' },
    });
    seen.subscription.unsubscribe();
  });

  test('what was handed over just before closing still goes out', async () => {
    const { port, connect } = setUp();
    const seen = connect();
    await turns();
    const outcome = seen.write(text('C\r'));
    seen.subscription.unsubscribe();
    expect(await outcome).toEqual({ ok: true, value: undefined });
    await turns();
    expect([port.sent.length, port.isOpen]).toEqual([1, false]);
  });

  test('to a device that takes nothing does not keep the port from closing', async () => {
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
    const { port, connect } = setUp({ write: () => new Promise(() => undefined) });
    const seen = connect();
    await turns();
    void seen.write(text('C\r'));
    await turns();
    seen.subscription.unsubscribe();
    await turns();
    expect(port.isOpen).toBe(true);
    vi.advanceTimersByTime(500);
    await turns();
    expect([port.isOpen, vi.getTimerCount()]).toEqual([false, 0]);
    vi.useRealTimers();
  });
});
