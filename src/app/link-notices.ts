import type { Problem } from '../problems/problem.ts';
import type { DeskView } from './run-desk.ts';

/** What went wrong with the source and its recording, to be told above the run. */
export const linkNotices = ({ session, view, saved }: DeskView): readonly Problem[] =>
  [
    session.link.kind === 'lost' ? session.link.problem : null,
    view.pipeline?.gaps.at(-1)?.problem ?? null,
    saved?.problem ?? null,
    (view.pipeline?.untimedFrames ?? 0) > 0 ? ({ code: 'wire.no-time', context: {} } as const) : null,
  ].filter((each) => each !== null);
