import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import '../../ui/shape-icon.ts';
import { tableStyles } from '../../ui/table-styles.ts';
import type { Remark } from '../../training/remarks.ts';
import { dayAndTime } from '../job-rows.ts';
import { pageStyles } from '../page-styles.ts';
import { routeHash } from '../routes.ts';
import type { EndedCase } from '../training-desk.ts';
import { MATCH_WORDS, shortRows, spanWords, takenRows, truthWords, type StepRow } from '../training-words.ts';

/** `training-outcome`: the end of a case: what was wrong, beside what was concluded, the way that was gone and the shortest. Words, no grade. */
@customElement('training-outcome')
export class TrainingOutcome extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    tableStyles,
    css`
      .two {
        display: grid;
        gap: var(--m-space-4);
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 22rem), 1fr));
        align-items: start;
      }
      .truth {
        border-left: var(--m-space-1) solid var(--m-accent);
      }
      .truth strong {
        font-size: var(--m-text-l);
      }
      .match {
        display: grid;
        grid-template-columns: auto minmax(0, 1fr);
        gap: 0 var(--m-space-3);
        align-items: baseline;
      }
      li.remark {
        display: grid;
        grid-template-columns: auto 1fr;
        gap: var(--m-space-3);
      }
      .figures {
        display: grid;
        gap: var(--m-space-3);
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 14rem), 1fr));
      }
      .figures dd {
        font-size: var(--m-text-l);
      }
      th,
      td {
        padding-inline: 0 var(--m-space-3);
        text-align: left;
        overflow-wrap: anywhere;
      }
      td.number {
        text-align: right;
        white-space: normal;
      }
    `,
  ];

  @property({ attribute: false }) ended!: EndedCase;

  override render() {
    const { result, drawn, job } = this.ended;
    return html`<div class="stack">
      <div class="stack">
        <h1>What was wrong</h1>
        <p class="quiet">
          ${result.trainee || 'No name'} · ${drawn.set.title}, case ${result.seed} · ${result.ended}
          ${dayAndTime(result.endedAt)} ·
          <a href=${routeHash({ page: 'job', jobId: job.id })}>the job</a> ·
          <a href=${routeHash({ page: 'training' })}>all cases</a>
        </p>
      </div>
      ${this.#truth()} ${this.#compared()} ${this.#remarks()} ${this.#costs()} ${this.#ways()}
    </div>`;
  }

  #truth() {
    const found = truthWords(this.ended.job.procedure, this.ended.review);
    if (found.length === 0)
      return html`<div class="card truth">
        <p><strong>Nothing was wrong with this engine.</strong></p>
        <p>Every check passes on it when it is done as asked.</p>
      </div>`;
    return found.map(
      ({ name, severity, where, did }) =>
        html`<div class="card truth">
          <p><strong>${name}</strong></p>
          <p class="label">Where: ${where}. How bad: ${severity}.</p>
          <p>${did}</p>
        </div>`,
    );
  }

  #compared() {
    const { compared } = this.ended.review;
    const rows = [
      ['Cause', compared.cause, compared.words || 'none written down'],
      ['Station', compared.station, ''],
      ['Decision', compared.decision, compared.decided ?? 'none'],
    ] as const;
    return html`<section class="card" aria-labelledby="compared">
      <h2 id="compared">What you concluded</h2>
      ${rows.map(([name, match, words]) => {
        const look = MATCH_WORDS[match];
        return html`<p class="match">
          <m-icon shape=${look.shape}></m-icon
          ><span><strong>${name}: ${look.words}</strong>${words ? html` · ${words}` : nothing}</span>
        </p>`;
      })}
    </section>`;
  }

  #remarks() {
    const { good, costly } = this.ended.review.remarks;
    return html`<div class="two">
      ${remarkList('What was good', 'pass', good, 'Nothing to name this time.')}
      ${remarkList('What was missed, or cost time or parts', 'marginal', costly, 'Nothing: there was no detour.')}
    </div>`;
  }

  #costs() {
    const { path, shortest } = this.ended.review;
    return html`<section class="card" aria-labelledby="costs">
      <h2 id="costs">Time and parts</h2>
      <dl class="figures">
        <div>
          <dt class="label">Your way</dt>
          <dd class="number">${spanWords(path.minutes)}, ${path.points} part points</dd>
        </div>
        <div>
          <dt class="label">The shortest way by the book</dt>
          <dd class="number">${spanWords(shortest.minutes)}, ${shortest.points} part points</dd>
        </div>
      </dl>
      <p class="quiet">
        Minutes are from a table of what a check or part usually takes (common practice, no source), not from
        your clock. Part points are invented and stand for no money. The shortest way includes the repair and
        the checks that prove it.
      </p>
    </section>`;
  }

  #ways() {
    const { job, review } = this.ended;
    return html`<div class="two">
      ${stepTable('The way you went', takenRows(job.procedure, review.path.steps))}
      ${stepTable('The shortest way', shortRows(job.procedure, review.shortest.steps))}
    </div>`;
  }
}

const remarkList = (heading: string, shape: string, remarks: readonly Remark[], none: string) =>
  html`<section class="card" aria-label=${heading}>
    <h2>${heading}</h2>
    ${
      remarks.length === 0
        ? html`<p class="quiet">${none}</p>`
        : html`<ul class="stack">
            ${remarks.map(
              ({ words, evidence }) =>
                html`<li class="remark">
                  <m-icon shape=${shape}></m-icon>
                  <div>
                    <p>${words}</p>
                    <p class="quiet">${evidence}</p>
                  </div>
                </li>`,
            )}
          </ul>`
    }
  </section>`;

const stepTable = (heading: string, rows: readonly StepRow[]) =>
  html`<section class="card">
    ${
      rows.length === 0
        ? html`<h2>${heading}</h2>
            <p class="quiet">No step was taken.</p>`
        : html`<table>
            <caption>
              ${heading}
            </caption>
            <thead>
              <tr>
                <th scope="col">Step</th>
                <th scope="col">Outcome</th>
                <th scope="col">Cost</th>
              </tr>
            </thead>
            <tbody>
              ${rows.map(
                ({ what, outcome, cost }, place) =>
                  html`<tr>
                    <th scope="row">${place + 1}. ${what}</th>
                    <td>${outcome || nothing}</td>
                    <td class="number">${cost}</td>
                  </tr>`,
              )}
            </tbody>
          </table>`
    }
  </section>`;

declare global {
  interface HTMLElementTagNameMap {
    'training-outcome': TrainingOutcome;
  }
}
