import { applyMap } from '../tracing/homography.ts';
import { placeOnAxis } from '../tracing/axis-fit.ts';
import type { Pixel } from '../tracing/pixel.ts';
import type { PictureLine, PictureSpot } from './picture-paint.ts';
import { axisView, curvePlaces, type TraceFrame } from './trace-result.ts';
import { CURVE_NAMES, type AxisName, type CurveName, type TraceSpot, type TraceWork } from './trace-state.ts';
import type { ColourName } from './tokens.ts';

/** What the board shows of a trace. */
export interface TraceScene {
  readonly spots: readonly PictureSpot[];
  readonly lines: readonly PictureLine[];
}

export const CORNER_WORDS = ['top left', 'top right', 'bottom right', 'bottom left'] as const;

/** The looks of a boundary; the same as on the limit chart: fail broken, pass whole. */
export const CURVE_LOOKS: Readonly<Record<CurveName, { tone: ColourName; dash: readonly number[] }>> = {
  failBelow: { tone: 'fail', dash: [10, 4] },
  passAbove: { tone: 'pass', dash: [] },
  failAbove: { tone: 'fail', dash: [3, 4] },
};

/** A spot's name on the board; `spotOfId` reads it back. */
export function spotId(spot: TraceSpot): string {
  if (spot.kind === 'corner') return `corner:frame:${spot.index}`;
  return `${spot.kind}:${spot.kind === 'mark' ? spot.axis : spot.curve}:${spot.index}`;
}

/** The spot of a name that `spotId` made; null for any other text. */
export function spotOfId(id: string | null): TraceSpot | null {
  const [kind, group, place] = id?.split(':') ?? [];
  const index = Number(place);
  if (kind === 'corner') return { kind, index };
  if (kind === 'mark' && (group === 'x' || group === 'y')) return { kind, axis: group, index };
  const curve = CURVE_NAMES.find((name) => name === group);
  return kind === 'point' && curve ? { kind, curve, index } : null;
}

/** Spots and lines of the step that is open. Corners lie in the picture as it came, all else in the squared-up one. */
export function sceneOf(work: TraceWork, frame: TraceFrame | null): TraceScene {
  if (work.step === 'corners' || !frame) return cornersScene(work);
  return work.step === 'axes' ? axesScene(work, frame) : curvesScene(work, frame);
}

function cornersScene({ corners }: TraceWork): TraceScene {
  const spots = corners.map((at, index): PictureSpot => ({
    id: spotId({ kind: 'corner', index }),
    at,
    shape: 'corner',
    tone: 'accent',
    label: CORNER_WORDS[index]!,
  }));
  return { spots, lines: [{ places: corners, tone: 'accent', closed: true }] };
}

const AXIS_TONES: Readonly<Record<AxisName, ColourName>> = { x: 'accent', y: 'seriesRail' };

function axesScene(work: TraceWork, frame: TraceFrame): TraceScene {
  const spots = (['x', 'y'] as const).flatMap((axis) =>
    work.axes[axis].marks.map(({ at, text }, index): PictureSpot => ({
      id: spotId({ kind: 'mark', axis, index }),
      at: applyMap(frame.map, at),
      shape: 'cross',
      tone: AXIS_TONES[axis],
      label: text.trim() || '?',
      fixed: axis !== work.axis,
    })),
  );
  return { spots, lines: scaleLines(work, frame) };
}

/** Across the picture where the fitted scale puts each typed number: they fall on the printed grid when all is well. */
function scaleLines(work: TraceWork, frame: TraceFrame): readonly PictureLine[] {
  const { fit, marks } = axisView(work, work.axis, frame);
  if (!fit.ok) return [];
  return marks.flatMap(({ value }) => {
    if (value === null) return [];
    const px = placeOnAxis(fit.value, value);
    const ends: readonly Pixel[] =
      work.axis === 'x'
        ? [
            { x: px, y: 0 },
            { x: px, y: frame.height },
          ]
        : [
            { x: 0, y: px },
            { x: frame.width, y: px },
          ];
    return [{ places: ends, tone: AXIS_TONES[work.axis], dash: [2, 6] }];
  });
}

function curvesScene(work: TraceWork, frame: TraceFrame): TraceScene {
  const spots = work.curves[work.curve].map((at, index): PictureSpot => ({
    id: spotId({ kind: 'point', curve: work.curve, index }),
    at: applyMap(frame.map, at),
    shape: 'dot',
    tone: CURVE_LOOKS[work.curve].tone,
    label: '',
  }));
  const lines = CURVE_NAMES.map((curve) => ({
    places: curvePlaces(work, curve, frame),
    ...CURVE_LOOKS[curve],
  })).filter(({ places }) => places.length > 1);
  return { spots, lines };
}
