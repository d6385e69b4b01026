import { describe, expect, test } from 'vitest';
import {
  bytesOf,
  isProblem,
  PIECES,
  play,
  receivedOf,
  text,
  watch,
  writeOf,
  type AdapterRig,
  type MakeRig,
} from './adapter-rig.ts';
import { describeDevice } from './describe-device.ts';

export { bytesOf, type AdapterRig, type MakeRig } from './adapter-rig.ts';

/**
 * The clauses that every source keeps (style.md 6), run on rigs made by `make`. Called once an adapter; a clause that
 * a source has no means for (no cable to pull) is skipped by name. A rig with `device` also keeps describe-device.ts.
 */
export function describeAdapter<Choice>(name: string, make: MakeRig<Choice>): void {
  const sample = make([]);
  describe(`${name} keeps the adapter clauses:`, () => {
    describeOpening(make);
    describeData(make, sample);
    describeTrouble(make, sample);
    describeLoss(make, sample);
    describeClosing(make, sample);
    describeDevice(make, sample);
  });
}

function describeOpening<Choice>(make: MakeRig<Choice>): void {
  test('it opens nothing until subscribed', async () => {
    const rig = make(PIECES);
    rig.adapter.open(rig.choice);
    await rig.settle();
    expect(rig.held()).toBe(0);
  });

  test('open comes first, and once', async () => {
    const rig = make(PIECES);
    const seen = await play(rig);
    expect(seen.events[0]?.kind).toBe('open');
    expect(seen.events.filter((event) => event.kind === 'open')).toHaveLength(1);
    seen.subscription.unsubscribe();
    await rig.settle();
  });

  test('it says whether it can be used', () => {
    const { adapter } = make([]);
    const availability = adapter.availability();
    expect(availability.usable || isProblem(availability.problem)).toBe(true);
  });
}

function describeData<Choice>(make: MakeRig<Choice>, sample: AdapterRig<Choice>): void {
  test.skipIf(sample.ownContent)('everything comes once and in order, however cut', async () => {
    const rig = make(PIECES);
    const seen = await play(rig);
    expect(receivedOf(rig, seen.events)).toEqual(PIECES.flatMap((piece) => [...piece]));
    seen.subscription.unsubscribe();
    await rig.settle();
  });

  test('atMs never falls', async () => {
    const rig = make(PIECES);
    const seen = await play(rig);
    const stamps = seen.events.map((event) => event.atMs);
    expect(stamps).toEqual(stamps.toSorted((a, b) => a - b));
    expect(stamps.every(Number.isFinite)).toBe(true);
    seen.subscription.unsubscribe();
    await rig.settle();
  });

  test.skipIf(sample.ownContent)('a burst of 1 MB, or of 64,000 numbers, loses nothing', async () => {
    const size = sample.received ? 256 : 4096;
    const content = Array.from({ length: 256 }, (_, index) => new Uint8Array(size).fill(index));
    const rig = make(content);
    const seen = watch(rig);
    await rig.settle();
    for (const piece of content) rig.feed?.(piece);
    for (let turn = 0; turn < 20; turn++) await rig.settle();
    const received = receivedOf(rig, seen.events);
    expect(received).toHaveLength(256 * size);
    expect(received.findIndex((byte, index) => byte !== Math.floor(index / size))).toBe(-1);
    seen.subscription.unsubscribe();
    await rig.settle();
  });

  test.runIf(sample.ownContent)('a second opening gives the same bytes', async () => {
    const [first, second] = [await play(make([])), await play(make([]))];
    expect(bytesOf(first.events).length).toBeGreaterThan(0);
    expect(bytesOf(second.events)).toEqual(bytesOf(first.events));
    first.subscription.unsubscribe();
    second.subscription.unsubscribe();
  });
}

