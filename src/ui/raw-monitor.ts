import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { ProblemText } from '../problems/problem.ts';
import { formatNumber } from '../quantities/format.ts';
import { baseStyles, buttonStyles } from './base-styles.ts';
import './problem-note.ts';
import {
  frozen,
  listOf,
  movedRange,
  NO_MATCHES,
  stepMatches,
  type Matches,
  type MonitorList,
  type RowRange,
} from './raw-monitor-list.ts';
import { columnHeads, monitorRow } from './raw-monitor-cells.ts';
import { monitorFilter, monitorLine, type MonitorSource, type RowTest } from './raw-monitor-row.ts';
import { monitorStyles } from './raw-monitor-styles.ts';
import './shape-icon.ts';

export interface CopyWanted {
  readonly text: string;
  readonly lines: number;
}
export interface MonitorPaused {
  readonly paused: boolean;
}

/** Drawn at most so often: an eye reads no faster, and the page has other work. */
const BETWEEN_DRAWINGS_MS = 100;
/** Rows looked through for a filter between two drawings. */
const SCAN_BUDGET = 4000;
const NO_ROWS: MonitorSource = {
  count: () => 0,
  row: () => ({ kind: 'bytes', time: '', hex: '', text: '' }),
};

/**
 * `m-raw-monitor`: what is received, as received, decoded beside. Only the visible rows are drawn, at most ten times a second.
 * While it runs it follows the end; the space key, a choice of rows or scrolling back pauses it, and a paused screen stands still.
 * Says `copy-wanted` with the chosen rows, else the visible ones; and `monitor-paused`. Never announced: it would not stop.
 */
@customElement('m-raw-monitor')
export class RawMonitor extends LitElement {
  static override styles = [baseStyles, buttonStyles, monitorStyles];

  @property({ attribute: false }) source: MonitorSource | null = null;
  /** `bytes`: nothing in the stream is intelligible, so its bytes are shown. */
  @property() mode: 'frames' | 'bytes' = 'frames';
  /** What to do about an unintelligible stream. */
  @property({ attribute: false }) advice: ProblemText | null = null;
  @property({ type: Boolean, reflect: true }) paused = false;
  @state() private _filter = '';
  @state() private _range: RowRange | null = null;
  @query('.scroll') private _scroll!: HTMLElement;
  @query('.space') private _space!: HTMLElement;
  @query('.rows') private _rows!: HTMLElement;

  #held: MonitorSource | null = null;
  #fits: RowTest | null = null;
  #matches: Matches = NO_MATCHES;
  #top = 0;
  #frame = 0;
  #drawnTop = { position: 0, number: 0 };
  #lookedAtMs = -Infinity;
  #drawnCount = 0;
  #scrolledTo = 0;
  #rowPx = 28;
  #viewPx = 0;
  /** Where a paused list has to be put back, its rows having got another height. */
  #moveTo: number | null = null;

  override connectedCallback() {
    super.connectedCallback();
    this.#frame = requestAnimationFrame(this.#tick);
  }

  override disconnectedCallback() {
    cancelAnimationFrame(this.#frame);
    super.disconnectedCallback();
  }

  readonly #tick = (nowMs: number) => {
    this.#frame = requestAnimationFrame(this.#tick);
    if (nowMs - this.#lookedAtMs < BETWEEN_DRAWINGS_MS) return;
    this.#lookedAtMs = nowMs;
    if (!this.#isOutdated()) return;
    if (!this.paused) this.#scrolled(); // its event may come after this drawing, which would follow the end again
    this.requestUpdate();
  };

  #isOutdated(): boolean {
    const behind = this.#fits !== null && this.#matches.scanned < this.#from().count();
    const count = this.source?.count() ?? 0;
    const isResized = this._scroll.clientHeight !== this.#viewPx || this.#rowHeightPx() !== this.#rowPx;
    return behind || isResized || count !== this.#drawnCount;
  }

  #from(): MonitorSource {
    return this.#held ?? this.source ?? NO_ROWS;
  }

  #list(): MonitorList {
    return listOf(this.#from(), this.#fits ? this.#matches : null);
  }

