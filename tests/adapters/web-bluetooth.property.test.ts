import fc from 'fast-check';
import { expect, test } from 'vitest';
import { bluetoothWriter } from '../../adapters/bluetooth-writer.ts';
import { webBluetoothAdapter } from '../../adapters/web-bluetooth.ts';
import type { WriteBytes } from '../../src/link/link-event.ts';
import type { Problem } from '../../src/problems/problem.ts';
import { millis } from '../../src/quantities/time.ts';
import { fakeBluetooth, fakePeripheral } from './fixtures/fake-bluetooth.ts';
import { turns } from './fixtures/turns.ts';

test('messages of any length arrive whole and in order, in pieces that fit, whatever the order of answers', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.scheduler(),
      fc.array(fc.uint8Array({ maxLength: 130 }), { maxLength: 8 }),
      fc.option(fc.integer({ min: 0, max: 600 }), { nil: undefined }),
      async (late, messages, fits) => {
        const pieces: Uint8Array[] = [];
        let under = 0;
        const characteristic = {
          uuid: 'x',
          properties: { write: true, writeWithoutResponse: true, notify: false, indicate: false },
          ...(fits === undefined ? {} : { maxWriteWithoutResponseSize: fits }),
          startNotifications: () => Promise.resolve(),
          stopNotifications: () => Promise.resolve(),
          addEventListener: () => undefined,
          removeEventListener: () => undefined,
          writeValueWithoutResponse: async (piece: Uint8Array) => {
            expect(++under).toBe(1); // never two at once
            await late.schedule(Promise.resolve(), 'write');
            pieces.push(piece.slice());
            under--;
          },
        };
        const writer = bluetoothWriter(characteristic, 'bridge', (work) => work());
        const outcomes = Promise.all(messages.map((message) => writer.write(message)));
        await late.waitFor(outcomes);
        expect((await outcomes).every(({ ok }) => ok)).toBe(true);
        expect(pieces.flatMap((piece) => [...piece])).toEqual(messages.flatMap((message) => [...message]));
        const limit = Math.min(512, Math.max(20, fits ?? 20));
        expect(pieces.every(({ length }) => length > 0 && length <= limit)).toBe(true);
        // A message begins a piece of its own: nothing of the next goes out with it.
        const expected = messages.reduce((sum, { length }) => sum + Math.ceil(length / limit), 0);
        expect(pieces).toHaveLength(expected);
      },
    ),
    { numRuns: 150 },
  );
});

test('bytes arrive once and in order, however the device cuts them', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.array(fc.uint8Array({ maxLength: 300 }), { maxLength: 12 }),
      fc.integer({ min: 1, max: 512 }),
      async (content, notifyBytes) => {
        const peripheral = fakePeripheral({ notifyBytes });
        const received: number[] = [];
        const subscription = webBluetoothAdapter(fakeBluetooth(peripheral), () => millis(0), true)
          .open({ peripheral, device: 'bridge', pick: null })
          .subscribe((event) => event.kind === 'bytes' && received.push(...event.bytes));
        await turns(3);
        for (const piece of content) peripheral.feed(piece);
        subscription.unsubscribe();
        expect(received).toEqual(content.flatMap((piece) => [...piece]));
      },
    ),
    { numRuns: 60 },
  );
});

const ACTIONS = ['connect', 'disconnect', 'feed', 'drop', 'write', 'wait', 'choose'] as const;

test.each([true, false])(
  'any order of choosing, connecting, dropping and disconnecting, with any delays, ends with the device free (connecting can be aborted: %s)',
  async (abortsConnecting) => {
    await fc.assert(
      fc.asyncProperty(
        fc.scheduler(),
        fc.array(fc.constantFrom(...ACTIONS), { maxLength: 14 }),
        async (late, actions) => {
          const peripheral = fakePeripheral({
            abortsConnecting,
            step: (name) => late.schedule(Promise.resolve(), name),
          });
          const adapter = webBluetoothAdapter(fakeBluetooth(peripheral), () => millis(0), true);
          const errors: Problem[] = [];
          const writes: WriteBytes[] = [];
          let drops = 0;
          const connect = () =>
            adapter.open({ peripheral, device: 'bridge', pick: null }).subscribe({
              next: (event) => event.kind === 'open' && event.write && writes.push(event.write),
              error: (error: Problem) => errors.push(error),
            });
          let current = connect();
          const act: Record<(typeof ACTIONS)[number], () => unknown> = {
            connect: () => {
              current.unsubscribe();
              current = connect();
            },
            disconnect: () => current.unsubscribe(),
            feed: () => peripheral.feed(Uint8Array.of(1)),
            drop: () => {
              drops++;
              peripheral.drop();
            },
            write: () => void writes.at(-1)?.(new Uint8Array(50)),
            wait: () => (late.count() > 0 ? late.waitOne() : undefined),
            choose: () => void adapter.choose(),
          };
          for (const action of actions) {
            await act[action]();
            await turns(1);
          }
          current.unsubscribe();
          for (let round = 0; round < 80; round++) {
            if (late.count() > 0) await late.waitOne();
            await turns(1);
          }
          // What was chosen last is kept for three seconds: opening takes it over, closing lets it go.
          connect().unsubscribe();
          for (let round = 0; round < 40; round++) {
            if (late.count() > 0) await late.waitOne();
            await turns(1);
          }
          // One loss a drop at most, and nothing else goes wrong unless something dropped or was chosen meanwhile.
          expect(errors.length).toBeLessThanOrEqual(drops);
          expect([peripheral.connected, peripheral.listeners, peripheral.notifying]).toEqual([false, 0, 0]);
        },
      ),
      { numRuns: 60 },
    );
  },
);