function describeTrouble<Choice>(make: MakeRig<Choice>, sample: AdapterRig<Choice>): void {
  test.skipIf(!sample.corrupt)('each recoverable error gives a gap and data go on', async () => {
    const rig = make(PIECES);
    const seen = await play(rig);
    for (const round of ['after', 'and again', 'and once more']) {
      const before = seen.events.length;
      rig.corrupt?.();
      await rig.settle();
      rig.feed?.(text(round));
      await rig.settle();
      const tail = seen.events.slice(before);
      expect(tail.map((event) => event.kind)).toEqual(['gap', 'bytes']);
      expect(tail[0]?.kind === 'gap' && isProblem(tail[0].problem)).toBe(true);
      expect(bytesOf(tail)).toEqual([...text(round)]);
    }
    expect(seen.errors).toEqual([]);
    seen.subscription.unsubscribe();
    await rig.settle();
    expect(rig.held()).toBe(0);
  });

  test.skipIf(!sample.refused)('a refusal by the person is link.refused, not an error', async () => {
    const chosen = await make([]).refused?.choose();
    expect(chosen).toMatchObject({ ok: false, problem: { code: 'link.refused' } });
  });
}

function describeLoss<Choice>(make: MakeRig<Choice>, sample: AdapterRig<Choice>): void {
  test.skipIf(!sample.unplug)('loss gives one typed problem, then silence, and holds nothing', async () => {
    const rig = make(PIECES);
    const seen = await play(rig);
    const before = seen.events.length;
    rig.unplug?.();
    await rig.settle();
    rig.feed?.(text('ghost'));
    await rig.settle();
    expect(seen.errors).toHaveLength(1);
    expect(isProblem(seen.errors[0])).toBe(true);
    expect(seen.events).toHaveLength(before);
    expect(rig.held()).toBe(0);
  });

  test.skipIf(!sample.restore)('after a loss it can be opened again, and lost again', async () => {
    const rig = make(PIECES);
    for (const round of ['first', 'second', 'third']) {
      const seen = await play(rig, [text(round)]);
      expect(seen.events[0]?.kind).toBe('open');
      expect(receivedOf(rig, seen.events)).toEqual([...text(round)]);
      rig.unplug?.();
      await rig.settle();
      expect(seen.errors).toHaveLength(1);
      expect(rig.held()).toBe(0);
      rig.restore?.();
    }
  });

  test.skipIf(!sample.unplug || sample.feed === undefined)(
    'a write after a loss answers with a problem',
    async () => {
      const rig = make(PIECES);
      const seen = await play(rig, []);
      rig.unplug?.();
      await rig.settle();
      const outcome = await writeOf(seen)?.(text('V\r'));
      expect(outcome?.ok === false && isProblem(outcome.problem)).toBe(true);
    },
  );
}

function describeClosing<Choice>(make: MakeRig<Choice>, sample: AdapterRig<Choice>): void {
  test('unsubscribing twice is safe, frees everything and ends the events', async () => {
    const rig = make(PIECES);
    const seen = await play(rig);
    seen.subscription.unsubscribe();
    seen.subscription.unsubscribe();
    await rig.settle();
    const before = seen.events.length;
    rig.feed?.(text('ghost'));
    await rig.settle();
    expect(seen.events).toHaveLength(before);
    expect(seen.errors).toEqual([]);
    expect(rig.held()).toBe(0);
  });

  test('unsubscribing at once, before it is open, leaves nothing behind', async () => {
    const rig = make(PIECES);
    const seen = watch(rig);
    seen.subscription.unsubscribe();
    await rig.settle();
    expect(seen.events.filter((event) => event.kind !== 'open')).toEqual([]);
    expect(rig.held()).toBe(0);
  });

  test('it can be opened again, at once', async () => {
    const rig = make(PIECES);
    const first = await play(rig);
    first.subscription.unsubscribe();
    const second = await play(rig);
    expect(second.errors).toEqual([]);
    expect(receivedOf(rig, second.events)).toEqual(receivedOf(rig, first.events));
    second.subscription.unsubscribe();
    await rig.settle();
    expect(rig.held()).toBe(0);
  });

  test.skipIf(sample.feed === undefined || sample.received !== undefined)(
    'a write after closing answers with a problem',
    async () => {
      const rig = make(PIECES);
      const seen = await play(rig);
      const write = writeOf(seen);
      expect(write).not.toBeNull();
      seen.subscription.unsubscribe();
      await rig.settle();
      const outcome = await write?.(text('V\r'));
      expect(outcome?.ok === false && isProblem(outcome.problem)).toBe(true);
    },
  );
}
