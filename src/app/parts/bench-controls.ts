import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { BenchView } from '../../../simulators/bench.ts';
import { VESSEL_LINES } from '../../../simulators/engine/rig.ts';
import type { ProcedureCheck } from '../../procedures/procedure.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import { Bound } from '../../ui/bound.ts';
import type { BenchDesk, BenchSpeed } from '../bench-desk.ts';
import { benchSetUp, setUpCommands } from '../bench-set-up.ts';
import { pageStyles } from '../page-styles.ts';
import { routeHash } from '../routes.ts';

const SPEEDS: readonly BenchSpeed[] = [1, 2, 4, 8];
const PEDALS = ['idle', 'high idle', 'load'] as const;

/** `bench-controls`: the hands of the technician at the simulated engine: key, pedal, lines and valves, and its clock. Event: `bench-speed`. */
@customElement('bench-controls')
export class BenchControls extends LitElement {
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
      fieldset {
        display: flex;
        flex-wrap: wrap;
        gap: var(--m-space-2);
        align-items: center;
        margin: 0;
        padding: 0;
        border: 0;
      }
      legend {
        padding: 0;
      }
      .how {
        display: inline-flex;
        align-items: center;
        min-height: var(--m-target);
      }
      button[aria-pressed='true'] {
        border-color: var(--m-cranking);
        background: var(--m-cranking-soft);
        color: var(--m-ink);
      }
      dl {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(8rem, 1fr));
        gap: var(--m-space-2);
      }
    `,
  ];

  @property({ attribute: false }) bench!: BenchDesk;
  @property({ attribute: false }) speed: BenchSpeed = 1;
  @property({ attribute: false }) guide!: ProcedureCheck;
  readonly #view = new Bound<BenchView | null>(this, () => this.bench.view$, null);

  override updated(changed: Map<PropertyKey, unknown>): void {
    if (changed.has('bench')) this.bench.command(...setUpCommands(benchSetUp(this.guide.id)));
  }

  override render() {
    const view = this.#view.value;
    return html`<section class="bench" aria-label="Simulated engine">
      <p class="label">
        Simulated engine: on a real one these are your hands, Meniscus never does any of it.
      </p>
      <p role="status">${benchSetUp(this.guide.id).words}</p>
      ${view ? html`${this.#key(view)} ${this.#pedal(view)} ${this.#gauges(view)} ${this.#fitted(view)}` : nothing}
      ${choice({ label: 'Clock', all: SPEEDS, chosen: this.speed, words: (speed) => `${speed}×` }, (speed) =>
        this.#setSpeed(speed),
      )}
      <p><a class="how" href=${routeHash({ page: 'model' })}>How the bench works</a></p>
    </section>`;
  }

  #key(view: BenchView) {
    return html`<fieldset>
      <legend class="label">Key</legend>
      <button aria-pressed=${!view.keyOn} @click=${() => this.bench.turnKey(false)}>Off</button>
      <button aria-pressed=${view.keyOn && !view.starterOn} @click=${() => this.bench.turnKey(true)}>
        On
      </button>
      <button aria-pressed=${view.starterOn} @click=${() => this.bench.turnStarter(!this.bench.cranking)}>
        ${view.starterOn ? 'Release the starter' : 'Turn the starter'}
      </button>
      <span role="status"
        >${view.engineRunning ? 'The engine runs.' : 'The engine stands or is cranked.'}</span
      >
    </fieldset>`;
  }

  #pedal(view: BenchView) {
    return html`${choice({ label: 'Pedal', all: PEDALS, chosen: view.pedal }, (at) =>
        this.bench.command({ kind: 'pedal', at }),
      )}
      <fieldset>
        <button
          aria-pressed=${view.raiseRail}
          @click=${() => this.bench.command({ kind: 'raise rail', on: !view.raiseRail })}
        >
          Raise the rail pressure
        </button>
      </fieldset>`;
  }

  #gauges({ gauges }: BenchView) {
    return html`<dl aria-label="Gauges of the technician">
      <div>
        <dt class="label">Supply gauge</dt>
        <dd class="number">${gauges.supplyKPa} kPa</dd>
      </div>
      <div>
        <dt class="label">Suction gauge</dt>
        <dd class="number">${gauges.suctionKPa} kPa below the air</dd>
      </div>
    </dl>`;
  }

  #fitted({ rig }: BenchView) {
    const { bench } = this;
    return html`<details>
      <summary>Lines and valves</summary>
      <fieldset>
        <button
          aria-pressed=${rig.portsBlocked}
          @click=${() => bench.command({ kind: 'rail ports', blocked: !rig.portsBlocked })}
        >
          Rail ports blocked
        </button>
        <button
          aria-pressed=${rig.injectionBlocked}
          @click=${() => bench.command({ kind: 'injection', blocked: !rig.injectionBlocked })}
        >
          Injection blocked
        </button>
        <button
          aria-pressed=${rig.testValve}
          @click=${() => bench.command({ kind: 'test valve', fitted: !rig.testValve })}
        >
          Calibrated relief valve fitted
        </button>
      </fieldset>
      ${choice(
        {
          label: 'Into the vessel',
          all: [null, ...VESSEL_LINES],
          chosen: rig.intoVessel,
          words: (into) => into ?? 'nothing',
        },
        (into) => bench.command({ kind: 'line', into }),
      )}
      <button @click=${() => bench.command({ kind: 'empty vessel' })}>Empty the vessel</button>
      <button @click=${() => bench.command({ kind: 'prime' })}>Prime</button>
    </details>`;
  }

  #setSpeed(speed: BenchSpeed): void {
    this.dispatchEvent(new CustomEvent('bench-speed', { detail: speed, bubbles: true, composed: true }));
  }
}

interface Choice<T> {
  readonly label: string;
  readonly all: readonly T[];
  readonly chosen: T;
  readonly words?: (each: T) => string;
}

function choice<T>({ label, all, chosen, words = String }: Choice<T>, take: (each: T) => void) {
  return html`<fieldset>
    <legend class="label">${label}</legend>
    ${all.map(
      (each) =>
        html`<button aria-pressed=${each === chosen} @click=${() => take(each)}>${words(each)}</button>`,
    )}
  </fieldset>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'bench-controls': BenchControls;
  }
}
