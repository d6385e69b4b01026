import { html } from 'lit';

/** What a verdict suggests, and the steps that follow from it. */
export const advicePart = (headline: string, next: readonly string[]) =>
  html`<section class="card" aria-label="What next">
    <h2>${headline}</h2>
    <ul class="plain stack">
      ${next.map((step) => html`<li>${step}</li>`)}
    </ul>
  </section>`;
