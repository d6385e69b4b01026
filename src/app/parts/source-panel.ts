import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { BusFacts } from '../../j1939/bus-facts.ts';
import { formRequests, REQUESTS } from '../../j1939/requests.ts';
import type { PipelineState } from '../../pipeline/pipeline.ts';
import type { RunValues } from '../../jobs/run-entries.ts';
import { describeProblem, type Problem } from '../../problems/problem.ts';
import '../../ui/ask-dialog.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import '../../ui/identity-card.ts';
import '../../ui/link-health.ts';
import '../../ui/problem-note.ts';
import '../../ui/raw-monitor.ts';
import '../../ui/search-progress.ts';
import '../../ui/trouble-codes-list.ts';
import type { BridgeAsk } from '../../wire/slcan-ask.ts';
import { controllerCodes } from '../bus-codes.ts';
import { identityProposals } from '../bus-identity.ts';
import { byteRate, healthView, type ByteRate } from '../health-view.ts';
import { monitorSource } from '../monitor-rows.ts';
import { identityCard } from '../identity-view.ts';
import { proposedIdentity } from '../proposed-identity.ts';
import { pageStyles } from '../page-styles.ts';
import type { SearchView } from '../search-view.ts';
import type { Services } from '../services.ts';
import type { SessionState } from '../session.ts';

/**
 * `source-panel`: all that is known of the open source: how it was found, how well it comes, what the frames say, who is on the bus and
 * what they report. Says `search-stopped`, `ask-wanted` and `identity-changed`.
 */
@customElement('source-panel')
export class SourcePanel extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    css`
      .pair {
        display: grid;
        gap: var(--m-space-4);
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 26rem), 1fr));
        align-items: start;
      }
    `,
  ];

  @property({ attribute: false }) services!: Services;
  @property({ attribute: false }) session!: SessionState;
  @property({ attribute: false }) nowMs = 0;
  @property({ attribute: false }) wallMs = 0;
  @property({ attribute: false }) search: SearchView | null = null;
  /** What holds in the run; null where there is none. */
  @property({ attribute: false }) values: Pick<RunValues, 'identity' | 'heardIdentity'> | null = null;
  @property({ attribute: false }) speedOrigin: number | undefined = undefined;
  @state() private asking = false;
  @state() private answer: Problem | 'sent' | null = null;
  @state() private monitorOpen = false;
  #bytes: ByteRate | null = null;
  readonly #rows = monitorSource(() => this.session.pipeline);

  override render() {
    const { pipeline } = this.session;
    const facts = pipeline?.bus.facts ?? null;
    return html`<div class="stack">
      ${this.#searching()}
      ${pipeline ? html`<m-link-health .health=${this.#healthView(pipeline)}></m-link-health>` : nothing}
      <div class="pair">
        <m-identity ?fixed=${this.values === null} .entries=${this.#identityEntries(facts)}></m-identity>
        <m-trouble-codes .controllers=${facts ? controllerCodes(facts) : []}></m-trouble-codes>
      </div>
      ${this.#asking()} ${pipeline ? this.#monitor(pipeline) : nothing}
    </div>`;
  }

  #identityEntries(facts: BusFacts | null) {
    const proposals = facts ? identityProposals(facts) : [];
    return identityCard(this.values ?? proposedIdentity(proposals), proposals, facts);
  }

  #searching() {
    const { search } = this;
    if (!search) return nothing;
    if (search.outcome?.tone === 'found')
      return html`<p class="quiet" role="status">Found: ${search.outcome.facts.join(' · ')}.</p>`;
    return html`<m-search-progress
      .steps=${search.steps}
      .outcome=${search.outcome}
      .elapsedSeconds=${Math.max(0, (this.wallMs - search.sinceMs) / 1000)}
    ></m-search-progress>`;
  }

  #healthView(pipeline: PipelineState) {
    this.#bytes = byteRate(this.#bytes, this.session.link.bytes, this.wallMs);
    return healthView(pipeline, {
      nowMs: this.nowMs,
      bitRate: this.search?.found?.bitRate ?? null,
      bytesPerSecond: this.#bytes.perSecond,
      units: this.services.settings.value,
      speedOrigin: this.speedOrigin,
    });
  }

  /** Asking is the one thing that transmits: it takes the person's leave each time. */
  #asking() {
    const canAsk = this.session.link.kind === 'live' && this.search?.found?.protocol === 'slcan';
    return html`<div class="row">
        <button aria-disabled=${!canAsk} @click=${() => (this.asking = canAsk)}>Ask the controllers …</button>
        ${this.#answerNote(canAsk)}
      </div>
      <m-ask
        ?open=${this.asking}
        .requests=${ASK_REQUESTS}
        device-name=${this.session.link.device ?? 'The bridge'}
        @ask-allowed=${this.#allowed}
        @ask-cancelled=${() => (this.asking = false)}
      ></m-ask>`;
  }

  #answerNote(canAsk: boolean) {
    if (!canAsk) return html`<span class="quiet">Possible while an SLCAN bridge is heard.</span>`;
    if (this.answer === 'sent')
      return html`<span class="quiet" role="status"
        >Asked. What comes back is shown above; the bridge listens only again.</span
      >`;
    return this.answer
      ? html`<m-problem tone="warn" .problem=${describeProblem(this.answer)}></m-problem>`
      : html`<span class="quiet"
          >For what is sent only on request. Nothing is sent before you allow it.</span
        >`;
  }

  readonly #allowed = (event: HTMLElementEventMap['ask-allowed']) => {
    this.asking = false;
    this.answer = null;
    const pgns = REQUESTS.filter(({ id }) => event.detail.ids.includes(id)).map(({ pgn }) => pgn);
    const detail: BridgeAsk = {
      frames: formRequests(pgns),
      done: (result) => (this.answer = result.ok ? 'sent' : result.problem),
    };
    this.dispatchEvent(new CustomEvent('ask-wanted', { detail, bubbles: true, composed: true }));
  };

  #monitor(pipeline: PipelineState) {
    const unintelligible = pipeline.wire !== null && pipeline.wire.protocol === null;
    return html`<details class="card" ?open=${this.monitorOpen} @toggle=${this.#toggled}>
      <summary>Raw monitor</summary>
      ${
        this.monitorOpen
          ? html`<m-raw-monitor
              mode=${unintelligible ? 'bytes' : 'frames'}
              .source=${this.#rows}
              @copy-wanted=${this.#copy}
            ></m-raw-monitor>`
          : nothing
      }
    </details>`;
  }

  readonly #toggled = (event: Event) => {
    this.monitorOpen = (event.target as HTMLDetailsElement).open;
  };

  readonly #copy = (event: HTMLElementEventMap['copy-wanted']) => {
    void this.services.capabilities.copy(event.detail.text);
  };
}

const ASK_REQUESTS = REQUESTS.map(({ id, label, purpose, pgn }) => ({
  id,
  title: label,
  why: purpose,
  sent: `request for PGN ${pgn}`,
}));

declare global {
  interface HTMLElementTagNameMap {
    'source-panel': SourcePanel;
  }
  interface HTMLElementEventMap {
    'ask-wanted': CustomEvent<BridgeAsk>;
  }
}
