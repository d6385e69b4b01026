import { html, LitElement, nothing, svg } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { baseStyles, panelStyles } from './base-styles.ts';
import './fact-list.ts';
import type { FactRow } from './fact-list.ts';
import { modelDrawingStyles } from './model-drawing-look.ts';
import {
  MODEL_LINE_WORDS,
  MODEL_LINES,
  MODEL_PATHS,
  modelClass,
  type ModelLine,
  type ModelPartId,
} from './model-layout.ts';

/** A constant that a defect at its worst changes; the numbers already written. */
export interface ModelChange {
  readonly name: string;
  readonly from: string;
  readonly to: string;
  readonly unit: string;
}

/** A defect that acts on a part. */
export interface ModelDefect {
  readonly kind: string;
  readonly name: string;
  readonly words: string;
  readonly changes: readonly ModelChange[];
}

/** One part of the bench engine, ready to be shown. */
export interface ModelPart {
  readonly id: ModelPartId;
  readonly name: string;
  readonly what: string;
  readonly constants: readonly FactRow[];
  readonly defects: readonly ModelDefect[];
}

const line = (kind: ModelLine) => svg`<path class=${kind} d=${MODEL_PATHS[kind]} />`;

/**
 * `m-model-drawing`: what the bench engine is made of, as boxes joined by lines, below each other on a narrow screen. Each box is a
 * button; the chosen one tells what it does, its constants and its defects. Without parts nothing is drawn.
 */
@customElement('m-model-drawing')
export class ModelDrawing extends LitElement {
  static override styles = [baseStyles, panelStyles, modelDrawingStyles];

  @property({ attribute: false }) parts: readonly ModelPart[] = [];
  /** The part whose panel is open. */
  @property() selected: ModelPartId | '' = '';

  override render() {
    if (this.parts.length === 0) return nothing;
    return html`<section class="panel frame" aria-label="Drawing of the bench engine">
      <p class="label">Choose a part to read what it does. All numbers are invented.</p>
      <div class="parts">
        <svg class="lines" viewBox="0 0 800 400" preserveAspectRatio="none" aria-hidden="true">
          ${MODEL_LINES.map(line)}
        </svg>
        ${this.parts.map((part) => [this.#part(part), this.selected === part.id ? this.#told(part) : nothing])}
      </div>
      <ul class="legend label" aria-label="Lines">
        ${MODEL_LINES.map(
          (kind) =>
            html`<li>
              <svg class="sample" viewBox="0 0 40 10" aria-hidden="true">
                ${svg`<path class=${kind} d="M0 5H40" />`}</svg
              >${MODEL_LINE_WORDS[kind]}
            </li>`,
        )}
      </ul>
    </section>`;
  }

  #part({ id, name }: ModelPart) {
    const open = this.selected === id;
    return html`<button
      class=${modelClass(id)}
      data-part=${id}
      aria-expanded=${open ? 'true' : 'false'}
      aria-controls=${open ? 'told' : nothing}
      @click=${() => (this.selected = open ? '' : id)}
    >
      ${name}
    </button>`;
  }

  #told({ name, what, constants, defects }: ModelPart) {
    return html`<section class="told" id="told" aria-label=${name}>
      <div class="words">
        <h3>${name}</h3>
        <p>${what}</p>
        ${
          defects.length === 0
            ? html`<p class="label">No defect of the bench sits here.</p>`
            : html`<h4>Defects that act here</h4>
                <ul class="defects">
                  ${defects.map((each) => this.#defect(each))}
                </ul>`
        }
      </div>
      <m-facts heading="Constants of a sound engine, invented" .facts=${constants}></m-facts>
    </section>`;
  }

  #defect({ name, words, changes }: ModelDefect) {
    return html`<li>
      <p><strong class="kind">${name}</strong> ${words}</p>
      ${changes.map(
        (each) =>
          html`<p class="label">
            At its worst: ${each.name} <span class="number">${each.to}</span> ${each.unit} instead of
            <span class="number">${each.from}</span>.
          </p>`,
      )}
    </li>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-model-drawing': ModelDrawing;
  }
}
