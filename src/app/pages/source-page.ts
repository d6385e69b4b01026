import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { EMPTY } from 'rxjs';
import { describeProblem } from '../../problems/problem.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import { Bound } from '../../ui/bound.ts';
import '../../ui/problem-note.ts';
import '../../ui/source-state.ts';
import { pageStyles } from '../page-styles.ts';
import '../parts/connect-panel.ts';
import '../parts/source-panel.ts';
import type { Services } from '../services.ts';
import { SourceDesk, SOURCE_PAGE, type SourceDeskView } from '../source-desk.ts';
import { signalTile } from '../parts/signal-tile.ts';
import { trafficCondition } from '../traffic-condition.ts';

/** `source-page`: connect a bridge and see what the bus says, before or without a run. */
@customElement('source-page')
export class SourcePage extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    css`
      .numerals {
        display: grid;
        gap: var(--m-space-3);
        grid-template-columns: repeat(4, minmax(0, 1fr));
      }
      .numerals.huge {
        grid-template-columns: repeat(2, minmax(0, 1fr));
      }
      @media (max-width: 48rem) {
        .numerals {
          grid-template-columns: repeat(2, minmax(0, 1fr));
        }
      }
      .bar {
        display: flex;
        flex-wrap: wrap;
        gap: var(--m-space-3) var(--m-space-5);
        align-items: center;
        justify-content: space-between;
      }
    `,
  ];

  @property({ attribute: false }) services!: Services;
  #desk: SourceDesk | null = null;
  readonly #view = new Bound<SourceDeskView | null>(this, () => this.#desk?.view$ ?? EMPTY, null);

  override connectedCallback(): void {
    this.#desk = new SourceDesk(this.services);
    super.connectedCallback();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#desk?.stop();
    this.#desk = null;
  }

  override render() {
    const shown = this.#view.value;
    if (!shown) return nothing;
    const listening = shown.session.runId === SOURCE_PAGE;
    return html`<div class="column">
      <div class="bar">
        <h1>Source</h1>
        ${listening ? this.#state(shown) : nothing}
      </div>
      ${
        listening
          ? html`${this.#trouble(shown)} ${this.#numerals(shown)}
              <source-panel
                .services=${this.services}
                .session=${shown.session}
                .nowMs=${shown.nowMs}
                .wallMs=${shown.wallMs}
                .search=${shown.search}
                .open=${true}
                @search-stopped=${() => this.#desk?.stop()}
                @ask-wanted=${(event: HTMLElementEventMap['ask-wanted']) => this.#desk?.ask(event.detail)}
              ></source-panel>`
          : html`<p class="quiet">
                Connect a bridge to see what the bus says: engine speed, who is there, what they report.
                Meniscus only listens, and keeps nothing of it until a run is started.
              </p>
              <connect-panel
                .services=${this.services}
                @source-chosen=${(event: HTMLElementEventMap['source-chosen']) => this.#desk?.listen(event.detail)}
              ></connect-panel>`
      }
    </div>`;
  }

  #state(shown: SourceDeskView) {
    const condition = trafficCondition(shown.session, shown.nowMs);
    return html`<m-source-state
        state=${condition.state}
        .deviceName=${shown.session.link.device ?? shown.pending?.device ?? ''}
        .secondsSinceLast=${condition.secondsSinceLast}
        .secondsSinceLoss=${condition.secondsSinceLast}
      ></m-source-state>
      <button @click=${() => this.#desk?.stop()}>Disconnect</button>`;
  }

  #numerals({ session, nowMs }: SourceDeskView) {
    const { pressureUnit, supplyUnit } = this.services.settings.value;
    const look = { pipeline: session.pipeline, nowMs, origin: undefined };
    return html`<div class="numerals huge">
        ${signalTile(look, { signal: 'engineSpeed', unit: 'rpm', size: 'huge' })}
        ${signalTile(look, { signal: 'railPressure', unit: pressureUnit, size: 'huge' })}
      </div>
      <div class="numerals">
        ${signalTile(look, { signal: 'supplyPressure', unit: supplyUnit })}
        ${signalTile(look, { signal: 'batteryVoltage', unit: 'V' })}
        ${signalTile(look, { signal: 'fuelTemperature', unit: 'degC' })}
        ${signalTile(look, { signal: 'coolantTemperature', unit: 'degC' })}
      </div>`;
  }

  #trouble({ session: { link } }: SourceDeskView) {
    return link.problem && (link.kind === 'lost' || link.kind === 'reopening')
      ? html`<m-problem tone="warn" .problem=${describeProblem(link.problem)}></m-problem>`
      : nothing;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'source-page': SourcePage;
  }
}
