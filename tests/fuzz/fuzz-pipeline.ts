import { DEFAULT_CRANK_SETTINGS } from '../../src/crank/crank.ts';
import type { LinkEvent } from '../../src/link/link-event.ts';
import { conditionValues } from '../../src/pipeline/condition-values.ts';
import { crankTable } from '../../src/pipeline/crank-table.ts';
import {
  finishPipeline,
  startPipeline,
  stepPipeline,
  type PipelineState,
} from '../../src/pipeline/pipeline.ts';
import { startWire, type RunningStep } from '../../src/pipeline/running-wire.ts';
import { problem } from '../../src/problems/problem.ts';
import { millis } from '../../src/quantities/time.ts';
import type { FrameBatch } from '../../src/wire/frame-batch.ts';
import { recogniseWire } from '../../src/wire/recognise.ts';
import { digestOf, textOf } from './digest.ts';
import { drawsFrom, type Draws } from './draws.ts';
import { fuzzStream } from './fuzz-stream.ts';

export const WIRES = ['slcan', 'candump', 'reading-lines', 'auto'] as const;
export type FuzzedWire = (typeof WIRES)[number];

/** Something that must not be, and how to see it again. */
export interface Finding {
  readonly seed: number;
  readonly wire: FuzzedWire | 'recognise';
  readonly what: string;
}

export interface Session {
  readonly seed: number;
  readonly bytes: Uint8Array;
  /** The link's events, cut finely or coarsely; both say the same at the same time. */
  readonly fine: readonly LinkEvent[];
  readonly coarse: readonly LinkEvent[];
}

export const optionsFor = (wire: FuzzedWire) =>
  ({ wire, crankSettings: DEFAULT_CRANK_SETTINGS, givenIntervalMs: null }) as const;

/** The session of a seed: its bytes, and two ways in which they may have come. */
export function sessionOf(seed: number, length: number): Session {
  const draws = drawsFrom(seed);
  const bytes = fuzzStream(draws, length);
  const blocks = blocksOf(draws, bytes);
  return {
    seed,
    bytes,
    fine: blocks.flatMap((block) => cut(draws, block, 1)),
    coarse: blocks.flatMap((block) => cut(draws, block, 4096)),
  };
}

/**
 * Arrival is that of the chunk that ends a line, so the two cuttings agree on it only if neither cuts across instants: bytes of one
 * instant are a block, and blocks are cut further.
 */
function blocksOf(draws: Draws, bytes: Uint8Array): readonly LinkEvent[] {
  const usual = draws.pick([40, 500, 8000]);
  const mishaps = draws.pick([0, 0.02]);
  const events: LinkEvent[] = [{ kind: 'open', atMs: millis(0), device: 'fuzz', write: null }];
  let atMs = 0;
  for (let from = 0; from < bytes.length;) {
    const to = Math.min(bytes.length, from + draws.between(1, usual));
    events.push({ kind: 'bytes', atMs: millis(atMs), bytes: bytes.subarray(from, to) });
    if (draws.chance(mishaps))
      events.push(
        draws.chance(0.5)
          ? { kind: 'open', atMs: millis(atMs), device: 'fuzz', write: null }
          : { kind: 'gap', atMs: millis(atMs), problem: problem('log.time-backwards', { line: 1 }) },
      );
    atMs += draws.between(0, 40);
    from = to;
  }
  return events;
}

function cut(draws: Draws, event: LinkEvent, least: number): readonly LinkEvent[] {
  if (event.kind !== 'bytes') return [event];
  const { bytes } = event;
  const pieces: LinkEvent[] = [];
  for (let from = 0; from < bytes.length;) {
    const to = Math.min(bytes.length, from + least - 1 + draws.between(1, 60));
    // Copies: a source may use its memory again.
    pieces.push({ ...event, bytes: bytes.slice(from, to) });
    from = to;
  }
  return pieces;
}

/** The events through the whole pipeline, to the end of the source. */
export const through = (events: readonly LinkEvent[], wire: FuzzedWire): PipelineState =>
  finishPipeline(events.reduce(stepPipeline, startPipeline(optionsFor(wire))));

/** Everything that is wrong with a session, through recognising and each line protocol. Never throws itself. */
export function findingsOf(session: Session): readonly Finding[] {
  const { seed, bytes } = session;
  const caught = (wire: Finding['wire'], find: () => readonly string[]): readonly Finding[] => {
    try {
      return find().map((what) => ({ seed, wire, what }));
    } catch (error) {
      return [{ seed, wire, what: `threw ${error instanceof Error ? error.stack : String(error)}` }];
    }
  };
  return [
    ...caught('recognise', () => {
      recogniseWire(bytes);
      recogniseWire(bytes.subarray(bytes.length >> 1));
      return [];
    }),
    ...WIRES.flatMap((wire) =>
      caught(wire, () => [...wrongInWire(session, wire), ...wrongInPipeline(session, wire)]),
    ),
  ];
}

