import type { StripCrank, StripKind } from './strip-chart-summary.ts';
import type { ColourName } from './tokens.ts';

/** The part of a plot that the overlay needs; keeps the plotting library in its one file. */
export interface PlotSurface {
  readonly ctx: CanvasRenderingContext2D;
  readonly bbox: {
    readonly left: number;
    readonly top: number;
    readonly width: number;
    readonly height: number;
  };
  valToPos(value: number, scale: string, canvasPixels: boolean): number;
}

export interface OverlayLook {
  colour(name: ColourName): string;
  readonly pixelRatio: number;
  readonly font: string;
}

/** Colour, dash (CSS pixels) and width of each kind, so that no trace is known by its colour alone. */
export const SERIES_LOOK: Readonly<
  Record<StripKind, { colour: ColourName; dash: readonly number[]; width: number }>
> = {
  speed: { colour: 'seriesSpeed', dash: [], width: 2.5 },
  rail: { colour: 'seriesRail', dash: [9, 4], width: 2 },
  supply: { colour: 'seriesSupply', dash: [2, 3], width: 2 },
};

interface Span {
  readonly left: number;
  readonly right: number;
}

function spanOf(plot: PlotSurface, crank: StripCrank): Span | null {
  const { left, width } = plot.bbox;
  const from = Math.max(left, plot.valToPos(crank.startSeconds, 'x', true));
  const to = Math.min(left + width, plot.valToPos(crank.endSeconds, 'x', true));
  return to > from ? { left: from, right: to } : null;
}

/** Shades the cranks under the traces: tinted with firm edges when they count, hatched when left out. */
export function shadeCranks(plot: PlotSurface, cranks: readonly StripCrank[], look: OverlayLook): void {
  const { ctx, bbox } = plot;
  ctx.save();
  for (const crank of cranks) {
    const span = spanOf(plot, crank);
    if (!span) continue;
    ctx.fillStyle = look.colour(crank.counts ? 'crankingSoft' : 'invalidSoft');
    ctx.fillRect(span.left, bbox.top, span.right - span.left, bbox.height);
    if (!crank.counts) hatch(plot, span, look);
    ctx.strokeStyle = look.colour(crank.counts ? 'cranking' : 'invalid');
    ctx.lineWidth = look.pixelRatio;
    ctx.setLineDash(crank.counts ? [] : [4 * look.pixelRatio, 4 * look.pixelRatio]);
    ctx.strokeRect(span.left, bbox.top, span.right - span.left, bbox.height);
  }
  ctx.restore();
}

function hatch({ ctx, bbox }: PlotSurface, { left, right }: Span, look: OverlayLook): void {
  ctx.save();
  ctx.beginPath();
  ctx.rect(left, bbox.top, right - left, bbox.height);
  ctx.clip();
  ctx.beginPath();
  const step = 10 * look.pixelRatio;
  for (let x = left - bbox.height; x < right; x += step) {
    ctx.moveTo(x, bbox.top + bbox.height);
    ctx.lineTo(x + bbox.height, bbox.top);
  }
  ctx.strokeStyle = look.colour('line');
  ctx.lineWidth = look.pixelRatio;
  ctx.stroke();
  ctx.restore();
}

/** Draws each crank's average as a line over the traces, and its name at the top. */
export function drawAverages(plot: PlotSurface, cranks: readonly StripCrank[], look: OverlayLook): void {
  const { ctx, bbox } = plot;
  ctx.save();
  ctx.font = look.font;
  ctx.textBaseline = 'top';
  for (const crank of cranks) {
    const span = spanOf(plot, crank);
    if (!span) continue;
    ctx.fillStyle = look.colour(crank.counts ? 'cranking' : 'invalid');
    halo(ctx, look);
    const name = crank.counts ? crank.label : `${crank.label}, left out`;
    fitted(ctx, name, { left: span.left, right: span.right }, bbox.top + 5 * look.pixelRatio);
    if (crank.meanRpm !== null) averageLine(plot, crank.meanRpm, span, look);
  }
  ctx.restore();
}

function averageLine(plot: PlotSurface, meanRpm: number, { left, right }: Span, look: OverlayLook): void {
  const { ctx } = plot;
  const y = plot.valToPos(meanRpm, 'speed', true);
  ctx.strokeStyle = look.colour('ink');
  ctx.lineWidth = 2 * look.pixelRatio;
  ctx.setLineDash([]);
  ctx.beginPath();
  ctx.moveTo(left, y);
  ctx.lineTo(right, y);
  for (const x of [left, right]) {
    ctx.moveTo(x, y - 5 * look.pixelRatio);
    ctx.lineTo(x, y + 5 * look.pixelRatio);
  }
  ctx.stroke();
  ctx.fillStyle = look.colour('ink');
  halo(ctx, look);
  fitted(ctx, `mean ${meanRpm.toFixed(1)}`, { left, right }, y + 6 * look.pixelRatio);
}

/** A rim of the ground around the letters, so that a busy trace never cuts them. */
function halo(ctx: CanvasRenderingContext2D, look: OverlayLook): void {
  ctx.strokeStyle = look.colour('surface');
  ctx.lineWidth = 4 * look.pixelRatio;
  ctx.lineJoin = 'round';
  ctx.setLineDash([]);
}

/** Writes a text at the left of a span, or not at all where it would run into the next. */
function fitted(ctx: CanvasRenderingContext2D, text: string, { left, right }: Span, y: number): void {
  const margin = 6;
  if (ctx.measureText(text).width + 2 * margin > right - left) return;
  ctx.strokeText(text, left + margin, y);
  ctx.fillText(text, left + margin, y);
}
