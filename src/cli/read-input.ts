import { DEFAULT_CRANK_SETTINGS } from '../crank/crank.ts';
import { finishPipeline, startPipeline, stepPipeline } from '../pipeline/pipeline.ts';
import { problem } from '../problems/problem.ts';
import { failed, ok, type Result } from '../problems/result.ts';
import { millis } from '../quantities/time.ts';
import { recogniseWire } from '../wire/recognise.ts';
import type { WireProtocol } from '../wire/wire-decoder.ts';
import type { InputOptions } from './arguments.ts';
import type { ReadLog } from './read-log.ts';
import { openFile, type OpenedFile } from './open-file.ts';

/** Reads FILE, plain or gzip, whatever it holds. Everything that cannot be used gives a problem with its remedy. */
export async function readInput(options: InputOptions): Promise<Result<ReadLog>> {
  const opened = openFile(options.file);
  if (!opened.ok) return opened;
  const file = opened.value;
  try {
    const wire = recogniseWire(file.beginning);
    if (wire) return readFrames(file, wire, options);
    // Loaded when it is needed: a log of frames shall not wait for what reads numbers.
    const { readNumbers } = await import('./read-numbers.ts');
    return readNumbers(file.all(), options);
  } finally {
    file.close();
  }
}

function readFrames(file: OpenedFile, wire: WireProtocol, { intervalMs }: InputOptions): Result<ReadLog> {
  let state = startPipeline({
    wire,
    crankSettings: DEFAULT_CRANK_SETTINGS,
    givenIntervalMs: intervalMs,
    readingsOnly: true,
  });
  for (const bytes of file.pieces()) state = stepPipeline(state, { kind: 'bytes', atMs: millis(0), bytes });
  state = finishPipeline(state);
  if (state.untimedFrames > 0 && state.firstMs === null) return failed(problem('wire.no-time'));
  return ok({ format: wire, state, warnings: [] });
}
