import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { BenchView } from '../../../simulators/bench.ts';
import type { JudgedCheck } from '../../jobs/judged-check.ts';
import { isOpen } from '../../link/link-state.ts';
import { describeProblem } from '../../problems/problem.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import '../../ui/problem-note.ts';
import '../../ui/stopwatch.ts';
import { benchSetUp } from '../bench-set-up.ts';
import { cueOf } from '../clock-cue.ts';
import { measuredValue, stopwatchView } from '../measure-views.ts';
import { pageStyles } from '../page-styles.ts';
import type { DeskView, RunDesk } from '../run-desk.ts';
import type { Services } from '../services.ts';
import { valueWords } from '../value-words.ts';
import './inspection-part.ts';
import './volume-entry.ts';

/** `measure-part`: the live part of a check while it is measured, by its kind. */
@customElement('measure-part')
export class MeasurePart extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    css`
      .so-far {
        font-size: var(--m-text-xxl, var(--m-text-xl));
        font-weight: 700;
        line-height: 1.1;
      }
    `,
  ];

  @property({ attribute: false }) desk!: RunDesk;
  @property({ attribute: false }) shown!: DeskView;
  @property({ attribute: false }) services!: Services;
  @property({ attribute: false }) checked!: JudgedCheck;

  override render() {
    switch (this.checked.kind) {
      case 'inspection':
        return html`<inspection-part
          .desk=${this.desk}
          .checked=${this.checked}
          .services=${this.services}
        ></inspection-part>`;
      case 'collected volume':
        return this.#collected();
      case 'steady pressure':
      case 'pressure build':
      case 'pressure decay':
      case 'pressure deviation':
      case 'crank delivery':
        return this.#value();
    }
  }

  #value() {
    const { view } = this.shown;
    const measured = measuredValue(this.checked);
    if (!measured || !view.pipeline) return nothing;
    const words = valueWords(this.checked.valueSummary);
    return html`<section class="card" aria-label="Measured so far">
      <p class="label">So far</p>
      <p class="so-far number" role="status">${words || 'nothing yet'}</p>
      ${measured.reasons.map(
        (each) => html`<m-problem tone="info" .problem=${describeProblem(each)}></m-problem>`,
      )}
      <div class="row">
        <button class="primary" ?disabled=${words === ''} @click=${() => this.desk.stopListening()}>
          Done: grade it
        </button>
        ${
          isOpen(view.link) && words === ''
            ? html`<button class="quiet" @click=${() => this.desk.stopListening()}>
                Stop without a value
              </button>`
            : nothing
        }
      </div>
    </section>`;
  }

  #collected() {
    const { view, playback } = this.shown;
    const clock = stopwatchView(this.checked, view, this.#nowMs());
    const { volumeProblem } = this.checked;
    return html`<m-stopwatch
        .view=${clock}
        @clock-start=${() => this.#clock('start')}
        @clock-stop=${() => this.#clock('stop')}
        @clock-reset=${() => this.#clock('reset')}
        @clock-warn=${this.#warn}
        @time-typed=${this.#timeTyped}
      ></m-stopwatch>
      <volume-entry
        .vessel=${view.values.vessel}
        .services=${this.services}
        .bench=${playback === 'live' ? this.#benchView() : null}
        error=${volumeProblem ? describeProblem(volumeProblem).message : ''}
        @number-entered=${(event: HTMLElementEventMap['number-entered']) =>
          this.desk.enterVolume(event.detail.value, event.detail.text)}
        @vessel-chosen=${(event: HTMLElementEventMap['vessel-chosen']) =>
          this.desk.enter({ kind: 'vessel', atIso: this.desk.nowIso(), vessel: event.detail, reason: '' })}
      ></volume-entry>`;
  }

  /** Time on the clock by which the collection is timed: the source's while one is open, else the wall's. */
  #nowMs(): number {
    return this.#onSource() ? this.shown.view.nowMs : this.services.wallMs();
  }

  #onSource(): boolean {
    return this.shown.view.pipeline !== null && isOpen(this.shown.view.link);
  }

  #clock(press: 'start' | 'stop' | 'reset'): void {
    const at = { atIso: this.desk.nowIso(), reason: '' };
    if (press === 'reset') {
      const none = { ...at, kind: 'collected-time' as const, spanMs: null, typed: '' };
      return this.desk.enter(none, {
        ...at,
        kind: 'stopwatch',
        clock: 'wall',
        startMs: 0,
        endMs: null,
        by: 'cranks',
      });
    }
    const held = this.shown.view.values.stopwatch;
    const clock = this.#onSource() ? 'source' : 'wall';
    const nowMs = this.#nowMs();
    const running = held !== null && held.by === 'hand' && held.endMs === null;
    const startMs = press === 'stop' && running ? held.startMs : nowMs;
    const endMs = press === 'stop' ? nowMs : null;
    this.#moveLine(press);
    this.desk.enter({ ...at, kind: 'stopwatch', clock, startMs, endMs, by: 'hand' });
  }

  /** On the bench the line goes into the emptied vessel with the start and out of it with the stop, as a hand would do it. */
  #moveLine(press: 'start' | 'stop'): void {
    const { run, view } = this.shown;
    if (run.source.adapter !== 'bench') return;
    const { intoVessel } = benchSetUp(view.guide.id).rig;
    if (press === 'stop') this.desk.bench.command({ kind: 'line', into: null });
    else this.desk.bench.command({ kind: 'line', into: intoVessel }, { kind: 'empty vessel' });
  }

  readonly #warn = (event: HTMLElementEventMap['clock-warn']) => {
    const cue = cueOf(event.detail.warn);
    if (cue) this.services.sounds.play(cue);
  };

  readonly #timeTyped = ({ detail: { spanMs, typed } }: HTMLElementEventMap['time-typed']) =>
    this.desk.enter({ kind: 'collected-time', atIso: this.desk.nowIso(), reason: '', spanMs, typed });

  #benchView(): BenchView | null {
    return this.shown.run.source.adapter === 'bench' ? this.desk.bench.lastView : null;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'measure-part': MeasurePart;
  }
}
