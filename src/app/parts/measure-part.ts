import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { BenchView } from '../../../simulators/bench.ts';
import type { JudgedCheck } from '../../jobs/judged-check.ts';
import { isOpen } from '../../link/link-state.ts';
import { describeProblem } from '../../problems/problem.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import '../../ui/deviation.ts';
import '../../ui/pressure-curve.ts';
import '../../ui/problem-note.ts';
import '../../ui/steady-gauge.ts';
import '../../ui/stopwatch.ts';
import { benchSetUp } from '../bench-set-up.ts';
import { cueOf } from '../clock-cue.ts';
import { curveView } from '../curve-view.ts';
import { deviationView } from '../deviation-view.ts';
import { measuredValue, stopwatchView } from '../measure-views.ts';
import { pageStyles } from '../page-styles.ts';
import type { DeskView, RunDesk } from '../run-desk.ts';
import type { Services } from '../services.ts';
import { steadyView } from '../steady-view.ts';
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
      :host {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: var(--m-space-3);
      }
      .done {
        min-height: var(--m-key);
      }
    `,
  ];

  @property({ attribute: false }) desk!: RunDesk;
  @property({ attribute: false }) shown!: DeskView;
  @property({ attribute: false }) services!: Services;
  @property({ attribute: false }) checked!: JudgedCheck;

  override render() {
    const { checked, services } = this;
    const { view } = this.shown;
    const { kind } = checked;
    if (kind === 'inspection')
      return html`<inspection-part
        .desk=${this.desk}
        .checked=${checked}
        .services=${services}
      ></inspection-part>`;
    if (kind === 'collected volume') return this.#collected();
    // Without a source there is nothing to look at: the value is typed.
    if (!view.pipeline) return nothing;
    return this.#live(this.#gauge());
  }

  /** What is measured, as it stands now. */
  #gauge() {
    const { checked } = this;
    const { view } = this.shown;
    const units = this.services.settings.value;
    const steady = steadyView(checked, view, units);
    if (steady) return html`<m-steady-gauge .view=${steady} @done=${this.#done}></m-steady-gauge>`;
    const curve = curveView(checked, view, units);
    if (curve) return html`<m-pressure-curve .view=${curve}></m-pressure-curve>`;
    return html`<m-deviation .view=${deviationView(checked, view, units)}></m-deviation>`;
  }

  /** The gauge of a steady pressure has its own button for being done. */
  #live(gauge: TemplateResult) {
    const { view } = this.shown;
    const measured = measuredValue(this.checked);
    const isKnown = measured !== null && measured.value !== null;
    const ownButton = this.checked.kind === 'steady pressure';
    return html`${gauge}
      ${
        isKnown
          ? measured.reasons.map(
              (each) => html`<m-problem tone="info" .problem=${describeProblem(each)}></m-problem>`,
            )
          : nothing
      }
      <div class="row">
        ${
          ownButton
            ? nothing
            : html`<button class="primary done" ?disabled=${!isKnown} @click=${this.#done}>
                Done: grade it
              </button>`
        }
        ${
          isOpen(view.link) && !isKnown
            ? html`<button class="quiet" @click=${this.#done}>Stop without a value</button>`
            : nothing
        }
      </div>`;
  }

  readonly #done = () => this.desk.stopListening();

  #collected() {
    const { view, playback } = this.shown;
    const clock = stopwatchView(this.checked, view, {
      nowMs: this.#nowMs(),
      units: this.services.settings.value,
    });
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
