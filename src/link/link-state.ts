import type { Problem } from '../problems/problem.ts';
import type { Millis } from '../quantities/time.ts';
import type { LinkEvent } from './link-event.ts';

/**
 * Where a source stands:
 * `none` nothing chosen, `opening` subscribed, `waiting` open but nothing received yet, `live` data came,
 * `reopening` lost and being opened again (the gap `link.reopening` says so; the next `open` ends it),
 * `ended` delivered all or was closed, `lost` over for good by a failure, `refused` the person chose nothing.
 */
export type LinkKind = 'none' | 'opening' | 'waiting' | 'live' | 'reopening' | 'ended' | 'lost' | 'refused';

/** What is known of the connection. `problem` is the last one met: a gap while live, the cause when lost. */
export interface LinkState {
  readonly kind: LinkKind;
  readonly device: string | null;
  readonly bytes: number;
  readonly readings: number;
  readonly gaps: number;
  readonly lastAtMs: Millis | null;
  readonly problem: Problem | null;
}

/** What moves the state: the source's own events, and what its subscriber sees happen to it. */
export type LinkChange =
  | LinkEvent
  | { readonly kind: 'opening' }
  | { readonly kind: 'ended' }
  | { readonly kind: 'error'; readonly problem: Problem };

export const NO_LINK: LinkState = {
  kind: 'none',
  device: null,
  bytes: 0,
  readings: 0,
  gaps: 0,
  lastAtMs: null,
  problem: null,
};

/**
 * The state after one change. A source that is over (`ended`, `lost`, `refused`) stays so until `opening` starts
 * afresh, so that a late event of a closed connection does not bring it back to life.
 */
export function nextLinkState(state: LinkState, change: LinkChange): LinkState {
  if (change.kind === 'opening') return { ...NO_LINK, kind: 'opening' };
  if (change.kind === 'error') return failedLink(state, change.problem);
  if (isOver(state.kind)) return state;
  if (change.kind === 'ended') return { ...state, kind: 'ended' };
  return received(state, change);
}

/** The source is over for good: nothing more comes without opening it anew. */
export const isOver = (kind: LinkKind): boolean => kind === 'ended' || kind === 'lost' || kind === 'refused';

/** The source is held by this page, or is being opened or opened again: its clock runs. */
export const isOpen = (kind: LinkKind): boolean =>
  kind === 'opening' || kind === 'waiting' || kind === 'live' || kind === 'reopening';

function failedLink(state: LinkState, problem: Problem): LinkState {
  if (isOver(state.kind)) return state;
  return { ...state, kind: problem.code === 'link.refused' ? 'refused' : 'lost', problem };
}

function received(state: LinkState, event: LinkEvent): LinkState {
  switch (event.kind) {
    case 'open':
      return { ...state, kind: 'waiting', device: event.device, lastAtMs: event.atMs, problem: null };
    case 'bytes': {
      const kind = event.bytes.length > 0 ? 'live' : state.kind;
      return { ...state, kind, bytes: state.bytes + event.bytes.length, lastAtMs: event.atMs };
    }
    case 'reading':
      return { ...state, kind: 'live', readings: state.readings + 1, lastAtMs: event.atMs };
    case 'gap':
      return {
        ...state,
        kind: event.problem.code === 'link.reopening' ? 'reopening' : state.kind,
        gaps: state.gaps + 1,
        lastAtMs: event.atMs,
        problem: event.problem,
      };
  }
}
