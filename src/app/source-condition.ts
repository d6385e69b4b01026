import { freshness } from '../signals/freshness.ts';
import { chosenOrigin, traceOf } from '../signals/trace-set.ts';
import type { SourceCondition } from '../ui/source-state.ts';
import type { DeskView } from './run-desk.ts';

export interface Condition {
  readonly state: SourceCondition;
  readonly secondsSinceLast: number | null;
}

/** How the source does, in the words of the screen: the link's state, made stale or lost by the age of engine speed. */
export function sourceCondition({ view, session }: Pick<DeskView, 'view' | 'session'>): Condition {
  const { link, pipeline, nowMs, values } = view;
  const last = pipeline ? (nowMs - pipeline.atMs) / 1000 : null;
  switch (link) {
    case 'none':
    case 'opening':
    case 'ended':
    case 'lost':
      return { state: link, secondsSinceLast: null };
    case 'refused':
      return { state: 'none', secondsSinceLast: null };
    case 'waiting':
    case 'live': {
      const origin =
        pipeline && chosenOrigin(pipeline.traces, 'engineSpeed', values.origins.get('engineSpeed'));
      if (!pipeline || origin === null)
        return { state: session.link.problem ? 'error' : 'waiting', secondsSinceLast: last };
      const { state } = freshness(traceOf(pipeline.traces, 'engineSpeed', origin), nowMs);
      const shown = { waiting: 'waiting', fresh: 'live', stale: 'stale', lost: 'lost' } as const;
      return { state: shown[state], secondsSinceLast: last };
    }
  }
}
