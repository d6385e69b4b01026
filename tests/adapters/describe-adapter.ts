import type { Subscription } from 'rxjs';
import { describe, expect, test } from 'vitest';
import type { Adapter } from '../../src/link/adapter.ts';
import type { LinkEvent, WriteBytes } from '../../src/link/link-event.ts';
import { CATALOGUE } from '../../src/problems/catalogue.ts';
import type { Problem } from '../../src/problems/problem.ts';

/** One adapter set up for one test, with the means to play its device. Means that a source lacks are left out. */
export interface AdapterRig<Choice> {
  readonly adapter: Adapter<Choice>;
  readonly choice: Choice;
  /** Devices open, listeners and timers held: 0 before and after. */
  held(): number;
  /** Lets everything that is due happen. */
  settle(): Promise<void>;
  /** Lets the device deliver these bytes now. Sources with a content of their own are given it when made. */
  readonly feed?: (bytes: Uint8Array) => void;
  /** Disturbs the stream so that data go on afterwards. */
  readonly corrupt?: () => void;
  readonly unplug?: () => void;
  /** The same kind of adapter whose person chooses nothing. */
  readonly refused?: Adapter<Choice>;
  /** True where the bytes are the source's own (a simulator): they are compared between two openings. */
  readonly ownContent?: boolean;
}

export type MakeRig<Choice> = (content: readonly Uint8Array[]) => AdapterRig<Choice>;

interface Seen {
  readonly events: LinkEvent[];
  readonly errors: unknown[];
  completed: number;
  readonly subscription: Subscription;
}

const text = (value: string) => new TextEncoder().encode(value);
const PIECES = ['T0CF0', '040', '08FFFFFF6813FFFFFF\rT', '', '0CF0040', '08FFFFFF7013FFFFFF\r'].map(text);

export function bytesOf(events: readonly LinkEvent[]): number[] {
  return events.flatMap((event) => (event.kind === 'bytes' ? [...event.bytes] : []));
}

function watch<Choice>(rig: AdapterRig<Choice>): Seen {
  const seen: { events: LinkEvent[]; errors: unknown[]; completed: number } = {
    events: [],
    errors: [],
    completed: 0,
  };
  const subscription = rig.adapter.open(rig.choice).subscribe({
    next: (event) => seen.events.push(event),
    error: (error) => seen.errors.push(error),
    complete: () => seen.completed++,
  });
  return Object.assign(seen, { subscription });
}

async function play<Choice>(rig: AdapterRig<Choice>, content: readonly Uint8Array[] = PIECES): Promise<Seen> {
  const seen = watch(rig);
  await rig.settle();
  for (const piece of content) {
    rig.feed?.(piece);
    await rig.settle();
  }
  return seen;
}

const isProblem = (value: unknown): value is Problem =>
  typeof value === 'object' && value !== null && 'code' in value && String(value.code) in CATALOGUE;

const writeOf = (seen: Seen): WriteBytes | null => {
  const first = seen.events[0];
  return first?.kind === 'open' ? first.write : null;
};

/**
 * The clauses that every source keeps (style.md 6), run on rigs made by `make`. Called once an adapter; a clause that
 * a source has no means for (no cable to pull) is skipped by name.
 */
export function describeAdapter<Choice>(name: string, make: MakeRig<Choice>): void {
  const sample = make([]);
  describe(`${name} keeps the adapter clauses:`, () => {
    describeOpening(make);
    describeData(make, sample);
    describeTrouble(make, sample);
    describeClosing(make, sample);
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
  test.skipIf(sample.ownContent)('every byte comes once and in order, however cut', async () => {
    const rig = make(PIECES);
    const seen = await play(rig);
    expect(bytesOf(seen.events)).toEqual(PIECES.flatMap((piece) => [...piece]));
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

  test.skipIf(sample.ownContent)('a burst of 1 MB loses nothing', async () => {
    const content = Array.from({ length: 256 }, (_, index) => new Uint8Array(4096).fill(index));
    const rig = make(content);
    const seen = watch(rig);
    await rig.settle();
    for (const piece of content) rig.feed?.(piece);
    for (let turn = 0; turn < 20; turn++) await rig.settle();
    const received = bytesOf(seen.events);
    expect(received).toHaveLength(1_048_576);
    expect(received.findIndex((byte, index) => byte !== (index >> 12) % 256)).toBe(-1);
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
  test.skipIf(!sample.corrupt)('a recoverable error gives a gap and data go on', async () => {
    const rig = make(PIECES);
    const seen = await play(rig);
    rig.corrupt?.();
    await rig.settle();
    rig.feed?.(text('after'));
    await rig.settle();
    const tail = seen.events.slice(-2);
    expect(tail.map((event) => event.kind)).toEqual(['gap', 'bytes']);
    expect(tail[0]?.kind === 'gap' && isProblem(tail[0].problem)).toBe(true);
    expect(seen.errors).toEqual([]);
    seen.subscription.unsubscribe();
    await rig.settle();
  });

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

  test.skipIf(!sample.refused)('a refusal by the person is link.refused, not an error', async () => {
    const chosen = await make([]).refused?.choose();
    expect(chosen).toMatchObject({ ok: false, problem: { code: 'link.refused' } });
  });
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
    expect(bytesOf(second.events)).toEqual(bytesOf(first.events));
    second.subscription.unsubscribe();
    await rig.settle();
    expect(rig.held()).toBe(0);
  });

  test.skipIf(sample.feed === undefined)('a write after closing answers with a problem', async () => {
    const rig = make(PIECES);
    const seen = await play(rig);
    const write = writeOf(seen);
    expect(write).not.toBeNull();
    seen.subscription.unsubscribe();
    await rig.settle();
    const outcome = await write?.(text('V\r'));
    expect(outcome?.ok === false && isProblem(outcome.problem)).toBe(true);
  });
}
