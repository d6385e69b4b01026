/** A code as it is being typed. */
export interface CodeDraft {
  readonly spn: string;
  readonly fmi: string;
  readonly note: string;
}

export const CODE_PARTS = {
  spn: { label: 'SPN', mode: 'numeric' },
  fmi: { label: 'FMI', mode: 'numeric' },
  note: { label: 'Note', mode: 'text' },
} as const satisfies Record<keyof CodeDraft, { label: string; mode: 'numeric' | 'text' }>;

/** Nineteen bits and five bits (SAE J1939-73, DM1). */
const MOST = { spn: 524_287, fmi: 31 } as const;

export interface CodeMistake {
  readonly part: 'spn' | 'fmi';
  readonly words: string;
}

/** What keeps a code from being one: digits only, SPN 0 to 524287, FMI 0 to 31; null where it is right. */
export function codeMistake(draft: CodeDraft): CodeMistake | null {
  for (const part of ['spn', 'fmi'] as const) {
    const typed = draft[part].trim();
    const name = CODE_PARTS[part].label;
    if (typed === '')
      return { part, words: `Type the ${name} as well; a code has both. It is not kept until then.` };
    if (!/^\d+$/.test(typed) || Number(typed) > MOST[part]) {
      return { part, words: `${name} is a whole number from 0 to ${MOST[part]}. “${typed}” is not kept.` };
    }
  }
  return null;
}
