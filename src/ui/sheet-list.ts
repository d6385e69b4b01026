import { html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { baseStyles, buttonStyles, panelStyles } from './base-styles.ts';
import './empty-state.ts';
import { sheetListStyles } from './sheet-list-look.ts';
import { pieceWords, rangeBars, type BarPiece, type HeldRange, type RangeBar } from './sheet-range-bar.ts';
import {
  confirmationLook,
  FORCE_LOOK,
  type ConfirmationView,
  type ForceState,
  type StateLook,
} from './sheet-words.ts';
import './shape-icon.ts';

/** One revision of a sheet. */
export interface SheetRevisionView {
  readonly id: string;
  readonly title: string;
  readonly revision: string;
  /** yyyy-mm-dd */
  readonly validFrom: string;
  readonly force: ForceState;
  /** Why it is in force or not, one sentence. */
  readonly why: string;
  readonly confirmation: ConfirmationView;
  /** What it covers, e.g. "P100 to P500". */
  readonly covers: string;
  /** Titles of its limits. */
  readonly limits: readonly string[];
  /** Cannot be changed, confirmed or withdrawn here (the demonstration sheet). */
  readonly fixed: boolean;
}

/** An engine family: its revisions (any order; newest are shown first) and the serial ranges that hold today. */
export interface SheetFamilyView {
  readonly family: string;
  readonly revisions: readonly SheetRevisionView[];
  readonly ranges: readonly HeldRange[];
}

export interface SheetNamed {
  readonly id: string;
}

/** How a first sheet comes here. */
export type SheetWay = 'type' | 'paste' | 'trace';

export interface SheetWanted {
  readonly way: SheetWay;
}

const WAYS: readonly {
  readonly way: SheetWay;
  readonly title: string;
  readonly line: string;
  readonly shape: 'keyboard' | 'copy' | 'edit';
}[] = [
  {
    way: 'type',
    title: 'Type the numbers',
    line: 'From the paper, in the unit they are printed in.',
    shape: 'keyboard',
  },
  { way: 'paste', title: 'Paste columns', line: 'Speed and volume out of a spreadsheet.', shape: 'copy' },
  {
    way: 'trace',
    title: 'Trace a picture',
    line: 'A photo or a scan of the chart, followed along its lines.',
    shape: 'edit',
  },
];

type Act = 'open' | 'revise' | 'confirm' | 'export' | 'withdraw' | 'restore';

/**
 * `m-sheet-list`: the limit sheets by engine family, newest revision first: which is in force and why, how long ago it was confirmed, and
 * which serial numbers are held. Says `sheet-open`, `sheet-revise`, `sheet-confirm`, `sheet-export`, `sheet-withdraw`, `sheet-restore`,
 * `sheet-wanted`.
 */
@customElement('m-sheet-list')
export class SheetList extends LitElement {
  static override styles = [baseStyles, buttonStyles, panelStyles, sheetListStyles];

  @property({ attribute: false }) families: readonly SheetFamilyView[] = [];

  #act(act: Act, id: string) {
    const detail: SheetNamed = { id };
    this.dispatchEvent(new CustomEvent(`sheet-${act}`, { detail, bubbles: true, composed: true }));
  }

  #want(way: SheetWay) {
    const detail: SheetWanted = { way };
    this.dispatchEvent(new CustomEvent('sheet-wanted', { detail, bubbles: true, composed: true }));
  }

  #state({ shape, kind, words }: StateLook) {
    return html`<span class="state ${kind}"><m-icon shape=${shape}></m-icon><span>${words}</span></span>`;
  }

  #button(act: Act, words: string, { id, title, revision }: SheetRevisionView) {
    return html`<button
      class=${act === 'withdraw' ? 'danger' : ''}
      aria-label="${words}: ${title}, revision ${revision}"
      @click=${() => this.#act(act, id)}
    >
      ${words}
    </button>`;
  }

  #revision(sheet: SheetRevisionView) {
    const { force, confirmation, fixed } = sheet;
    // Made-up numbers hold for no engine, so nothing about them is "in force".
    const practice = confirmation.state === 'invented';
    const asks = confirmation.state === 'due' || confirmation.state === 'never';
    return html`<li class="sheet ${force === 'in force' && !practice ? 'holds' : ''}">
      <div class="name">
        <h3>${sheet.title}</h3>
        <p class="label number">Revision ${sheet.revision} · valid from ${sheet.validFrom}</p>
      </div>
      <p class="states">
        ${practice ? nothing : this.#state(FORCE_LOOK[force])}${this.#state(confirmationLook(confirmation))}
      </p>
      <p class="why">${sheet.why}</p>
      <dl>
        <dt>Serial numbers</dt>
        <dd class="number">${sheet.covers}</dd>
        <dt>Limits</dt>
        <dd>${sheet.limits.join(', ')}</dd>
      </dl>
      <div class="actions">
        ${this.#button('open', 'Open', sheet)}
        ${fixed ? nothing : this.#button('revise', 'New revision', sheet)}
        ${fixed || force === 'withdrawn' ? nothing : this.#button('confirm', asks ? 'I checked it today' : 'Confirm today', sheet)}
        ${this.#button('export', 'Export', sheet)}
        ${fixed ? nothing : force === 'withdrawn' ? this.#button('restore', 'Bring back', sheet) : this.#button('withdraw', 'Withdraw', sheet)}
      </div>
    </li>`;
  }

  #piece({ kind, from, to, sheets }: BarPiece) {
    const words = kind === 'gap' ? 'no sheet' : kind === 'overlap' ? sheets.join(' and ') : (sheets[0] ?? '');
    const ends = from === to && from !== null ? from : `${from ?? '…'} – ${to ?? '…'}`;
    return html`<li class="piece ${kind}">
      <span
        >${kind === 'held' ? nothing : html`<m-icon shape=${kind === 'gap' ? 'invalid' : 'marginal'}></m-icon>`}${words}</span
      >
      <span class="ends number">${ends}</span>
    </li>`;
  }

  #bar(bar: RangeBar) {
    const odd = bar.pieces.filter(({ kind }) => kind !== 'held');
    return html`<div class="bar">
      ${bar.prefix === '' ? nothing : html`<p class="label">Serial numbers that begin with ${bar.prefix}</p>`}
      <ol>
        ${bar.pieces.map((piece) => this.#piece(piece))}
      </ol>
      ${odd.map((piece) => html`<p class="odd ${piece.kind}"><m-icon shape=${piece.kind === 'gap' ? 'invalid' : 'marginal'}></m-icon><span>${pieceWords(piece, bar.prefix)}</span></p>`)}
    </div>`;
  }

  #family({ family, revisions, ranges }: SheetFamilyView, at: number) {
    const bars = rangeBars(ranges);
    const newest = revisions.toSorted((a, b) =>
      a.validFrom < b.validFrom ? 1 : a.validFrom > b.validFrom ? -1 : 0,
    );
    return html`<section class="panel" aria-labelledby="family-${at}">
      <h2 id="family-${at}">${family}</h2>
      ${bars.length === 0 ? nothing : html`<p class="label">Held today, by serial number (not to scale)</p>`}
      ${bars.map((bar) => this.#bar(bar))}
      <ul class="sheets">
        ${newest.map((sheet) => this.#revision(sheet))}
      </ul>
    </section>`;
  }

  #ways() {
    return html`<m-empty
      drawing="trace"
      heading="No limit sheets of your own yet"
      text="Meniscus brings no maker’s numbers. Bring your own: each sheet says for which serial numbers it holds and where its numbers were read."
    >
      <ul class="ways">
        ${WAYS.map(
          ({ way, title, line, shape }) =>
            html`<li>
              <button class="way" @click=${() => this.#want(way)}>
                <m-icon shape=${shape}></m-icon><span>${title}<small>${line}</small></span>
              </button>
            </li>`,
        )}
      </ul>
    </m-empty>`;
  }

  override render() {
    const own = this.families.some(({ revisions }) => revisions.some(({ fixed }) => !fixed));
    return html`<div class="list">
      ${own ? nothing : this.#ways()} ${this.families.map((family, at) => this.#family(family, at))}
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-sheet-list': SheetList;
  }
  interface HTMLElementEventMap {
    'sheet-open': CustomEvent<SheetNamed>;
    'sheet-revise': CustomEvent<SheetNamed>;
    'sheet-confirm': CustomEvent<SheetNamed>;
    'sheet-export': CustomEvent<SheetNamed>;
    'sheet-withdraw': CustomEvent<SheetNamed>;
    'sheet-restore': CustomEvent<SheetNamed>;
    'sheet-wanted': CustomEvent<SheetWanted>;
  }
}
