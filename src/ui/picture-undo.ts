import { html, type TemplateResult } from 'lit';

/** Undo and redo beside the zoom, for the slot `tools` of the board; what is off stays reachable and says so. */
export function undoButtons(
  steps: { readonly past: readonly unknown[]; readonly future: readonly unknown[] },
  send: (action: { readonly type: 'undo' | 'redo' }) => void,
): TemplateResult {
  const button = (type: 'undo' | 'redo', word: string, off: boolean) =>
    html`<button
      type="button"
      slot="tools"
      data-history=${type}
      aria-disabled=${off ? 'true' : 'false'}
      @click=${() => !off && send({ type })}
    >
      ${word}
    </button>`;
  return html`${button('undo', 'Undo', steps.past.length === 0)}
  ${button('redo', 'Redo', steps.future.length === 0)}`;
}
