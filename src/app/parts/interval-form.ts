import { html, LitElement, nothing } from 'lit';
import { customElement, state } from 'lit/decorators.js';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import { readNumber } from '../../ui/read-number.ts';
import { pageStyles } from '../page-styles.ts';

/** A tenth of a millisecond to a minute: outside it the number is a slip of the unit. Common practice, no source. */
const RANGE = { min: 0.1, max: 60_000, unit: 'ms' } as const;

/** `interval-form`: for a log without times, how far apart two of its speed readings are. Event: `interval-given`, in ms. */
@customElement('interval-form')
export class IntervalForm extends LitElement {
  static override styles = [baseStyles, pageStyles, buttonStyles];

  @state() private refusal = '';

  override render() {
    return html`<form class="card screen-only" @submit=${this.#submit}>
      <label class="field"
        >Milliseconds between two speed readings
        <input
          type="text"
          inputmode="decimal"
          name="interval"
          aria-invalid=${this.refusal === '' ? 'false' : 'true'}
          aria-describedby="why"
        />
      </label>
      <p class="quiet" id="why">
        ${this.refusal === '' ? 'The logger or the bus decides it, for example 20. It is kept with the run as given by you.' : nothing}
        ${this.refusal === '' ? nothing : html`<strong role="alert">${this.refusal}</strong>`}
      </p>
      <div class="row"><button class="primary">Read the log with this interval</button></div>
    </form>`;
  }

  readonly #submit = (event: Event) => {
    event.preventDefault();
    const input = (event.target as HTMLFormElement).elements.namedItem('interval') as HTMLInputElement;
    const read = readNumber(input.value, RANGE);
    this.refusal = 'refusal' in read ? read.refusal : '';
    if ('refusal' in read) return input.focus();
    this.dispatchEvent(
      new CustomEvent('interval-given', { detail: read.value, bubbles: true, composed: true }),
    );
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'interval-form': IntervalForm;
  }
  interface HTMLElementEventMap {
    'interval-given': CustomEvent<number>;
  }
}
