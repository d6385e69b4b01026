import { Subject, VirtualTimeScheduler } from 'rxjs';
import { SerialPort } from 'web-serial-polyfill';
import { logFileAdapter } from '../../adapters/log-file.ts';
import { replayAdapter } from '../../adapters/replay.ts';
import type { SerialChoice } from '../../adapters/serial-port.ts';
import { serialChoice } from '../../adapters/serial-source.ts';
import { usbPort } from '../../adapters/usb-port.ts';
import { webSerialAdapter } from '../../adapters/web-serial.ts';
import { webSocketAdapter } from '../../adapters/web-socket.ts';
import { webUsbAdapter } from '../../adapters/web-usb.ts';
import type { LinkEvent } from '../../src/link/link-event.ts';
import { problem } from '../../src/problems/problem.ts';
import { failed, ok } from '../../src/problems/result.ts';
import { millis } from '../../src/quantities/time.ts';
import { describeAdapter } from './describe-adapter.ts';
import { fakeSerial } from './fixtures/fake-serial.ts';
import { fakeSocket, type FakeSocket } from './fixtures/fake-socket.ts';
import { fakeUsb, fakeUsbDevice } from './fixtures/fake-usb.ts';
import { fakeSerialPort } from './fixtures/fake-serial-port.ts';
import { turns } from './fixtures/turns.ts';

const joined = (content: readonly Uint8Array[]) => new Uint8Array(content.flatMap((piece) => [...piece]));

/** A clock that jumps back now and then, as a system clock does when it is set. */
function jumpingClock() {
  let ticks = 0;
  return () => millis(++ticks % 5 === 0 ? ticks - 3 : ticks);
}

describeAdapter<SerialChoice>('web serial', () => {
  const stranger = fakeSerialPort();
  const ports = [fakeSerialPort()];
  const port = () => ports.at(-1)!;
  const serial = fakeSerial(port(), stranger);
  const adapter = webSerialAdapter(serial, jumpingClock());
  return {
    adapter,
    choice: { port: port(), baudRate: 115_200, device: 'bridge', kind: 'usb' },
    held: () => ports.reduce((sum, each) => sum + (each.isOpen ? 1 : 0) + each.listeners, serial.listeners),
    settle: turns,
    feed: (bytes) => port().feed(bytes),
    corrupt: () => port().corrupt('FramingError'),
    unplug: () => {
      port().unplug();
      serial.pull(port());
    },
    restore: () => serial.plug(port()),
    refused: webSerialAdapter(fakeSerial(), jumpingClock()),
    device: {
      adapter,
      replug: () => {
        ports.push(fakeSerialPort());
        serial.plug(port());
      },
      stranger: () => serial.tellConnect(stranger),
    },
  };
});

describeAdapter('WebUSB through the polyfill', () => {
  const stranger = fakeUsbDevice();
  const fakes = [fakeUsbDevice()];
  const fake = () => fakes.at(-1)!;
  const usb = fakeUsb(fake(), stranger);
  const adapter = webUsbAdapter(usb, jumpingClock(), true, () => Promise.resolve({ SerialPort }));
  return {
    adapter,
    choice: serialChoice(usbPort(fake().device, new SerialPort(fake().device), usb)),
    held: () => fakes.reduce((sum, each) => sum + (each.isOpen ? 1 : 0) + each.reads.now, usb.listeners),
    settle: turns,
    feed: (bytes) => fake().feed(bytes),
    corrupt: () => fake().stall(),
    unplug: () => usb.pull(fake()),
    refused: webUsbAdapter(fakeUsb(), jumpingClock(), true),
    device: {
      adapter,
      replug: () => {
        fakes.push(fakeUsbDevice());
        usb.plug(fake());
      },
      stranger: () => usb.tell('connect', stranger.device),
    },
  };
});

describeAdapter('web socket', () => {
  const sockets: FakeSocket[] = [];
  const online$ = new Subject<unknown>();
  const { scheduler } = virtual();
  const means = { clock: jumpingClock(), securePage: false, scheduler, online$ };
  const connect = (url: string) => {
    sockets.push(fakeSocket(url));
    return sockets.at(-1)!;
  };
  const address = 'ws://192.168.4.1:81/';
  const adapter = webSocketAdapter({
    ...means,
    connect,
    ask: () => Promise.resolve(address),
    known: () => Promise.resolve([address]),
  });
  return {
    adapter,
    choice: { url: address, device: 'bridge' },
    held: () =>
      sockets.filter(({ readyState }) => readyState < 2).length +
      sockets.reduce((sum, socket) => sum + socket.listeners, 0) +
      scheduler.actions.filter((action) => !action.closed).length +
      (online$.observed ? 1 : 0),
    settle: async () => {
      sockets.at(-1)?.answer();
      await turns(2);
    },
    feed: (bytes) => sockets.at(-1)?.message(bytes.slice().buffer),
    unplug: () => sockets.at(-1)?.end(1006),
    restore: () => undefined,
    refused: webSocketAdapter({ ...means, connect, ask: () => Promise.resolve(null) }),
    device: { adapter, replug: () => online$.next('online') },
  };
});

function virtual() {
  const scheduler = new VirtualTimeScheduler();
  return {
    scheduler,
    held: () => scheduler.actions.length,
    settle: async () => {
      await turns();
      scheduler.flush();
      await turns(2);
    },
  };
}

describeAdapter('log file', (content) => {
  const { scheduler, held, settle } = virtual();
  const means = { scheduler, readNumbers: () => ok([]) };
  return {
    adapter: logFileAdapter({ ...means, pick: () => Promise.resolve(null) }),
    refused: logFileAdapter({ ...means, pick: () => Promise.resolve(null) }),
    choice: { name: 'log.txt', bytes: joined(content), wire: 'slcan' as const, plan: null },
    held,
    settle,
  };
});

const recorded = (content: readonly Uint8Array[]): readonly LinkEvent[] => [
  { kind: 'open', atMs: millis(40), device: 'bridge', write: null },
  ...content.map((bytes, index): LinkEvent => ({ kind: 'bytes', atMs: millis(50 + 7 * index), bytes })),
];

describeAdapter('replay', (content) => {
  const { scheduler, held, settle } = virtual();
  const nothing = () => Promise.resolve(failed(problem('link.refused')));
  return {
    adapter: replayAdapter(scheduler, nothing),
    refused: replayAdapter(scheduler, nothing),
    choice: { events: recorded(content), device: 'bridge', speed: 1 },
    held,
    settle,
  };
});

describeAdapter('replay from disk', (content) => {
  const { scheduler, held, settle } = virtual();
  const fromDisk: AsyncIterable<LinkEvent> = {
    async *[Symbol.asyncIterator]() {
      yield* recorded(content);
    },
  };
  return {
    adapter: replayAdapter(scheduler, () => Promise.resolve(failed(problem('link.refused')))),
    choice: { events: fromDisk, device: 'bridge', speed: 'instant' as const },
    held,
    settle,
  };
});
