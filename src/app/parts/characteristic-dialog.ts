import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { CharacteristicOption } from '../../../adapters/bluetooth-discovery.ts';
import type { CharacteristicPick } from '../../../adapters/bluetooth-profiles.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import { Bound } from '../../ui/bound.ts';
import '../../ui/characteristic-picker.ts';
import type { CharacteristicsPicked, ServiceView } from '../../ui/characteristic-picker.ts';
import type { PickDesk, Picking } from '../picking.ts';

type Asked = Picking<CharacteristicOption, CharacteristicPick>;

/** `characteristic-dialog`: asks which characteristics of a Bluetooth device carry the bytes, while its adapter waits. */
@customElement('characteristic-dialog')
export class CharacteristicDialog extends LitElement {
  static override styles = [
    baseStyles,
    buttonStyles,
    css`
      dialog {
        width: min(44rem, calc(100vw - 2 * var(--m-space-4)));
        max-height: calc(100vh - 2 * var(--m-space-4));
        padding: var(--m-space-4);
        border: var(--m-stroke-2) solid var(--m-mark);
        border-radius: var(--m-radius-2);
        background: var(--m-surface);
        color: var(--m-ink);
        overflow: auto;
      }
    `,
  ];

  @property({ attribute: false }) picks!: PickDesk<CharacteristicOption, CharacteristicPick>;
  readonly #asked = new Bound<Asked | null>(this, () => this.picks.asked$, null);

  override updated(changed: PropertyValues<this>): void {
    super.updated(changed);
    const dialog = this.renderRoot.querySelector('dialog');
    if (dialog && !dialog.open) dialog.showModal();
  }

  override render() {
    const asked = this.#asked.value;
    if (!asked) return nothing;
    return html`<dialog aria-label="Choose the characteristics" @cancel=${() => asked.answer(null)}>
      <m-characteristic-picker
        .services=${servicesOf(asked.options)}
        @characteristics-picked=${(event: HTMLElementEventMap['characteristics-picked']) => asked.answer(pickOf(event.detail))}
      ></m-characteristic-picker>
      <button @click=${() => asked.answer(null)}>Cancel</button>
    </dialog>`;
  }
}

/** The characteristics by their service, in the order in which the device gave them. */
function servicesOf(options: readonly CharacteristicOption[]): readonly ServiceView[] {
  return [...new Set(options.map(({ service }) => service))].map((uuid) => ({
    uuid,
    name: '',
    characteristics: options
      .filter(({ service }) => service === uuid)
      .map(({ characteristic, notifies, writes }) => ({
        uuid: characteristic,
        name: '',
        notifies,
        writable: writes,
      })),
  }));
}

const pickOf = ({ service, notify, write }: CharacteristicsPicked): CharacteristicPick => ({
  notify: { service, characteristic: notify },
  write: write === null ? null : { service, characteristic: write },
});

declare global {
  interface HTMLElementTagNameMap {
    'characteristic-dialog': CharacteristicDialog;
  }
}
