import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Verdict } from '../../grading/verdict.ts';
import type { ProblemCode } from '../../problems/catalogue.ts';
import { describeProblem } from '../../problems/problem.ts';
import { baseStyles, buttonStyles } from '../../ui/base-styles.ts';
import { pageStyles } from '../page-styles.ts';

/** Reasons that a person may let stand, always with a reason of their own; see checks/overrides. */
const MAY_STAND: readonly ProblemCode[] = ['check.time-outside', 'check.crank-cut', 'check.crank-data-lost'];

/** `override-form`: lets a reason against the verdict stand, with a reason. Shown only where there is one. Event: `override-given`. */
@customElement('override-form')
export class OverrideForm extends LitElement {
  static override styles = [
    baseStyles,
    pageStyles,
    buttonStyles,
    css`
      input[type='text'] {
        width: 100%;
      }
    `,
  ];

  @property({ attribute: false }) verdict: Verdict | null = null;
  @state() private reason = '';

  override render() {
    const codes = new Set(
      (this.verdict?.reasons ?? []).map(({ code }) => code).filter((code) => MAY_STAND.includes(code)),
    );
    return [...codes].map((code) => this.#form(code));
  }

  #form(code: ProblemCode) {
    const problem = this.verdict?.reasons.find((each) => each.code === code);
    if (!problem) return nothing;
    return html`<form class="card screen-only" @submit=${(event: Event) => this.#submit(event, code)}>
      <label class="field"
        >Let it stand all the same? Why? (${describeProblem(problem).message})
        <input
          type="text"
          .value=${this.reason}
          @input=${(event: Event) => (this.reason = (event.target as HTMLInputElement).value)}
        />
      </label>
      <button aria-disabled=${this.reason.trim() === ''}>Let it stand, with this reason</button>
    </form>`;
  }

  #submit(event: Event, code: ProblemCode): void {
    event.preventDefault();
    const reason = this.reason.trim();
    if (reason === '') return;
    this.dispatchEvent(
      new CustomEvent('override-given', { detail: { code, reason }, bubbles: true, composed: true }),
    );
    this.reason = '';
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'override-form': OverrideForm;
  }
  interface HTMLElementEventMap {
    'override-given': CustomEvent<{ readonly code: ProblemCode; readonly reason: string }>;
  }
}
