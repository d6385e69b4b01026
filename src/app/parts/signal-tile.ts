import { html } from 'lit';
import type { PipelineState } from '../../pipeline/pipeline.ts';
import { formatQuantity, unitSymbol } from '../../quantities/format.ts';
import type { SignalId } from '../../quantities/reading.ts';
import type { UnitId } from '../../quantities/unit.ts';
import { SIGNALS } from '../../signals/catalogue.ts';
import { freshness } from '../../signals/freshness.ts';
import { chosenOrigin, latest, traceOf } from '../../signals/trace-set.ts';
import '../../ui/value-tile.ts';
import type { ValueState } from '../../ui/value-tile.ts';

/** What a tile is told from: the data, what the source's clock shows now, and the person's choice of origin. */
export interface TileLook {
  readonly pipeline: PipelineState | null;
  readonly nowMs: number;
  readonly origin: number | undefined;
}

export interface TileWish {
  readonly signal: SignalId;
  readonly unit: UnitId;
  readonly size?: 'huge' | 'normal';
}

/** One signal as a large numeral, with its freshness. */
export function signalTile(look: TileLook, { signal, unit, size = 'normal' }: TileWish) {
  const reading = look.pipeline ? latest(look.pipeline.traces, signal, look.origin) : null;
  const { state, ageSeconds } = freshnessOf(look, signal);
  return html`<m-value-tile
    label=${size === 'huge' ? SIGNALS[signal].label : SIGNALS[signal].shortLabel}
    unit=${unitSymbol(unit)}
    size=${size}
    state=${reading && reading.value === null && state === 'fresh' ? 'notAvailable' : state}
    value=${formatQuantity(reading?.value ?? null, unit)}
    .ageSeconds=${ageSeconds}
  ></m-value-tile>`;
}

function freshnessOf(
  { pipeline, nowMs, origin: wished }: TileLook,
  signal: SignalId,
): { readonly state: ValueState; readonly ageSeconds: number | null } {
  const origin = pipeline && chosenOrigin(pipeline.traces, signal, wished);
  if (!pipeline || origin === null) return { state: 'waiting', ageSeconds: null };
  const { state, ageMs } = freshness(traceOf(pipeline.traces, signal, origin), nowMs);
  return { state, ageSeconds: ageMs === null ? null : ageMs / 1000 };
}
