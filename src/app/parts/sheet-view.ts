import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Limit, LimitSheet, SpeedChart, Window } from '../../limits/limit-sheet.ts';
import { LIMIT_UNIT, printedSymbol, shownBothWays } from '../../limits/printed-unit.ts';
import { rangeText } from '../../limits/serial-range.ts';
import { baseStyles } from '../../ui/base-styles.ts';
import '../../ui/limit-chart.ts';
import { tableStyles } from '../../ui/table-styles.ts';
import { drawnBoundaries } from '../chart-drawing.ts';
import { pageStyles } from '../page-styles.ts';

const CURVES = [
  ['failBelow', 'Fail below'],
  ['passAbove', 'Pass above'],
  ['failAbove', 'Fail above'],
] as const;

/** `sheet-view`: one revision of a limit sheet to be looked at: for which engines, from where, and every number as printed and as kept. */
@customElement('sheet-view')
export class SheetView extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    tableStyles,
    css`
      dl {
        display: grid;
        grid-template-columns: max-content minmax(0, 1fr);
        gap: var(--m-space-1) var(--m-space-4);
      }
      dt {
        color: var(--m-quiet);
      }
      dd {
        overflow-wrap: anywhere;
      }
      .limit {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: var(--m-space-3);
        padding-top: var(--m-space-3);
        border-top: var(--m-stroke-1) solid var(--m-line);
      }
      .line {
        grid-template-columns: minmax(0, 22rem) minmax(0, 1fr);
        align-items: baseline;
      }
      .line > p:nth-of-type(n + 2) {
        grid-column: 1 / -1;
      }
      h3 {
        font-size: var(--m-text-m);
      }
      h3,
      .limit p {
        margin: 0;
      }
      @media (max-width: 40rem) {
        .line {
          grid-template-columns: minmax(0, 1fr);
          gap: var(--m-space-1);
        }
      }
      .points {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(16rem, 100%), 1fr));
        gap: var(--m-space-4);
      }
    `,
  ];

  @property({ attribute: false }) sheet!: LimitSheet;

  override render() {
    const { sheet } = this;
    return html`<section class="card" aria-label=${sheet.title}>
      <h2>${sheet.title}</h2>
      ${
        sheet.invented
          ? html`<p><strong>Invented numbers, for practice only. They belong to no real engine.</strong></p>`
          : nothing
      }
      <dl>
        <dt>Engine family</dt>
        <dd>${sheet.engineFamily}</dd>
        <dt>Serial numbers</dt>
        <dd class="number">${sheet.serialRanges.map(rangeText).join('; ') || 'none'}</dd>
        <dt>Revision</dt>
        <dd>${sheet.revision}, valid from ${sheet.validFrom}</dd>
        <dt>Read from</dt>
        <dd>${sheet.readFrom}</dd>
        <dt>Confirmed</dt>
        <dd>
          ${
            sheet.confirmedOn
              ? `${sheet.confirmedOn} by ${sheet.confirmedBy}`
              : `never${sheet.confirmedBy ? `; read by ${sheet.confirmedBy}` : ''}`
          }
        </dd>
      </dl>
      ${sheet.limits.map(limit)}
    </section>`;
  }
}

const limit = (each: Limit) =>
  html`<div class="limit ${each.kind === 'window' ? 'line' : ''}">
    <h3>${each.title}</h3>
    ${each.kind === 'speed chart' ? chart(each) : html`<p class="number">${windowWords(each)}</p>`}
    ${each.operatingPoint ? html`<p>Holds: ${each.operatingPoint}</p>` : nothing}
  </div>`;

/** A window in one line: "at least 40 psi = 275.79 kPa, collected over 60 s". */
function windowWords(each: Window): string {
  const unit = each.printedUnit ?? LIMIT_UNIT[each.quantity];
  const end = (word: string, kept: number | null, printed: string | null | undefined) => {
    if (kept === null) return [];
    const plain = `${Number(kept.toPrecision(6))} ${LIMIT_UNIT[each.quantity]}`;
    return [`${word} ${printed ? shownBothWays(printed, kept, unit) : plain}`];
  };
  const ends = [
    ...end('at least', each.min, each.printedNumbers?.min),
    ...end('at most', each.max, each.printedNumbers?.max),
  ].join(', ');
  return each.durationSeconds === null ? ends : `${ends}, collected over ${each.durationSeconds} s`;
}

function chart(each: SpeedChart) {
  const { cranks, crankSeconds, speedAverage, tracing } = each;
  const average = speedAverage === 'samples' ? 'average of the samples' : 'average over time';
  return html`<m-limit-chart
      caption=${`${cranks} cranks of ${crankSeconds} s, ${average}`}
      .boundaries=${drawnBoundaries(each)}
    ></m-limit-chart>
    ${
      tracing
        ? html`<p>Traced off a picture: standard uncertainty ${tracing.uVolumeMl} mL. ${tracing.note}</p>`
        : nothing
    }
    <details>
      <summary>The points</summary>
      <div class="points">${CURVES.map(([name, word]) => points(each, name, word))}</div>
    </details>`;
}

/** The points of one boundary, as they were printed where that is another unit than mL. */
function points(each: SpeedChart, name: (typeof CURVES)[number][0], word: string) {
  const kept = each[name];
  if (!kept) return nothing;
  const printed = each.printedNumbers?.[name];
  const unit = each.printedUnit;
  const both = printed && unit && unit !== 'mL' ? { printed, unit } : null;
  return html`<table>
    <caption>
      ${word}
    </caption>
    <thead>
      <tr>
        <th scope="col">rpm</th>
        ${both ? html`<th scope="col">${printedSymbol(both.unit)}, as printed</th>` : nothing}
        <th scope="col">mL</th>
      </tr>
    </thead>
    <tbody>
      ${kept.map(
        ([speed, volume], index) =>
          html`<tr>
            <td class="number">${speed}</td>
            ${both ? html`<td class="number">${both.printed[index]?.[1] ?? ''}</td>` : nothing}
            <td class="number">${Number(volume.toFixed(2))}</td>
          </tr>`,
      )}
    </tbody>
  </table>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'sheet-view': SheetView;
  }
}
