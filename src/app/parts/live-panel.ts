import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Stretch } from '../../checks/value-measurement.ts';
import type { SignalId } from '../../quantities/reading.ts';
import type { UnitId } from '../../quantities/unit.ts';
import { baseStyles } from '../../ui/base-styles.ts';
import '../../ui/strip-chart.ts';
import '../../ui/value-tile.ts';
import type { StripCrank } from '../../ui/strip-chart-summary.ts';
import type { DeskView } from '../run-desk.ts';
import type { RunView } from '../run-view.ts';
import type { Settings } from '../settings.ts';
import { stripOf } from '../strip-columns.ts';
import { signalTile } from './signal-tile.ts';

const FOLLOW_SECONDS = 90;
const CHART_PIXELS = 1400;
/** Shown on either side of a stretch that is looked at closely. */
const AROUND_MS = 5000;

/** `live-panel`: what the engine does: the numerals that read from three metres, and the strip chart with its cranks. */
@customElement('live-panel')
export class LivePanel extends LitElement {
  static override styles = [
    baseStyles,
    css`
      /* Two abreast only where four figures and a unit fit. */
      .tiles {
        display: grid;
        gap: var(--m-space-3);
        grid-template-columns: repeat(auto-fit, minmax(min(18rem, 100%), 1fr));
      }
      .small {
        display: grid;
        gap: var(--m-space-3);
        grid-template-columns: repeat(4, minmax(0, 1fr));
        margin-top: var(--m-space-3);
      }
      m-strip-chart {
        margin-top: var(--m-space-4);
      }
      @media (max-width: 48rem) {
        .small {
          grid-template-columns: repeat(2, minmax(0, 1fr));
        }
      }
    `,
  ];

  @property({ attribute: false }) desk!: DeskView;
  @property({ attribute: false }) settings!: Settings;
  /** A stretch to be looked at closely, ms on the source's clock; null: all. */
  @property({ attribute: false }) stretch: Stretch | null = null;

  override render() {
    const { view } = this.desk;
    const chart = view.pipeline ? this.#chart(view) : nothing;
    return view.link === 'ended' || view.link === 'lost' ? chart : html`${this.#tiles(view)} ${chart}`;
  }

  /** The numerals of now: once the source is over there is no now, and only the trace stays. */
  #tiles(view: RunView) {
    const { pressureUnit, supplyUnit } = this.settings;
    return html`<div class="tiles">
        ${this.#tile('engineSpeed', 'rpm', 'huge')} ${this.#tile('railPressure', pressureUnit, 'huge')}
      </div>
      <div class="small">
        ${this.#average(view)} ${this.#tile('supplyPressure', supplyUnit)}
        ${this.#tile('batteryVoltage', 'V')} ${this.#tile('fuelTemperature', 'degC')}
      </div>`;
  }

  #tile(signal: SignalId, unit: UnitId, size: 'huge' | 'normal' = 'normal') {
    const { pipeline, nowMs, values } = this.desk.view;
    return signalTile({ pipeline, nowMs, origin: values.origins.get(signal) }, { signal, unit, size });
  }

  #average({ table, judged }: RunView) {
    const whole = judged.ok ? judged.value.delivery.average : null;
    const running = table.underWay?.average ?? null;
    const shown = running && running.samples > 0 ? running : whole;
    return html`<m-value-tile
      label=${running ? 'This crank' : 'Average'}
      unit="rpm"
      state=${shown ? 'fresh' : 'waiting'}
      value=${shown ? shown.meanRpm.toFixed(1) : ''}
    ></m-value-tile>`;
  }

  #window(live: boolean, firstMs: number, nowMs: number) {
    const { stretch } = this;
    if (!live && stretch)
      return {
        fromMs: Math.max(firstMs, stretch.startMs - AROUND_MS),
        toMs: Math.min(nowMs, stretch.endMs + AROUND_MS),
      };
    const fromMs = live ? Math.max(firstMs, nowMs - 2 * FOLLOW_SECONDS * 1000) : firstMs;
    return { fromMs, toMs: Math.max(nowMs, fromMs + 1) };
  }

  #chart(view: RunView) {
    const { pipeline, nowMs } = view;
    if (!pipeline) return nothing;
    const live = view.link === 'live' || view.link === 'waiting';
    const firstMs = pipeline.firstMs ?? 0;
    const { fromMs, toMs } = this.#window(live, firstMs, nowMs);
    const strip = stripOf(
      pipeline,
      { fromMs, toMs, pixels: CHART_PIXELS },
      this.settings,
      view.values.origins.get('engineSpeed'),
    );
    return html`<m-strip-chart
      label="Speed and pressures over time"
      .series=${strip.series}
      .columns=${strip.columns}
      .revision=${nowMs + fromMs}
      .cranks=${cranksOf(view, firstMs)}
      .followSeconds=${live ? FOLLOW_SECONDS : null}
    ></m-strip-chart>`;
  }
}

function cranksOf({ table, values, countedUntilMs }: RunView, firstMs: number): readonly StripCrank[] {
  const seconds = (ms: number) => (ms - firstMs) / 1000;
  const found = table.cranks.map(({ startMs, endMs, average }, place) => ({
    startSeconds: seconds(startMs),
    endSeconds: seconds(endMs),
    label: `Crank ${place + 1}`,
    counts: !values.leftOut.has(place),
    meanRpm: Number.isFinite(average.meanRpm) ? average.meanRpm : null,
  }));
  const { underWay } = table;
  if (!underWay) return found;
  const going = {
    startSeconds: seconds(underWay.start.atMs),
    endSeconds: seconds(countedUntilMs),
    label: `Crank ${found.length + 1}`,
    counts: true,
    meanRpm: Number.isFinite(underWay.average.meanRpm) ? underWay.average.meanRpm : null,
  };
  return [...found, going];
}

declare global {
  interface HTMLElementTagNameMap {
    'live-panel': LivePanel;
  }
}
