import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import { edgeEntries, edgeText, foundAgain, type CrankEdges } from '../edge-entries.ts';
import { pageStyles } from '../page-styles.ts';
import { entryWanted } from './entry-wanted.ts';

/** `edge-form`: start and end of one crank, to be set by hand with a reason. The found ones are kept. Event: `entry-wanted`. */
@customElement('edge-form')
export class EdgeForm extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    css`
      input[name='start'],
      input[name='end'] {
        width: 8rem;
      }
    `,
  ];

  @property({ attribute: false }) edges!: CrankEdges;
  @state() private refusal = '';

  override render() {
    const { place, firstMs, startMs, endMs } = this.edges;
    const isSet = foundAgain(this.edges).length > 0;
    return html`<details class="screen-only">
      <summary>Edges of crank ${place + 1}${isSet ? ', set by hand' : ''}</summary>
      <form class="stack" @submit=${this.#submit}>
        <div class="row">
          ${field('start', 'Start, s', edgeText(startMs, firstMs))}
          ${field('end', 'End, s', edgeText(endMs, firstMs))} ${field('reason', 'Why by hand?', '')}
        </div>
        ${this.refusal === '' ? nothing : html`<p role="alert"><strong>${this.refusal}</strong></p>`}
        <div class="row">
          <button>Set the edges</button>
          ${
            isSet
              ? html`<button type="button" class="quiet" @click=${this.#back}>
                  Back to the found edges
                </button>`
              : nothing
          }
        </div>
      </form>
    </details>`;
  }

  readonly #submit = (event: Event) => {
    event.preventDefault();
    const form = event.target as HTMLFormElement;
    const text = (name: string) => (form.elements.namedItem(name) as HTMLInputElement).value;
    const asked = edgeEntries(this.edges, { start: text('start'), end: text('end'), reason: text('reason') });
    this.refusal = 'refusal' in asked ? asked.refusal : '';
    if ('refusal' in asked) return;
    this.dispatchEvent(entryWanted(...asked.entries));
    (form.elements.namedItem('reason') as HTMLInputElement).value = '';
  };

  readonly #back = () => {
    this.refusal = '';
    this.dispatchEvent(entryWanted(...foundAgain(this.edges)));
  };
}

/** Its value is set once a change of the edge comes from outside; what is being typed stays. */
function field(name: string, label: string, value: string) {
  return html`<label class="field"
    >${label}
    <input type="text" name=${name} inputmode=${name === 'reason' ? 'text' : 'decimal'} .value=${value}
  /></label>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'edge-form': EdgeForm;
  }
}
