import { filter, fromEvent, map, merge, NEVER, Subject, type Observable } from 'rxjs';
import { z } from 'zod';
import type { ChannelLike } from './port-holders.ts';

/** Name of the channel on which the tabs tell each other what they kept. */
export const NEWS_CHANNEL = 'meniscus-news';

/** A document that changed in the store. */
const News = z.object({ kind: z.enum(['job', 'run']), id: z.string(), jobId: z.string().nullable() });
export type News = z.infer<typeof News>;

/** What was kept, told to whoever shows it: in this tab and in the others. */
export interface TabNews {
  tell(news: News): void;
  readonly news$: Observable<News>;
}

/** @param channel null where tabs cannot talk: then only this tab hears its own news. */
export function tabNews(channel: ChannelLike | null): TabNews {
  const own = new Subject<News>();
  const others$ = channel
    ? fromEvent<{ readonly data: unknown }>(channel, 'message').pipe(
        map(({ data }) => News.safeParse(data)),
        filter((read) => read.success),
        map(({ data }) => data),
      )
    : NEVER;
  return {
    tell: (news) => {
      own.next(news);
      channel?.postMessage(news);
    },
    news$: merge(own, others$),
  };
}
