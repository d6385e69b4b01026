import { scan, startWith, type OperatorFunction } from 'rxjs';
import type { LinkEvent } from '../link/link-event.ts';
import { startPipeline, stepPipeline, type PipelineOptions, type PipelineState } from './pipeline.ts';

/** The pipeline over a stream: emits its beginning, then one state an event. Completes and errors with its source. */
export const runPipeline =
  (options: PipelineOptions): OperatorFunction<LinkEvent, PipelineState> =>
  (event$) => {
    const initial = startPipeline(options);
    return event$.pipe(scan(stepPipeline, initial), startWith(initial));
  };
