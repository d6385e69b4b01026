import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { describeProblem, type Problem } from '../../problems/problem.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import '../../ui/problem-note.ts';
import '../../ui/source-offers.ts';
import type { LastSource, SourceOffer } from '../../ui/source-offers.ts';
import type { RememberedDevice } from '../device-memory.ts';
import { isLiveId, type LiveId, type LivePending } from '../live-sources.ts';
import { pageStyles } from '../page-styles.ts';
import { factsOf } from '../search-view.ts';
import type { Services } from '../services.ts';
import { shownOffers } from '../shown-offers.ts';

const LAST = 'last';

/** `connect-panel`: the ways to a live bridge, the one of last time first. Says `source-chosen` with what can be opened. */
@customElement('connect-panel')
export class ConnectPanel extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    css`
      form {
        display: grid;
        gap: var(--m-space-2);
        grid-template-columns: minmax(0, 1fr) auto;
        align-items: end;
      }
      form p {
        grid-column: 1 / -1;
      }
    `,
  ];

  @property({ attribute: false }) services!: Services;
  /** Shows the usual way at once and the others on demand. */
  @property({ type: Boolean }) compact = false;
  @state() private lastUsed: RememberedDevice | null = null;
  @state() private asking: LiveId | null = null;
  @state() private typed = '';
  @state() private problem: Problem | null = null;

  override connectedCallback(): void {
    super.connectedCallback();
    void this.services.memory.list().then(([first]) => (this.lastUsed = first ?? null));
  }

  override render() {
    const [first, ...others] = this.#offers();
    const near = this.compact && first ? [first] : this.#offers();
    return html`<div class="stack">
      <m-source-offers .offers=${near} .last=${this.#last()} @source-wanted=${this.#wanted}></m-source-offers>
      ${
        this.compact
          ? html`<details>
              <summary>Other ways to connect</summary>
              <m-source-offers .offers=${others} @source-wanted=${this.#wanted}></m-source-offers>
            </details>`
          : nothing
      }
      ${this.asking === 'web-socket' ? this.#addressForm() : nothing}
      ${this.asking === 'web-bluetooth' ? this.#serviceForm() : nothing}
      ${
        this.problem
          ? html`<m-problem tone="error" .problem=${describeProblem(this.problem)}></m-problem>`
          : nothing
      }
    </div>`;
  }

  #offers(): readonly SourceOffer[] {
    return shownOffers(this.services.offers);
  }

  #last(): LastSource | null {
    if (!this.lastUsed) return null;
    return { id: LAST, deviceName: this.lastUsed.name, worked: factsOf(this.lastUsed.found), problem: null };
  }

  #addressForm() {
    return html`<form class="card" @submit=${this.#addressGiven}>
      <p>The address of the bridge on the network, as its manual or its screen gives it.</p>
      <label class="field"
        >Address
        <input
          type="text"
          inputmode="url"
          autocomplete="off"
          spellcheck="false"
          placeholder="ws://192.168.4.1:81"
          .value=${this.typed}
          @input=${(event: Event) => (this.typed = (event.target as HTMLInputElement).value)}
        />
      </label>
      <button class="primary" type="submit">Connect</button>
    </form>`;
  }

  /** Only services named before choosing can be touched: a device outside the table needs its service typed first. */
  #serviceForm() {
    return html`<form class="card" @submit=${this.#serviceGiven}>
      <p>
        For a device whose service Meniscus does not know: type its service UUID, then choose the device
        again.
      </p>
      <label class="field"
        >Bluetooth service
        <input
          type="text"
          autocomplete="off"
          spellcheck="false"
          placeholder="FFE0 or the long form"
          .value=${this.typed}
          @input=${(event: Event) => (this.typed = (event.target as HTMLInputElement).value)}
        />
      </label>
      <button type="submit">Choose the device</button>
    </form>`;
  }

  readonly #serviceGiven = (event: Event) => {
    event.preventDefault();
    void this.#choose('web-bluetooth', this.typed);
  };

  readonly #wanted = async (event: HTMLElementEventMap['source-wanted']) => {
    const { id } = event.detail;
    this.problem = null;
    if (id === LAST) return this.#again();
    if (!isLiveId(id as LiveId)) return;
    this.typed = '';
    this.asking = id as LiveId;
    if (id === 'web-socket') {
      await this.updateComplete;
      return this.renderRoot.querySelector('input')?.focus();
    }
    await this.#choose(id as LiveId, null);
  };

  readonly #addressGiven = (event: Event) => {
    event.preventDefault();
    void this.#choose('web-socket', this.typed);
  };

  /** The device of last time, without the chooser where the browser still grants it. */
  async #again(): Promise<void> {
    const { lastUsed } = this;
    if (!lastUsed || !isLiveId(lastUsed.adapter)) return;
    const pending = await this.services.live.recall(lastUsed);
    if (pending) return this.#say(pending);
    await this.#choose(lastUsed.adapter, lastUsed.adapter === 'web-socket' ? lastUsed.key : null);
  }

  async #choose(id: LiveId, typed: string | null): Promise<void> {
    const chosen = await this.services.live.choose(id, typed);
    if (chosen.ok) return this.#say(chosen.value);
    // Nobody chose anything: that is no trouble to show.
    this.problem = chosen.problem.code === 'link.refused' ? null : chosen.problem;
  }

  #say(detail: LivePending): void {
    this.dispatchEvent(new CustomEvent('source-chosen', { detail, bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'connect-panel': ConnectPanel;
  }
  interface HTMLElementEventMap {
    'source-chosen': CustomEvent<LivePending>;
  }
}
