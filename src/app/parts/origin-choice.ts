import { html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { baseStyles } from '../../ui/base-styles.ts';
import { pageStyles } from '../page-styles.ts';
import { entryWanted } from './entry-wanted.ts';

/** `origin-choice`: which address engine speed is taken from; shown only where several send it. Event: `entry-wanted`. */
@customElement('origin-choice')
export class OriginChoice extends LitElement {
  static override styles = [baseStyles, pageStyles];

  @property({ attribute: false }) origins: readonly number[] = [];
  @property({ attribute: false }) chosen: number | null = null;

  override render() {
    if (this.origins.length < 2) return nothing;
    return html`<label class="field"
      >Several addresses send engine speed; it is taken from
      <select @change=${this.#choose}>
        ${this.origins.map(
          (origin) =>
            html`<option value=${origin} .selected=${origin === this.chosen}>${originName(origin)}</option>`,
        )}
      </select>
    </label>`;
  }

  readonly #choose = (event: Event) => {
    const origin = Number((event.target as HTMLSelectElement).value);
    if (origin !== this.chosen)
      this.dispatchEvent(entryWanted({ kind: 'origin-chosen', signal: 'engineSpeed', origin, reason: '' }));
  };
}

/** An origin is channel * 256 + source address. */
export function originName(origin: number): string {
  const address = (origin & 0xff).toString(16).toUpperCase().padStart(2, '0');
  const channel = origin >> 8;
  return `address ${address}${channel > 0 ? `, channel ${channel}` : ''}${address === '00' ? ' (engine)' : ''}`;
}

declare global {
  interface HTMLElementTagNameMap {
    'origin-choice': OriginChoice;
  }
}
