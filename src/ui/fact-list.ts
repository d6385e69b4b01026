import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { baseStyles } from './base-styles.ts';
import { tableStyles } from './table-styles.ts';

/** One measured fact as it is to be shown: the number already written. */
export interface FactRow {
  readonly name: string;
  readonly value: string;
  readonly unit: string;
}

/** `m-facts`: what was measured beside the value that counts, as a small table. Nothing is drawn without facts. */
@customElement('m-facts')
export class FactList extends LitElement {
  static override styles = [
    baseStyles,
    tableStyles,
    css`
      td.unit {
        width: 1%;
        padding-left: 0;
        color: var(--m-quiet);
        text-align: left;
        white-space: nowrap;
      }
      tbody th {
        font-weight: 400;
      }
      td.number {
        font-weight: 600;
      }
    `,
  ];

  @property() heading = 'Measured besides';
  @property({ attribute: false }) facts: readonly FactRow[] = [];

  override render() {
    if (this.facts.length === 0) return nothing;
    return html`<table>
      <caption>
        ${this.heading}
      </caption>
      <tbody>
        ${this.facts.map(
          ({ name, value, unit }) =>
            html`<tr>
              <th scope="row">${name}</th>
              <td class="number">${value}</td>
              <td class="unit">${unit}</td>
            </tr>`,
        )}
      </tbody>
    </table>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-facts': FactList;
  }
}
