import { html, type TemplateResult } from 'lit';
import '../../src/ui/curve-editor.ts';
import '../../src/ui/curve-paste-panel.ts';
import { EMPTY_SHEET } from '../../src/ui/sheet-draft.ts';
import '../../src/ui/sheet-form.ts';
import '../../src/ui/sheet-import-preview.ts';
import '../../src/ui/sheet-list.ts';
import '../../src/ui/sheet-serial-check.ts';
import { ANSWER, CHECKS, DRAFT, FAMILIES, IMPORT, NO_ANSWER, SHEET } from './sheet-samples.ts';

const WRONG = { ...DRAFT, passAbove: DRAFT.passAbove.with(1, { speed: '150', volume: '270' }) };
const SMOOTH = {
  ...DRAFT,
  join: 'monotone cubic' as const,
  failAbove: [
    { speed: '100', volume: '560' },
    { speed: '150', volume: '640' },
    { speed: '220', volume: '700' },
  ],
};

/** The parts of the gallery that show limit sheets: entering, listing, importing, finding. */
export const SHEET_PARTS: Readonly<Record<string, () => TemplateResult>> = {
  curves: () =>
    html`<m-curve-editor .draft=${DRAFT}></m-curve-editor> <m-curve-editor .draft=${SMOOTH}></m-curve-editor>
      <m-curve-editor .draft=${WRONG}></m-curve-editor>
      <m-curve-paste
        .text=${'Speed (1/min)\tfail [cc]\tpass [cc]\n100\t180\t235\n150\t290\tn/a\n220\t430\t505'}
      ></m-curve-paste>`,
  sheetform: () =>
    html`<m-sheet-form .draft=${SHEET} .checks=${CHECKS}></m-sheet-form>
      <m-sheet-form .draft=${EMPTY_SHEET} .checks=${CHECKS}></m-sheet-form>`,
  sheetlist: () => html`<m-sheet-list .families=${FAMILIES}></m-sheet-list> <m-sheet-list></m-sheet-list>`,
  sheetimport: () =>
    html`<m-import-preview .sheets=${IMPORT} file-name="limits.json"></m-import-preview>
      <m-serial-check serial="P321" on-date="2026-11-25" .answers=${[ANSWER]}></m-serial-check>
      <m-serial-check serial="P650" on-date="2026-11-25" .answers=${[NO_ANSWER]}></m-serial-check>
      <m-serial-check></m-serial-check>`,
};
