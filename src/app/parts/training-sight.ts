import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { StoredRun } from '../../jobs/run.ts';
import { baseStyles } from '../../ui/base-styles.ts';
import '../../ui/shape-icon.ts';
import type { Services } from '../services.ts';
import { sightFor } from '../training-desk.ts';

/** `training-sight`: what is to be seen at one point of an inspection on a practice engine. Nothing on other engines. */
@customElement('training-sight')
export class TrainingSight extends LitElement {
  static override styles = [
    baseStyles,
    css`
      p {
        padding: var(--m-space-2) var(--m-space-3);
        border-left: var(--m-space-1) solid var(--m-mark);
        background: var(--m-sunken);
      }
    `,
  ];

  @property({ attribute: false }) services!: Services;
  @property({ attribute: false }) run!: StoredRun;
  @property() point = '';
  @state() private words = '';

  override connectedCallback(): void {
    super.connectedCallback();
    void this.#look();
  }

  async #look(): Promise<void> {
    await this.updateComplete;
    this.words = await sightFor(this.services, this.run, this.point);
  }

  override render() {
    return this.words ? html`<p><span class="label">You see:</span> ${this.words}</p>` : nothing;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'training-sight': TrainingSight;
  }
}