function wrongInPipeline({ bytes, fine, coarse }: Session, wire: FuzzedWire): readonly string[] {
  const state = through(fine, wire);
  const other = through(coarse, wire);
  const wrong: string[] = [];
  if (state.wire?.counts.bytes !== bytes.length)
    wrong.push(`${bytes.length} bytes went in, ${state.wire?.counts.bytes} were counted`);
  const [a, b] = [digestOf(state), digestOf(other)];
  if (a !== b) wrong.push(`another cutting gave another state:\n${firstDifference(a, b)}`);
  for (const over of [true, false])
    for (const { crank, average } of crankTable(state, { over }).cranks) {
      if (!(crank.end.atMs >= crank.start.atMs))
        wrong.push(`a crank ends before it begins: ${textOf(crank)}`);
      if (!(average.coverage >= 0 && average.coverage <= 1)) wrong.push(`coverage ${average.coverage}`);
    }
  conditionValues(state, [{ startMs: 0, endMs: 1e9 }]);
  return wrong;
}

/** The decoder alone: what it gives, step by step, and that its counts agree with it. */
function wrongInWire({ fine, bytes }: Session, wire: FuzzedWire): readonly string[] {
  const wrong: string[] = [];
  let running = startWire(wire);
  let frames = 0;
  let readings = 0;
  let lost = 0; // told as lost: what was held too long on trial
  const take = (step: RunningStep) => {
    for (const batch of step.batches) {
      frames += batch.count;
      wrong.push(...wrongInBatch(batch));
    }
    readings += step.readings.length;
    for (const note of step.notes) if (note.kind === 'lost') lost += note.frames ?? 0;
    // NaN is "no time told", the same as for frames.
    for (const { value, quality } of step.readings)
      if ((value === null) === (quality === 'valid') || (value !== null && !Number.isFinite(value)))
        wrong.push(`a reading of ${value} (${quality})`);
    running = step.next;
  };
  for (const event of fine)
    if (event.kind === 'bytes') take(running.step(event.bytes, event.atMs));
    else if (event.kind === 'open') running = running.restart();
  take(running.finish());
  const { counts } = running;
  const numbers = [
    counts.lines,
    counts.frames,
    counts.bytes,
    counts.lost,
    ...Object.values(counts.malformed),
  ];
  if (!numbers.every((each) => Number.isSafeInteger(each) && each >= 0))
    wrong.push(`counts ${textOf(counts)}`);
  // Of lines with values those that gave some are counted.
  const agree =
    running.protocol === 'reading-lines'
      ? frames === 0 && counts.frames <= readings + lost
      : counts.frames >= frames && counts.frames <= frames + (wire === 'auto' ? lost : 0);
  if (!agree)
    wrong.push(
      `${frames} frames and ${readings} readings came out, ${lost} were told lost, ${counts.frames} were counted`,
    );
  if (counts.lines > bytes.length) wrong.push(`${counts.lines} lines in ${bytes.length} bytes`);
  if (counts.recentMalformed.length > 8) wrong.push(`${counts.recentMalformed.length} malformed lines kept`);
  return wrong;
}

function wrongInBatch({ count, atMs, id, flags, length, channel, data }: FrameBatch): readonly string[] {
  if (
    [atMs, id, flags, length, channel].some((column) => column.length !== count) ||
    data.length !== 8 * count
  )
    return [`columns do not have ${count} rows`];
  const wrong: string[] = [];
  const lastMs = new Map<number, number>();
  for (let row = 0; row < count; row++) {
    if (id[row]! > 0x1fffffff || length[row]! > 8) wrong.push(`id ${id[row]}, length ${length[row]}`);
    if (atMs[row]! < (lastMs.get(channel[row]!) ?? -Infinity)) wrong.push(`time falls to ${atMs[row]}`);
    lastMs.set(channel[row]!, atMs[row]!);
  }
  return wrong;
}

function firstDifference(a: string, b: string): string {
  let at = 0;
  while (a[at] === b[at]) at++;
  const around = (text: string) => text.slice(Math.max(0, at - 200), at + 120);
  return `  ${around(a)}\n  ${around(b)}`;
}
