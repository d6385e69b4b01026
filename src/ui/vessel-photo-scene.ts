import type { PictureSpot } from './picture-paint.ts';
import type { VesselSpot, VesselWork } from './vessel-photo-state.ts';

/** The name of a spot on the board; `vesselSpotOf` reads it back. */
export const vesselSpotId = (spot: VesselSpot): string => `vessel:${spot}`;

/** The spot of a name that `vesselSpotId` made; null for any other text. */
export function vesselSpotOf(id: string | null): VesselSpot | null {
  const text = /^vessel:(liquid|\d+)$/.exec(id ?? '')?.[1];
  if (text === undefined) return null;
  return text === 'liquid' ? text : Number(text);
}

/** The marks as crosses with their numbers, the liquid line as a level. */
export function vesselSpots({ marks, liquid }: VesselWork): readonly PictureSpot[] {
  const spots = marks.map(({ at, text }, index): PictureSpot => ({
    id: vesselSpotId(index),
    at,
    shape: 'cross',
    tone: 'accent',
    label: text.trim() || '?',
  }));
  if (!liquid) return spots;
  return [
    ...spots,
    { id: vesselSpotId('liquid'), at: liquid, shape: 'level', tone: 'fail', label: 'liquid' },
  ];
}
