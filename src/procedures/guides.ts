import { CheckGuide } from './check-guide.ts';
import crankDelivery from './library/crank-delivery.json' with { type: 'json' };

/** The guide of the crank delivery check, validated when the page loads: a broken library is a programmer's mistake. */
export const CRANK_DELIVERY_GUIDE: CheckGuide = CheckGuide.parse(crankDelivery);
