import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { baseStyles, buttonStyles, panelStyles } from './base-styles.ts';
import { fieldStyles } from './sheet-field-styles.ts';
import type { IconShape } from './shape-icon.ts';
import './shape-icon.ts';

export const SEEN_WORDS = ['in order', 'not in order', 'not looked at'] as const;
export type Seen = (typeof SEEN_WORDS)[number];

/** One thing to look at. `seen` null: nothing was said about it yet. */
export interface InspectionPoint {
  readonly id: string;
  readonly ask: string;
  readonly look: string;
  readonly seen: Seen | null;
  readonly note: string;
}

export interface Observed {
  readonly point: string;
  readonly seen: Seen;
  readonly note: string;
}
export interface PhotoAdded {
  readonly point: string;
  readonly file: File;
}

/** The slot into which the page puts what belongs to a point beside the words: its photographs. */
export const pointSlot = (point: string): string => `point-${point}`;

const SHAPES: Readonly<Record<Seen, { shape: IconShape; tone: string; key: string; word: string }>> = {
  'in order': { shape: 'pass', tone: 'pass', key: '1', word: 'In order' },
  'not in order': { shape: 'fail', tone: 'fail', key: '2', word: 'Not in order' },
  'not looked at': { shape: 'none', tone: 'none', key: '3', word: 'Not looked at' },
};

/**
 * `m-inspection`: things to look at, each in order, not in order or not looked at (keys 1, 2, 3 within a point), with a note and photographs,
 * which the page puts into the slot of their point (`pointSlot`). Events: `observed` (a choice, or a note left behind a choice), `photo-added`.
 */
@customElement('m-inspection')
export class Inspection extends LitElement {
  static override styles = [
    baseStyles,
    buttonStyles,
    panelStyles,
    fieldStyles,
    css`
      :host {
        container-type: inline-size;
      }
      ol {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: var(--m-space-4);
      }
      .progress {
        margin-bottom: var(--m-space-3);
        font-size: var(--m-text-l);
        font-weight: 700;
      }
      .point {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: var(--m-space-3);
        border-left: var(--m-space-2) solid var(--m-mark);
      }
      .point.pass {
        border-left-color: var(--m-pass);
      }
      .point.fail {
        border-left-color: var(--m-fail);
      }
      h2 {
        font-size: var(--m-text-xl);
        line-height: 1.2;
      }
      .look {
        color: var(--m-quiet);
        font-size: var(--m-text-l);
      }
      .three {
        display: grid;
        grid-template-columns: repeat(3, minmax(0, 1fr));
        gap: var(--m-space-2);
      }
      .three button {
        min-height: calc(var(--m-key) * 1.25);
        font-size: var(--m-text-l);
      }
      .three [aria-pressed='true'] {
        border-width: var(--m-space-1);
        border-color: currentColor;
      }
      .three .pass[aria-pressed='true'] {
        background: var(--m-pass-soft);
        color: var(--m-pass);
      }
      .three .fail[aria-pressed='true'] {
        background: var(--m-fail-soft);
        color: var(--m-fail);
      }
      .three .none[aria-pressed='true'] {
        background: var(--m-invalid-soft);
        color: var(--m-invalid);
      }
      kbd {
        color: inherit;
        font: 500 var(--m-text-s) / 1 var(--m-font-number);
      }
      .photos {
        display: flex;
        flex-wrap: wrap;
        gap: var(--m-space-2);
        align-items: start;
      }
      .add {
        position: relative;
        display: inline-flex;
        gap: var(--m-space-2);
        align-items: center;
        min-height: var(--m-target);
        padding: 0 var(--m-space-4);
        border: var(--m-stroke-2) dashed var(--m-mark);
        border-radius: var(--m-radius-2);
        font-weight: 600;
        cursor: pointer;
      }
      .add input.unseen {
        width: 1px;
        min-height: 0;
        height: 1px;
        padding: 0;
        border: 0;
      }
      .add:focus-within {
        outline: var(--m-stroke-3) solid var(--m-focus);
        outline-offset: var(--m-focus-gap);
      }
      @container (max-width: 34rem) {
        .three {
          grid-template-columns: minmax(0, 1fr);
        }
        .three button {
          justify-content: start;
          min-height: var(--m-key);
        }
      }
      @media print {
        .three button:not([aria-pressed='true']),
        .add,
        kbd {
          display: none;
        }
        .three button[aria-pressed='true'] {
          display: inline-flex;
        }
        .point {
          break-inside: avoid;
        }
      }
    `,
  ];