  /** The height of a row follows the width of the screen, and the person's own text size. */
  #rowHeightPx(): number {
    return parseFloat(getComputedStyle(this._rows).lineHeight) || this.#rowPx;
  }

  #measure() {
    const rowPx = this.#rowHeightPx();
    this.#viewPx = this._scroll.clientHeight;
    if (rowPx === this.#rowPx) return;
    this.#rowPx = rowPx;
    if (this.paused) this.#moveTo = this.#top;
  }

  protected override willUpdate(changed: PropertyValues<this>) {
    if (changed.has('source')) this.#startAfresh();
    if (changed.has('paused')) {
      this.#held = this.paused && this.source ? frozen(this.source) : null;
      if (!this.paused) this._range = null;
    }
    if (this.hasUpdated) this.#measure();
    if (this.#fits) this.#matches = stepMatches(this.#matches, this.#from(), this.#fits, SCAN_BUDGET);
    const { length } = this.#list();
    if (!this.paused) this.#top = Math.max(0, length - this.#page());
    else if (changed.has('paused')) this.#keepPlace();
  }

  /** Rows that came and went since the last drawing must not put others under the pointer when the list stops. */
  #keepPlace() {
    const moved = this.#list().positionOf(this.#drawnTop.number) - this.#drawnTop.position;
    if (moved === 0) return;
    this.#top = Math.max(0, this.#top + moved);
    this.#moveTo = this.#top;
    if (!this._range) return;
    const { anchor, cursor } = this._range;
    this._range = { anchor: Math.max(0, anchor + moved), cursor: Math.max(0, cursor + moved) };
  }

  #startAfresh() {
    this.#matches = NO_MATCHES;
    this.#held = this.paused && this.source ? frozen(this.source) : null;
    this._range = null;
  }

  #page(): number {
    return Math.max(1, Math.floor(this.#viewPx / this.#rowPx));
  }

  /** One row above the first whole one, which the end of the list leaves half visible. */
  #drawnFrom(): number {
    return Math.max(0, this.#top - 1);
  }

  protected override updated() {
    const list = this.#list();
    const { length } = list;
    if (!this.paused) this.#drawnTop = { position: this.#top, number: list.numberAt(this.#top) };
    this._space.style.setProperty('height', `${length * this.#rowPx}px`);
    this._rows.style.setProperty('transform', `translateY(${this.#drawnFrom() * this.#rowPx}px)`);
    if (!this.paused) this._scroll.scrollTop = length * this.#rowPx;
    else if (this.#moveTo !== null) this._scroll.scrollTop = this.#moveTo * this.#rowPx;
    this.#moveTo = null;
    this.#scrolledTo = this._scroll.scrollTop;
    this.#drawnCount = this.source?.count() ?? 0;
  }

  readonly #scrolled = () => {
    const { scrollTop, scrollHeight, clientHeight } = this._scroll;
    // A taller or shorter screen also moves the list, but leaves it at its end.
    const atEnd = scrollTop + clientHeight > scrollHeight - this.#rowPx;
    if (!this.paused && (atEnd || scrollTop > this.#scrolledTo - this.#rowPx)) return;
    this.#setPaused(true);
    this.#top = Math.floor(scrollTop / this.#rowPx);
    this.requestUpdate();
  };

  #setPaused(paused: boolean) {
    if (this.paused === paused) return;
    this.paused = paused;
    const detail: MonitorPaused = { paused };
    this.dispatchEvent(new CustomEvent('monitor-paused', { detail, bubbles: true, composed: true }));
  }

  #setFilter(text: string) {
    this._filter = text;
    this.#fits = monitorFilter(text);
    this.#matches = NO_MATCHES;
    this._range = null;
    if (this.paused) this.#scrollTo(0);
  }

  readonly #keyed = (event: KeyboardEvent) => {
    const { key } = event;
    if (key === ' ') this.#setPaused(!this.paused);
    else if ((event.ctrlKey || event.metaKey) && key.toLowerCase() === 'c') this.#copy();
    else if (!this.#moved(key, event.shiftKey)) return;
    event.preventDefault();
  };

  #moved(key: string, extend: boolean): boolean {
    const { length } = this.#list();
    const page = this.#page();
    const start = Math.min(length, this.#top + page) - 1;
    const range = movedRange(key, this._range, extend, { start, page, length });
    if (!range) return false;
    this.#setPaused(true);
    this._range = range;
    if (range.cursor < this.#top) this.#scrollTo(range.cursor);
    else if (range.cursor >= this.#top + page) this.#scrollTo(range.cursor - page + 1);
    return true;
  }

  #scrollTo(position: number) {
    this.#top = position;
    this._scroll.scrollTop = position * this.#rowPx;
  }

  readonly #clicked = (event: MouseEvent) => {
    const row = (event.target as Element).closest<HTMLElement>('[data-position]');
    if (!row) return;
    const cursor = Number(row.dataset['position']);
    const again = this._range?.anchor === cursor && this._range.cursor === cursor;
    this.#setPaused(true);
    this._range = again
      ? null
      : { anchor: event.shiftKey ? (this._range?.anchor ?? cursor) : cursor, cursor };
  };

  /** First and last position to copy: the chosen rows, else the visible ones. */
  #toCopy(): readonly [from: number, to: number] {
    const { length } = this.#list();
    const range = this._range ?? { anchor: this.#top, cursor: this.#top + this.#page() - 1 };
    const [from, to] = [Math.min(range.anchor, range.cursor), Math.max(range.anchor, range.cursor)];
    return [from, Math.min(length - 1, to)];
  }

  #copy() {
    const [from, to] = this.#toCopy();
    const list = this.#list();
    const lines: string[] = [];
    for (let at = from; at <= to; at += 1) lines.push(monitorLine(list.rowAt(at)));
    if (lines.length === 0) return;
    const detail: CopyWanted = { text: `${lines.join('\n')}\n`, lines: lines.length };
    this.dispatchEvent(new CustomEvent('copy-wanted', { detail, bubbles: true, composed: true }));
  }

  #bar() {
    const [from, to] = this.#toCopy();
    const chosen = this._range
      ? `Copy ${to - from + 1} ${to === from ? 'line' : 'lines'}`
      : 'Copy visible lines';
    return html`<div class="bar">
      <button class="pause" aria-pressed=${this.paused} @click=${() => this.#setPaused(!this.paused)}>
        <m-icon shape=${this.paused ? 'play' : 'pause'}></m-icon>${this.paused ? 'Go on' : 'Pause'}
      </button>
      <label class="filter">
        <span class="label">Show only</span>
        <input
          autocomplete="off"
          autocapitalize="off"
          spellcheck="false"
          placeholder="0CF004, 61444, from:00, speed"
          .value=${this._filter}
          @input=${(event: Event) => this.#setFilter((event.target as HTMLInputElement).value)}
        />
      </label>
      <button class="copy" @click=${() => this.#copy()}><m-icon shape="copy"></m-icon>${chosen}</button>
    </div>`;
  }

  #counts(list: MonitorList) {
    const whole = (value: number) => formatNumber(value, { decimals: 0 });
    const from = this.#from();
    const held = from.count() - (from.first?.() ?? 0);
    return html`<div class="counts number">
      <span class="mode ${this.paused ? 'paused' : 'running'}" role="status">
        <m-icon shape=${this.paused ? 'pause' : 'live'}></m-icon
        >${this.paused ? 'Paused. Recording goes on.' : 'Running'}
      </span>
      <span>${whole(this.source?.count() ?? 0)} received</span>
      ${held < from.count() ? html`<span>last ${whole(held)} held here</span>` : nothing}
      ${this.#fits ? html`<span>${whole(list.length)} fit</span>` : nothing}
    </div>`;
  }

  #window(list: MonitorList) {
    const end = Math.min(list.length, this.#top + this.#page() + 2);
    const [from, to] = this._range ? this.#toCopy() : [1, 0];
    const rows = [];
    for (let at = this.#drawnFrom(); at < end; at += 1) {
      rows.push(
        monitorRow(list.rowAt(at), {
          position: at,
          even: list.numberAt(at) % 2 === 0,
          chosen: at >= from && at <= to,
        }),
      );
    }
    return rows;
  }

  #nothing() {
    const words = this.#fits ? 'Nothing received so far fits.' : 'Nothing received yet.';
    return html`<div class="empty" role="row"><span role="cell">${words}</span></div>`;
  }

  override render() {
    const list = this.#list();
    return html`${this.#bar()}${this.#counts(list)}
      <m-problem tone="info" .problem=${this.advice} ?hidden=${!this.advice}></m-problem>
      <div class=${this.mode} role="table" aria-label="Received" aria-rowcount=${list.length + 1}>
        <div role="rowgroup">${columnHeads(this.mode)}</div>
        <div
          class="scroll"
          role="rowgroup"
          tabindex="0"
          aria-label="Rows; space pauses"
          @scroll=${this.#scrolled}
          @keydown=${this.#keyed}
          @click=${this.#clicked}
        >
          <div class="space" role="none"></div>
          <div class="rows" role="none">${this.#window(list)}</div>
          ${list.length === 0 ? this.#nothing() : nothing}
        </div>
      </div>
      <p class="hint">
        In the list: <kbd>Space</kbd> pauses, arrows with <kbd>Shift</kbd> choose rows,
        <kbd>Ctrl C</kbd> copies them.
      </p>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-raw-monitor': RawMonitor;
  }
  interface HTMLElementEventMap {
    'copy-wanted': CustomEvent<CopyWanted>;
    'monitor-paused': CustomEvent<MonitorPaused>;
  }
}
