import { filter, fromEvent, map, merge, NEVER, Subject, type Observable } from 'rxjs';
import { z } from 'zod';
import type { ChannelLike } from './port-holders.ts';

/** Name of the channel on which the tabs tell each other what they kept. */
export const NEWS_CHANNEL = 'meniscus-news';

/** A document that changed in the store. */
const News = z.object({ kind: z.enum(['job', 'run']), id: z.string(), jobId: z.string().nullable() });
export type News = z.infer<typeof News>;

/**
 * What was kept. Of jobs the other tabs are told: whoever kept one here shows it already. Of runs this tab is told too: a run is written after its
 * page was left, when the job's page has read its runs.
 */
export interface TabNews {
  tell(news: News): void;
  readonly news$: Observable<News>;
}

/** @param channel null where tabs cannot talk: then there is no news of other tabs. */
export function tabNews(channel: ChannelLike | null): TabNews {
  const own$ = new Subject<News>();
  const others$ = channel
    ? fromEvent<{ readonly data: unknown }>(channel, 'message').pipe(
        map(({ data }) => News.safeParse(data)),
        filter((read) => read.success),
        map(({ data }) => data),
      )
    : NEVER;
  return {
    tell: (news) => {
      channel?.postMessage(news);
      own$.next(news);
    },
    news$: merge(others$, own$.pipe(filter(({ kind }) => kind === 'run'))),
  };
}
