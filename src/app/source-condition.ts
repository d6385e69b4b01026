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
  switch (view.link) {
    case 'none':
    case 'opening':
    case 'ended':
    case 'lost':
      return { state: view.link, secondsSinceLast: null };
    case 'reopening':
      return { state: 'reopening', secondsSinceLast: sinceData(view) };
    case 'refused':
      return { state: 'none', secondsSinceLast: null };
    case 'waiting':
    case 'live':
      return openCondition(view, session.link.problem !== null);
  }
}

const sinceData = ({ pipeline, nowMs }: Pick<DeskView['view'], 'pipeline' | 'nowMs'>): number | null =>
  pipeline ? Math.max(0, (nowMs - (pipeline.lastMs ?? pipeline.atMs)) / 1000) : null;

const SPEED_WORDS = { waiting: 'waiting', fresh: 'live', stale: 'stale', lost: 'lost' } as const;

/** An open source lives by its engine speed: other traffic alone does not make a run. */
function openCondition({ pipeline, nowMs, values }: DeskView['view'], troubled: boolean): Condition {
  const secondsSinceLast = sinceData({ pipeline, nowMs });
  const origin = pipeline && chosenOrigin(pipeline.traces, 'engineSpeed', values.origins.get('engineSpeed'));
  if (!pipeline || origin === null) return { state: troubled ? 'error' : 'waiting', secondsSinceLast };
  const { state } = freshness(traceOf(pipeline.traces, 'engineSpeed', origin), nowMs);
  return { state: SPEED_WORDS[state], secondsSinceLast };
}
