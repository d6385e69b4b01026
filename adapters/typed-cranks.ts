import type { LinkEvent } from '../src/link/link-event.ts';
import { problem, type Problem } from '../src/problems/problem.ts';
import { failed, ok, type Result } from '../src/problems/result.ts';
import { NO_ORIGIN } from '../src/quantities/reading.ts';
import { millis } from '../src/quantities/time.ts';

/** One crank as a person notes it: how long the starter turned, and the average speed meanwhile. */
export interface TypedCrank {
  readonly seconds: number;
  readonly rpm: number;
  /** Pause after it, s; 30 where nobody noted it: then it says nothing about how long the starter rested. */
  readonly restSeconds?: number;
}

/** Levels at which the crank finder sees a crank begin and end, rpm (measurement.md 2). */
export interface CrankLevels {
  readonly startRpm: number;
  readonly endRpm: number;
}

export const USUAL_LEVELS: CrankLevels = { startRpm: 50, endRpm: 30 };

/** What can be a crank. From 400 rpm on the engine runs (measurement.md 2); starters are not held for minutes (common practice, no source). */
export const TYPED_LIMITS = {
  leastSeconds: 0.5,
  mostSeconds: 120,
  belowRpm: 400,
  mostRestSeconds: 3600,
} as const;

/** Time between the two samples of an edge: so little that the ramp between them takes less than 0.1 rpm from any average. */
const EDGE_MS = 0.1;
const SAMPLE_MS = 100;
const REST_BEFORE_MS = 2_000;
const USUAL_REST_SECONDS = 30;
const DEVICE = 'Typed numbers';

/**
 * Cranks noted by hand ("14.8 s at 152 rpm") as the events of a source, so that they end in the same graded run: rest at 0 rpm, an
 * edge, constant speed, an edge, rest. The crank finder finds exactly these cranks, each with its time and mean speed
 * (tests/adapters/typed.test.ts). Seconds and rpm in, `open` and engine speed readings out (NO_ORIGIN, from 0 ms).
 * A row that can be no crank, or none at all, gives the problem with its row.
 *
 * How sure this is. The edges lie exactly where the typed times put them (0.03 ms), which a hand on a stopwatch does not; but the
 * doubt of a late first report, 0.6 s / sqrt 3 = 0.35 s, is in each crank's time as in any, and is more than two ends of a
 * stopwatch are worth, each off by up to 0.2 s either way (0.16 s together; common practice, no source): the time comes out
 * less sure than it is, not more. The mean speed is the other way round: a constant speed has no spread, so its uncertainty
 * comes out as the resolution of a J1939 reading (0.04 rpm), and what the person's instrument is worth, often some rpm, is
 * not in it. Nothing here knows whether the speed was steady or whether the crank was seen whole.
 */
export function typedCranks(
  rows: readonly TypedCrank[],
  levels: CrankLevels = USUAL_LEVELS,
): Result<readonly LinkEvent[]> {
  const mistake = firstMistake(rows, levels);
  if (mistake) return failed(mistake);
  const events: LinkEvent[] = [{ kind: 'open', atMs: millis(0), device: DEVICE, write: null }];
  const add = (atMs: number, rpm: number) => events.push(speedEvent(atMs, rpm));
  let nowMs = addRest(add, 0, REST_BEFORE_MS);
  for (const row of rows) {
    nowMs = addCrank(add, nowMs, row, levels);
    nowMs = addRest(add, nowMs, (row.restSeconds ?? USUAL_REST_SECONDS) * 1000);
  }
  return ok(events);
}

type AddSpeed = (atMs: number, rpm: number) => void;

/** Standstill every SAMPLE_MS from `fromMs` on, both ends included. @returns its end. */
function addRest(add: AddSpeed, fromMs: number, spanMs: number): number {
  const steps = Math.max(3, Math.round(spanMs / SAMPLE_MS));
  for (let step = 0; step <= steps; step++) add(fromMs + (step * spanMs) / steps, 0);
  return fromMs + spanMs;
}

/** Speed steps up and down within EDGE_MS, so that the line between the samples passes the levels at the very times typed. */
function addCrank(add: AddSpeed, restMs: number, { seconds, rpm }: TypedCrank, levels: CrankLevels): number {
  const startMs = restMs + SAMPLE_MS;
  const endMs = startMs + seconds * 1000;
  const firstMs = startMs + EDGE_MS * (1 - levels.startRpm / rpm);
  const lastMs = endMs - EDGE_MS * (1 - levels.endRpm / rpm);
  const steps = Math.ceil((lastMs - firstMs) / SAMPLE_MS);
  add(startMs - EDGE_MS * (levels.startRpm / rpm), 0);
  for (let step = 0; step <= steps; step++) add(firstMs + (step * (lastMs - firstMs)) / steps, rpm);
  const stillMs = endMs + EDGE_MS * (levels.endRpm / rpm);
  add(stillMs, 0);
  return stillMs + SAMPLE_MS;
}

function firstMistake(rows: readonly TypedCrank[], { startRpm }: CrankLevels): Problem | null {
  const { leastSeconds, mostSeconds, belowRpm, mostRestSeconds } = TYPED_LIMITS;
  if (rows.length === 0) return problem('device.typed-none');
  for (const [place, { seconds, rpm, restSeconds = USUAL_REST_SECONDS }] of rows.entries()) {
    const row = place + 1;
    if (!(seconds >= leastSeconds && seconds <= mostSeconds))
      return problem('device.typed-seconds', { row, seconds, least: leastSeconds, most: mostSeconds });
    if (!(rpm > startRpm && rpm < belowRpm))
      return problem('device.typed-rpm', { row, rpm, above: startRpm, below: belowRpm });
    if (!(restSeconds >= 1 && restSeconds <= mostRestSeconds))
      return problem('device.typed-rest', { row, seconds: restSeconds, most: mostRestSeconds });
  }
  return null;
}

const speedEvent = (atMs: number, rpm: number): LinkEvent => ({
  kind: 'reading',
  atMs: millis(atMs),
  reading: { signal: 'engineSpeed', atMs: millis(atMs), value: rpm, quality: 'valid', origin: NO_ORIGIN },
});
