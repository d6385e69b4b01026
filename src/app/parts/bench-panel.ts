import { css, html, LitElement } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { BenchCommand } from '../../../simulators/bench-command.ts';
import type { BenchView } from '../../../simulators/bench.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import { Bound } from '../../ui/bound.ts';
import type { BenchDesk, BenchSpeed } from '../bench-desk.ts';
import { pageStyles } from '../page-styles.ts';

const SPEEDS: readonly BenchSpeed[] = [1, 2, 4, 8];

/** `bench-panel`: the simulated key switch, and how fast the bench's clock runs. Event: `bench-speed`. */
@customElement('bench-panel')
export class BenchPanel extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    css`
      .bench {
        display: grid;
        gap: var(--m-space-3);
        padding: var(--m-space-3);
        border: var(--m-stroke-2) dashed var(--m-mark);
        border-radius: var(--m-radius-1);
      }
      .key {
        min-height: 4.5rem;
        width: 100%;
        font-size: var(--m-text-l);
      }
      button.key[aria-pressed='true'],
      button.key[aria-pressed='true']:hover {
        border-color: var(--m-cranking);
        background: var(--m-cranking-soft);
        color: var(--m-ink);
      }
      kbd {
        padding: 0 var(--m-space-2);
        border: var(--m-stroke-1) solid currentColor;
        border-radius: var(--m-radius-1);
        font: inherit;
        font-size: var(--m-text-s);
      }
      fieldset {
        display: flex;
        gap: var(--m-space-2);
        align-items: center;
        margin: 0;
        padding: 0;
        border: 0;
      }
      fieldset button[aria-pressed='true'] {
        border-color: var(--m-accent);
        background: var(--m-cranking-soft);
      }
    `,
  ];

  @property({ attribute: false }) bench!: BenchDesk;
  @property({ attribute: false }) speed: BenchSpeed = 1;
  /** How long the second button cranks, s: what is left of this crank. */
  @property({ attribute: false }) crankSeconds = 15;
  /** How the bench has to stand first; null where the engine stands as it should. */
  @property({ attribute: false }) setUp: readonly BenchCommand[] | null = null;
  readonly #view = new Bound<BenchView | null>(this, () => this.bench.view$, null);

  override updated(changed: Map<PropertyKey, unknown>): void {
    if (changed.has('bench') && this.setUp) this.bench.command(...this.setUp);
  }

  override render() {
    const turning = this.bench.cranking;
    const running = this.#view.value?.engineRunning === true;
    return html`<section class="bench" aria-label="Simulated key switch">
      <p class="label">Simulated key switch: on a real engine this is your hand, Meniscus never turns one.</p>
      <button class="key primary" aria-pressed=${turning} @click=${this.#turn}>
        ${turning ? 'Release the starter' : 'Turn the starter'} <kbd>K</kbd>
      </button>
      <button ?disabled=${turning} @click=${this.#crankForMe}>
        Crank ${this.crankSeconds.toFixed(0)} s for me
      </button>
      ${running ? html`<p role="status"><strong>The engine runs.</strong> Release the starter.</p>` : ''}
      <fieldset aria-label="Speed of the bench's clock">
        <span class="label">Clock</span>
        ${SPEEDS.map(
          (speed) =>
            html`<button aria-pressed=${speed === this.speed} @click=${() => this.#setSpeed(speed)}>
              ${speed}×
            </button>`,
        )}
      </fieldset>
    </section>`;
  }

  readonly #turn = () => {
    this.bench.turnStarter(!this.bench.cranking);
    this.requestUpdate();
  };

  readonly #crankForMe = () => {
    this.bench.crankFor(this.crankSeconds * 1000);
    this.requestUpdate();
  };

  #setSpeed(speed: BenchSpeed): void {
    this.dispatchEvent(new CustomEvent('bench-speed', { detail: speed, bubbles: true, composed: true }));
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-panel': BenchPanel;
  }
  interface HTMLElementEventMap {
    'bench-speed': CustomEvent<BenchSpeed>;
  }
}
