import { filter, map, scan, type OperatorFunction } from 'rxjs';
import type { LinkEvent } from '../link/link-event.ts';
import type { WireDecoder, WireStep } from './wire-decoder.ts';

/** Link events to decoded steps, one a `bytes` event; a pure reducer and a scan. Other events are none of its business. */
export const decodeFrames =
  <State>(decoder: WireDecoder<State>): OperatorFunction<LinkEvent, WireStep<State>> =>
  (event$) =>
    event$.pipe(
      filter((event) => event.kind === 'bytes'),
      scan<Extract<LinkEvent, { kind: 'bytes' }>, WireStep<State> | null>(
        (last, { bytes, atMs }) => decoder.step(last?.state ?? decoder.initial(), bytes, atMs),
        null,
      ),
      map((step) => step!),
    );
