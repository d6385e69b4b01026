import type { Subscription } from 'rxjs';
import type { Adapter, DeviceAdapter } from '../../src/link/adapter.ts';
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
  /** After `unplug`: the same choice can be opened again. */
  readonly restore?: () => void;
  /** The same kind of adapter whose person chooses nothing. */
  readonly refused?: Adapter<Choice>;
  /** True where the bytes are the source's own (a simulator): they are compared between two openings. */
  readonly ownContent?: boolean;
  /** What is counted of the events; the bytes, unless the source delivers numbers: then one for each byte of the content. */
  readonly received?: (events: readonly LinkEvent[]) => number[];
  /** The device side of a source that can go away and come back. */
  readonly device?: DeviceMeans<Choice>;
}

export interface DeviceMeans<Choice> {
  readonly adapter: DeviceAdapter<Choice>;
  /** After `unplug`: the device is there again; `feed` then feeds what it became. Left out where nothing tells of a return. */
  readonly replug?: () => void;
  /** Another device of the same kind appears that was there before. */
  readonly stranger?: () => void;
}

export type MakeRig<Choice> = (content: readonly Uint8Array[]) => AdapterRig<Choice>;

export interface Seen {
  readonly events: LinkEvent[];
  readonly errors: unknown[];
  completed: number;
  readonly subscription: Subscription;
}

export const text = (value: string) => new TextEncoder().encode(value);
export const PIECES = ['T0CF0', '040', '08FFFFFF6813FFFFFF\rT', '', '0CF0040', '08FFFFFF7013FFFFFF\r'].map(
  text,
);

export function bytesOf(events: readonly LinkEvent[]): number[] {
  return events.flatMap((event) => (event.kind === 'bytes' ? [...event.bytes] : []));
}

export const receivedOf = <Choice>(rig: AdapterRig<Choice>, events: readonly LinkEvent[]): number[] =>
  (rig.received ?? bytesOf)(events);

/** Subscribes and keeps all that comes. `choice` other than the rig's: what the device became. */
export function watch<Choice>(rig: AdapterRig<Choice>, choice: Choice = rig.choice): Seen {
  const seen: { events: LinkEvent[]; errors: unknown[]; completed: number } = {
    events: [],
    errors: [],
    completed: 0,
  };
  const subscription = rig.adapter.open(choice).subscribe({
    next: (event) => seen.events.push(event),
    error: (error) => seen.errors.push(error),
    complete: () => seen.completed++,
  });
  return Object.assign(seen, { subscription });
}

export async function play<Choice>(
  rig: AdapterRig<Choice>,
  content: readonly Uint8Array[] = PIECES,
): Promise<Seen> {
  const seen = watch(rig);
  await rig.settle();
  for (const piece of content) {
    rig.feed?.(piece);
    await rig.settle();
  }
  return seen;
}

export const isProblem = (value: unknown): value is Problem =>
  typeof value === 'object' && value !== null && 'code' in value && String(value.code) in CATALOGUE;

export const writeOf = (seen: Seen): WriteBytes | null => {
  const first = seen.events[0];
  return first?.kind === 'open' ? first.write : null;
};