  @property({ attribute: false }) points: readonly InspectionPoint[] = [];
  /** A signed job can only be read. */
  @property({ type: Boolean, attribute: 'read-only' }) readOnly = false;
  /** Notes being typed, by point: they are handed over when the field is left, or with the next choice. */
  @state() private _notes: Readonly<Record<string, string>> = {};

  #say<T>(name: string, detail: T) {
    this.dispatchEvent(new CustomEvent<T>(name, { detail, bubbles: true, composed: true }));
  }

  #note(point: InspectionPoint): string {
    return this._notes[point.id] ?? point.note;
  }

  #choose(point: InspectionPoint, seen: Seen) {
    if (this.readOnly) return;
    this.#say<Observed>('observed', { point: point.id, seen, note: this.#note(point).trim() });
  }

  #left(point: InspectionPoint) {
    const note = this.#note(point).trim();
    if (point.seen !== null && note !== point.note) this.#choose(point, point.seen);
  }

  #keyed(event: KeyboardEvent, point: InspectionPoint) {
    const path = event.composedPath();
    // A photograph that is open large lies over the page: keys there are none of the point's.
    if (path.some((each) => each instanceof HTMLTextAreaElement || each instanceof HTMLDialogElement)) return;
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const seen = SEEN_WORDS.find((word) => SHAPES[word].key === event.key);
    if (!seen) return;
    event.preventDefault();
    this.#choose(point, seen);
  }

  #takePhoto(event: Event, point: InspectionPoint) {
    const input = event.target as HTMLInputElement;
    for (const file of input.files ?? []) this.#say<PhotoAdded>('photo-added', { point: point.id, file });
    input.value = ''; // the same picture may be taken twice
  }

  #choice(point: InspectionPoint, seen: Seen) {
    const { shape, tone, key, word } = SHAPES[seen];
    return html`<button
      class=${tone}
      aria-pressed=${point.seen === seen}
      aria-keyshortcuts=${key}
      aria-disabled=${this.readOnly}
      @click=${() => this.#choose(point, seen)}
    >
      <m-icon shape=${shape}></m-icon>${word} <kbd aria-hidden="true">${key}</kbd>
    </button>`;
  }

  #photos(point: InspectionPoint) {
    return html`<div class="photos">
      <slot name=${pointSlot(point.id)}></slot>
      ${
        this.readOnly
          ? nothing
          : html`<label class="add"
              ><m-icon shape="plus"></m-icon>Add a photo<input
                class="unseen"
                type="file"
                accept="image/*"
                capture="environment"
                aria-label="Add a photo: ${point.ask}"
                @change=${(event: Event) => this.#takePhoto(event, point)}
            /></label>`
      }
    </div>`;
  }

  #point(point: InspectionPoint, at: number) {
    const tone = point.seen ? SHAPES[point.seen].tone : 'open';
    return html`<li
      class="panel point ${tone}"
      @keydown=${(event: KeyboardEvent) => this.#keyed(event, point)}
    >
      <h2 id="ask-${at}">${at + 1}. ${point.ask}</h2>
      <p class="look">${point.look}</p>
      <div class="three" role="group" aria-labelledby="ask-${at}">
        ${SEEN_WORDS.map((seen) => this.#choice(point, seen))}
      </div>
      <div class="field">
        <label class="label" for="note-${at}">Note<span class="unseen"> on ${point.ask}</span></label>
        <textarea
          id="note-${at}"
          rows="2"
          ?readonly=${this.readOnly}
          .value=${this.#note(point)}
          @input=${(event: Event) =>
            (this._notes = { ...this._notes, [point.id]: (event.target as HTMLTextAreaElement).value })}
          @change=${() => this.#left(point)}
        ></textarea>
      </div>
      ${this.#photos(point)}
    </li>`;
  }

  override render() {
    const said = this.points.filter(({ seen }) => seen !== null).length;
    const wrong = this.points.filter(({ seen }) => seen === 'not in order').length;
    const words = `${said} of ${this.points.length} said${wrong > 0 ? `, ${wrong} not in order` : ''}.`;
    return html`<p class="progress" role="status">${words}</p>
      <ol>
        ${this.points.map((point, at) => this.#point(point, at))}
      </ol>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-inspection': Inspection;
  }
  interface HTMLElementEventMap {
    observed: CustomEvent<Observed>;
    'photo-added': CustomEvent<PhotoAdded>;
  }
}
