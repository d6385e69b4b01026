import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { BenchView } from '../../../simulators/bench.ts';
import type { Vessel } from '../../checks/measurement.ts';
import { VESSELS } from '../../checks/vessels.ts';
import { baseStyles } from '../../ui/base-styles.ts';
import '../../ui/number-pad.ts';
import '../../ui/vessel-drawing.ts';
import { pageStyles } from '../page-styles.ts';
import './photo-reading.ts';
import type { PhotoReadingMeans } from './photo-reading.ts';

/**
 * `volume-entry`: what was read off, and off which vessel. On the bench the vessel is drawn, to be read. Events: `number-entered`, `vessel-chosen`,
 * and `volume-photographed` for one read off a photograph. */
@customElement('volume-entry')
export class VolumeEntry extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    css`
      .both {
        display: grid;
        gap: var(--m-space-4);
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 15rem), 1fr));
      }
    `,
  ];

  @property({ attribute: false }) vessel: Vessel | null = null;
  @property({ attribute: false }) bench: BenchView | null = null;
  /** What reading off a photograph needs; without it that way is not offered. */
  @property({ attribute: false }) services: PhotoReadingMeans | null = null;
  @property() text = '';
  @property() error = '';

  override render() {
    const { vessel, bench } = this;
    return html`<div class="stack">
      <label class="field"
        >Vessel
        <select @change=${this.#chosen} ?disabled=${bench !== null}>
          ${VESSELS.map(
            ({ id, name }) => html`<option value=${id} ?selected=${id === vessel?.id}>${name}</option>`,
          )}
        </select>
      </label>
      <div class="both">
        ${
          bench
            ? html`<m-vessel
                .capacityMl=${bench.vessel.capacityMl}
                .graduationMl=${bench.vessel.graduationMl}
                .levelMl=${bench.vessel.levelMl}
                guide
              ></m-vessel>`
            : nothing
        }
        <m-number-pad
          label="Volume in the vessel"
          unit="mL"
          action-label="Grade it"
          hint="Eye level with the fuel; read the bottom of the curve."
          .min=${0}
          .max=${vessel?.capacityMl ?? null}
          .text=${this.text}
          .error=${this.error}
        ></m-number-pad>
      </div>
      ${this.services ? html`<photo-reading .means=${this.services} .vessel=${vessel}></photo-reading>` : nothing}
    </div>`;
  }

  readonly #chosen = (event: Event) => {
    const vessel = VESSELS.find(({ id }) => id === (event.target as HTMLSelectElement).value);
    if (vessel)
      this.dispatchEvent(new CustomEvent('vessel-chosen', { detail: vessel, bubbles: true, composed: true }));
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'volume-entry': VolumeEntry;
  }
  interface HTMLElementEventMap {
    'vessel-chosen': CustomEvent<Vessel>;
  }
}
