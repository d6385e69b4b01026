import fc from 'fast-check';
import { expect, test } from 'vitest';
import { webSerialAdapter } from '../../adapters/web-serial.ts';
import type { WriteBytes } from '../../src/link/link-event.ts';
import { millis } from '../../src/quantities/time.ts';
import { fakeSerialPort } from './fixtures/fake-serial-port.ts';
import { turns } from './fixtures/turns.ts';

const ACTIONS = ['connect', 'disconnect', 'feed', 'corrupt', 'write', 'wait'] as const;

test('any order of connecting and disconnecting, with any delays, ends with the port free and never finds it busy', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.scheduler(),
      fc.array(fc.constantFrom(...ACTIONS), { maxLength: 14 }),
      async (late, actions) => {
        const port = fakeSerialPort({ step: (name) => late.schedule(Promise.resolve(), name) });
        const adapter = webSerialAdapter({ requestPort: () => Promise.resolve(port) }, () => millis(0));
        const errors: unknown[] = [];
        const writes: WriteBytes[] = [];
        const connect = () =>
          adapter.open({ port, baudRate: 115_200, device: 'bridge', kind: 'usb' }).subscribe({
            next: (event) => event.kind === 'open' && event.write && writes.push(event.write),
            error: (error) => errors.push(error),
          });
        let current = connect();
        const act: Record<(typeof ACTIONS)[number], () => unknown> = {
          connect: () => {
            current.unsubscribe();
            current = connect();
          },
          disconnect: () => current.unsubscribe(),
          feed: () => port.feed(Uint8Array.of(1)),
          corrupt: () => port.corrupt('FramingError'),
          write: () => void writes.at(-1)?.(Uint8Array.of(67, 13)),
          wait: () => (late.count() > 0 ? late.waitOne() : undefined),
        };
        for (const action of actions) {
          await act[action]();
          await turns(1);
        }
        current.unsubscribe();
        for (let round = 0; round < 60; round++) {
          if (late.count() > 0) await late.waitOne();
          await turns(1);
        }
        expect(errors).toEqual([]);
        expect([port.isOpen, port.listeners, port.readable?.locked ?? false]).toEqual([false, 0, false]);
      },
    ),
    { numRuns: 60 },
  );
});
