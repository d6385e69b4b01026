import type { AdapterId } from '../src/link/adapter.ts';

/** Every source by its id, loaded when it is first asked for. Add a source here and in `AdapterId`. */
export const ADAPTERS = {
  bench: () => import('./bench.ts'),
  'web-serial': () => import('./web-serial.ts'),
  'log-file': () => import('./log-file.ts'),
  replay: () => import('./replay.ts'),
} as const satisfies Record<AdapterId, () => Promise<object>>;
