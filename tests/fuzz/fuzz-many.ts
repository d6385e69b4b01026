import { findingsOf, sessionOf, WIRES, type Finding } from './fuzz-pipeline.ts';
import { drawsFrom } from './draws.ts';

/** How a run over many sessions went. Times are in ms, by the clock given. */
export interface FuzzRun {
  readonly sessions: number;
  /** Bytes made; each went through recognising, and through every line protocol three times. */
  readonly bytes: number;
  readonly findings: readonly Finding[];
  readonly spentMs: number;
  /** The slowest session, in ns for a byte and pass. */
  readonly slowestNsPerByte: number;
  readonly slowestSeed: number;
}

/** Passes over the bytes of a session: the decoder alone and two pipelines, for each line protocol. */
const PASSES = 3 * WIRES.length;

/** Sessions from `firstSeed` on until `wantedBytes` are through or `isOver` says so. A finding ends nothing. */
export function fuzzMany(
  firstSeed: number,
  wantedBytes: number,
  means: { readonly clockMs: () => number; readonly isOver?: (findings: readonly Finding[]) => boolean },
): FuzzRun {
  const findings: Finding[] = [];
  const startMs = means.clockMs();
  let [seed, bytes, slowestNsPerByte, slowestSeed] = [firstSeed, 0, 0, firstSeed];
  for (; bytes < wantedBytes && !means.isOver?.(findings); seed++) {
    const length = drawsFrom(seed ^ 0x5eed).pick([300, 3000, 16_000, 60_000]);
    const session = sessionOf(seed, length);
    const fromMs = means.clockMs();
    findings.push(...findingsOf(session));
    const nsPerByte = ((means.clockMs() - fromMs) * 1e6) / (length * PASSES);
    if (length >= 16_000 && nsPerByte > slowestNsPerByte) [slowestNsPerByte, slowestSeed] = [nsPerByte, seed];
    bytes += session.bytes.length;
  }
  return {
    sessions: seed - firstSeed,
    bytes,
    findings,
    spentMs: means.clockMs() - startMs,
    slowestNsPerByte,
    slowestSeed,
  };
}
