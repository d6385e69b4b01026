import { filter, fromEvent, map, NEVER, type Observable } from 'rxjs';
import { z } from 'zod';
import type { ChannelLike } from './port-holders.ts';

/** Name of the channel on which the tabs tell each other what they kept. */
export const NEWS_CHANNEL = 'meniscus-news';

/** A document that changed in the store. */
const News = z.object({ kind: z.enum(['job', 'run']), id: z.string(), jobId: z.string().nullable() });
export type News = z.infer<typeof News>;

/** What was kept, told to the other tabs: whoever kept it here shows it already. */
export interface TabNews {
  tell(news: News): void;
  readonly news$: Observable<News>;
}

/** @param channel null where tabs cannot talk: then there is no news. */
export function tabNews(channel: ChannelLike | null): TabNews {
  const news$ = channel
    ? fromEvent<{ readonly data: unknown }>(channel, 'message').pipe(
        map(({ data }) => News.safeParse(data)),
        filter((read) => read.success),
        map(({ data }) => data),
      )
    : NEVER;
  return { tell: (news) => channel?.postMessage(news), news$ };
}
