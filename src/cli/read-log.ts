import type { PipelineState } from '../pipeline/pipeline.ts';
import type { Problem } from '../problems/problem.ts';
import type { WireProtocol } from '../wire/wire-decoder.ts';

/** A log read to its end: the pipeline's last state, and what the reading of it warns about. */
export interface ReadLog {
  readonly format: WireProtocol | 'speed log';
  readonly state: PipelineState;
  readonly warnings: readonly Problem[];
}
