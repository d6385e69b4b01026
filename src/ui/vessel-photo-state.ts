import { problem } from '../problems/problem.ts';
import { failed, type Result } from '../problems/result.ts';
import type { Pixel } from '../tracing/pixel.ts';
import { readVesselPhoto, type PhotoReading, type VesselMark } from '../tracing/vessel-photo.ts';
import { amend, beginHistory, redo, remember, undo, type History } from './picture-history.ts';
import { readNumber } from './read-number.ts';
import { replaced, without, type TypedMark } from './trace-state.ts';

/** What a click on the photograph means now. */
export type VesselAim = 'graduation' | 'liquid';

/** All that a person does to the photograph of a vessel. */
export interface VesselWork {
  readonly aim: VesselAim;
  readonly marks: readonly TypedMark[];
  readonly liquid: Pixel | null;
}

/** Something that can be taken hold of: the index of a mark, or the liquid line. */
export type VesselSpot = number | 'liquid';

export interface VesselState {
  readonly history: History<VesselWork>;
  readonly selected: VesselSpot | null;
}

export type VesselAction =
  | { readonly type: 'aim'; readonly aim: VesselAim }
  | { readonly type: 'set'; readonly at: Pixel }
  | { readonly type: 'type'; readonly index: number; readonly text: string }
  | { readonly type: 'select'; readonly spot: VesselSpot | null }
  | { readonly type: 'move'; readonly spot: VesselSpot; readonly at: Pixel; readonly gesture: string | null }
  | { readonly type: 'remove'; readonly spot: VesselSpot }
  | { readonly type: 'undo' }
  | { readonly type: 'redo' };

export const beginVessel = (): VesselState => ({
  history: beginHistory<VesselWork>({ aim: 'graduation', marks: [], liquid: null }),
  selected: null,
});

/** One action of the person. An action on something that is not there changes nothing. */
export function stepVessel(state: VesselState, action: VesselAction): VesselState {
  const { history, selected } = state;
  switch (action.type) {
    case 'undo':
      return settle({ history: undo(history), selected });
    case 'redo':
      return settle({ history: redo(history), selected });
    case 'select':
      return settle({ history, selected: action.spot });
    case 'aim':
      return { history: amend(history, { ...history.now, aim: action.aim }), selected: null };
    case 'set':
    case 'type':
    case 'move':
    case 'remove':
      return change(state, action);
  }
}

type Change = Extract<VesselAction, { type: 'set' | 'type' | 'move' | 'remove' }>;

function change({ history, selected }: VesselState, action: Change): VesselState {
  const { now } = history;
  switch (action.type) {
    case 'set': {
      const next = withPlace(now, action.at);
      return {
        history: remember(history, next),
        selected: now.aim === 'liquid' ? 'liquid' : next.marks.length - 1,
      };
    }
    case 'type': {
      const next = withMarks(now, replaced(now.marks, action.index, { text: action.text }));
      return { history: remember(history, next, `type ${action.index}`), selected };
    }
    case 'move':
      return { history: remember(history, moved(now, action.spot, action.at), action.gesture), selected };
    case 'remove':
      return { history: remember(history, removed(now, action.spot)), selected: null };
  }
}

const withMarks = (work: VesselWork, marks: readonly TypedMark[]): VesselWork =>
  marks === work.marks ? work : { ...work, marks };

const withPlace = (work: VesselWork, at: Pixel): VesselWork =>
  work.aim === 'liquid' ? { ...work, liquid: at } : { ...work, marks: [...work.marks, { at, text: '' }] };

function moved(work: VesselWork, spot: VesselSpot, at: Pixel): VesselWork {
  if (spot === 'liquid') return work.liquid ? { ...work, liquid: at } : work;
  return withMarks(work, replaced(work.marks, spot, { at }));
}

function removed(work: VesselWork, spot: VesselSpot): VesselWork {
  if (spot === 'liquid') return work.liquid ? { ...work, liquid: null } : work;
  return withMarks(work, without(work.marks, spot));
}

function settle({ history, selected }: VesselState): VesselState {
  const { marks, liquid } = history.now;
  const there = selected === 'liquid' ? liquid !== null : selected !== null && selected in marks;
  return { history, selected: there ? selected : null };
}

/** The number typed at a mark, or why there is none. A vessel has nothing below zero. */
export const markNumber = ({ text }: TypedMark): { value: number } | { refusal: string } =>
  readNumber(text, { min: 0, max: null, unit: 'mL' });

/** The marks that carry a number. */
export const vesselMarksOf = ({ marks }: VesselWork): readonly VesselMark[] =>
  marks.flatMap((mark) => {
    const number = markNumber(mark);
    return 'value' in number ? [{ at: mark.at, volumeMl: number.value }] : [];
  });

/** The volume at the liquid line. Problems: `tracing.no-liquid-line` before it is marked, else those of `readVesselPhoto`. */
export function vesselReading(work: VesselWork): Result<PhotoReading> {
  const marks = vesselMarksOf(work);
  if (marks.length < 2) return failed(problem('tracing.too-few-marks', { marks: marks.length }));
  if (!work.liquid) return failed(problem('tracing.no-liquid-line'));
  return readVesselPhoto(marks, work.liquid);
}
