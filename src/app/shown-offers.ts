import type { SourceOffer as Offer } from '../../adapters/registry.ts';
import { describeProblem } from '../problems/problem.ts';
import type { IconShape } from '../ui/shape-icon.ts';
import type { SourceOffer } from '../ui/source-offers.ts';
import { isLiveId, LIVE_IDS, type LiveId } from './live-sources.ts';

const SHAPES: Readonly<Record<LiveId, IconShape>> = {
  'web-serial': 'serial',
  'web-usb': 'serial',
  'web-bluetooth': 'radio',
  'web-socket': 'network',
};

/** The live sources as cards: the usual way of this browser first, those that it cannot do last, with the reason. */
export function shownOffers(offers: readonly Offer[]): readonly SourceOffer[] {
  const rank = ({ usual, usable, id }: Offer) =>
    (usual ? 0 : 10) + (usable ? 0 : 100) + LIVE_IDS.findIndex((live) => live === id);
  return offers
    .toSorted((a, b) => rank(a) - rank(b))
    .flatMap(({ id, title, blurb, problem }) =>
      isLiveId(id)
        ? [{ id, shape: SHAPES[id], title, line: blurb, problem: problem && describeProblem(problem) }]
        : [],
    );
}
