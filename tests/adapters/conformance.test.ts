import { VirtualTimeScheduler } from 'rxjs';
import { logFileAdapter } from '../../adapters/log-file.ts';
import { replayAdapter } from '../../adapters/replay.ts';
import { webSerialAdapter } from '../../adapters/web-serial.ts';
import type { LinkEvent } from '../../src/link/link-event.ts';
import { problem } from '../../src/problems/problem.ts';
import { failed, ok } from '../../src/problems/result.ts';
import { millis } from '../../src/quantities/time.ts';
import { describeAdapter } from './describe-adapter.ts';
import { fakeSerialPort } from './fixtures/fake-serial-port.ts';
import { turns } from './fixtures/turns.ts';

const joined = (content: readonly Uint8Array[]) => new Uint8Array(content.flatMap((piece) => [...piece]));

describeAdapter('web serial', () => {
  const port = fakeSerialPort();
  // A clock that jumps back now and then, as a system clock does when it is set.
  let ticks = 0;
  const clock = () => millis(++ticks % 5 === 0 ? ticks - 3 : ticks);
  const nobody = { requestPort: () => Promise.reject(new DOMException('none chosen', 'NotFoundError')) };
  return {
    adapter: webSerialAdapter({ requestPort: () => Promise.resolve(port) }, clock),
    choice: { port, baudRate: 115_200, device: 'bridge' },
    held: () => (port.isOpen ? 1 : 0) + port.listeners,
    settle: turns,
    feed: (bytes) => port.feed(bytes),
    corrupt: () => port.corrupt('FramingError'),
    unplug: () => port.unplug(),
    refused: webSerialAdapter(nobody, clock),
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
