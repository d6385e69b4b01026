import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { PathStation } from '../procedures/fuel-path.ts';
import { baseStyles, buttonStyles } from './base-styles.ts';
import './before-after.ts';
import { findingPlate } from './finding-plate.ts';
import { wordLook } from './finding-look.ts';
import './fuel-path.ts';
import { jobSheetStyles } from './job-sheet-look.ts';
import type { JobSheetView, SheetCheckRow } from './job-sheet-view.ts';
import './shape-icon.ts';

/**
 * `m-job-sheet`: the page of a job for the owner, on A4 or Letter: what was asked, what was measured, what was done, what was concluded, and
 * who signed. Everything that was left out stands on it with its reason. Says `print-wanted`; on paper nothing can be pressed.
 */
@customElement('m-job-sheet')
export class JobSheet extends LitElement {
  static override styles = [baseStyles, buttonStyles, jobSheetStyles];

  @property({ attribute: false }) view: JobSheetView | null = null;

  #part(title: string, content: TemplateResult | typeof nothing) {
    return html`<section>
      <h2>${title}</h2>
      ${content}
    </section>`;
  }

  #pairs(pairs: readonly (readonly [string, string])[]) {
    return html`<dl>
      ${pairs.map(
        ([name, value]) =>
          html`<div>
            <dt>${name}</dt>
            <dd>${value || '–'}</dd>
          </div>`,
      )}
    </dl>`;
  }

  #asked({ complaint, identity, codes }: JobSheetView) {
    return html`<p class="complaint">${complaint || 'No complaint was written down.'}</p>
      ${this.#pairs(identity)}
      <p class="codes">
        <strong>Trouble codes:</strong>
        ${
          codes.length === 0
            ? 'none noted.'
            : codes.map(
                ({ code, words, from }, at) =>
                  html`${at > 0 ? '; ' : ''}<span class="number">${code}</span>
                    ${words ? `${words} ` : ''}(${from})`,
              )
        }
      </p>`;
  }

  #verdict({ word, sure, state }: SheetCheckRow) {
    return html`${word === null ? html`<span class="quiet">${state}</span>` : findingPlate(wordLook(word))}
    ${sure ? html`<span class="quiet number">${sure}</span>` : nothing}
    ${word !== null && state ? html`<span class="quiet">${state}</span>` : nothing}`;
  }

  #check(row: SheetCheckRow, at: number) {
    const { title, value, limit, sheet, notes } = row;
    return html`<tbody>
      <tr class=${notes.length > 0 ? 'noted' : ''}>
        <td class="number">${at + 1}</td>
        <th scope="row">${title}</th>
        <td class="number">${value || '–'}</td>
        <td class="number">${limit || '–'}${sheet ? html`<span class="quiet">${sheet}</span>` : nothing}</td>
        <td>${this.#verdict(row)}</td>
      </tr>
      ${
        notes.length === 0
          ? nothing
          : html`<tr class="notes">
              <td></td>
              <td colspan="4">${notes.map((words) => html`<p>${words}</p>`)}</td>
            </tr>`
      }
    </tbody>`;
  }

  #measured({ path, pathWords, checks }: JobSheetView) {
    return html`<m-fuel-path .stations=${path as readonly PathStation[]} words=${pathWords}></m-fuel-path>
      <table>
        <caption class="unseen">
          Checks with value, limit and verdict
        </caption>
        <thead>
          <tr>
            <th scope="col">No.</th>
            <th scope="col">Check</th>
            <th scope="col">Value</th>
            <th scope="col">Limit, sheet</th>
            <th scope="col">Verdict</th>
          </tr>
        </thead>
        ${checks.map((row, at) => this.#check(row, at))}
      </table>`;
  }

  #done({ works, beforeAfter }: JobSheetView) {
    if (works.length === 0) return html`<p>No work was done in this job.</p>`;
    return html`<ul class="works">
        ${works.map(
          ({ time, words, notes }) =>
            html`<li>
              <span class="number">${time}</span>
              <div><strong>${words}</strong>${notes.map((each) => html`<p>${each}</p>`)}</div>
            </li>`,
        )}
      </ul>
      ${beforeAfter.length === 0 ? nothing : html`<m-before-after .rows=${beforeAfter}></m-before-after>`}`;
  }

  #noted({ notes }: JobSheetView) {
    return html`<ul class="works">
      ${notes.map(
        ({ time, words }, at) =>
          html`<li>
            <span class="number">${time}</span>
            <div>
              <p class="words">${words}</p>
              <slot name="note-${at}"></slot>
            </div>
          </li>`,
      )}
    </ul>`;
  }

  #concluded({ conclusion, caveat }: JobSheetView) {
    if (!conclusion)
      return html`<p><strong>Not concluded.</strong> What stands above is not the end of the job.</p>`;
    const { decision, words, cause, watchFor, by, time } = conclusion;
    return html`<p class="decision">${decision}</p>
      <p><strong>Cause:</strong> ${cause || 'not found'}</p>
      <p class="words">${words}</p>
      ${watchFor ? html`<p><strong>Watch for:</strong> ${watchFor}</p>` : nothing}
      ${caveat ? html`<p>${caveat}</p>` : nothing}
      <div class="signs">
        <p><span>${by ? `${by}, ${time}` : ''}</span>Technician${by ? ', signed' : ''}</p>
        <p><span></span>Owner or customer, date</p>
      </div>`;
  }

  override render() {
    const { view } = this;
    if (!view) return nothing;
    const revised =
      view.reopened.length === 0 ? nothing : html`<p class="quiet">${view.reopened.join(' ')}</p>`;
    return html`<article>
      <header>
        <h1>${view.title}</h1>
        <p class="number">${view.dates}</p>
        <p><strong>${view.standing}</strong></p>
        <button
          @click=${() => this.dispatchEvent(new CustomEvent('print-wanted', { bubbles: true, composed: true }))}
        >
          Print
        </button>
      </header>
      ${view.practice ? html`<p class="practice"><m-icon shape="unsure"></m-icon><span>${view.practice}</span></p>` : nothing}
      ${this.#part('What was asked', this.#asked(view))}
      ${this.#part('What was measured', this.#measured(view))}
      ${this.#part('What was done', this.#done(view))}
      ${view.notes.length === 0 ? nothing : this.#part('What was noted', this.#noted(view))}
      ${this.#part('What was concluded', html`${this.#concluded(view)} ${revised}`)}
      <footer>
        ${view.cautions.map((words) => html`<p>${words}</p>`)}
        <p>${view.versions}</p>
      </footer>
    </article>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'm-job-sheet': JobSheet;
  }
  interface HTMLElementEventMap {
    'print-wanted': CustomEvent<void>;
  }
}
