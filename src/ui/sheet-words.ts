import type { IconShape } from './shape-icon.ts';

/** Whether the numbers were compared with current service information. `days` ago; null days where it never was. */
export interface ConfirmationView {
  readonly state: 'confirmed' | 'due' | 'never' | 'invented';
  readonly days: number | null;
  readonly by: string;
}

/** How a state looks: its shape and the meaning of its colour. */
export interface StateLook {
  readonly shape: IconShape;
  readonly kind: 'pass' | 'marginal' | 'fail' | 'invalid' | 'unsure';
  readonly words: string;
}

/** The confirmation in words, with shape and colour. */
export function confirmationLook({ state, days, by }: ConfirmationView): StateLook {
  const who = by.trim() === '' ? '' : ` by ${by.trim()}`;
  switch (state) {
    case 'confirmed':
      return { shape: 'pass', kind: 'pass', words: `confirmed ${daysAgo(days)}${who}` };
    case 'due':
      return {
        shape: 'marginal',
        kind: 'marginal',
        words: `check against current service information (confirmed ${daysAgo(days)})`,
      };
    case 'never':
      return {
        shape: 'marginal',
        kind: 'marginal',
        words: 'never confirmed: check against current service information',
      };
    case 'invented':
      return { shape: 'unsure', kind: 'unsure', words: 'invented numbers, for practice only' };
  }
}

/** "today", "yesterday", "12 days ago". */
export function daysAgo(days: number | null): string {
  if (days === null) return 'on an unknown day';
  if (days <= 0) return 'today';
  return days === 1 ? 'yesterday' : `${days} days ago`;
}

/** Which revision of a family counts today. */
export type ForceState = 'in force' | 'not yet valid' | 'replaced' | 'withdrawn';

export const FORCE_LOOK: Readonly<Record<ForceState, StateLook>> = {
  'in force': { shape: 'pass', kind: 'pass', words: 'in force today' },
  'not yet valid': { shape: 'waiting', kind: 'invalid', words: 'not valid yet' },
  replaced: { shape: 'ended', kind: 'invalid', words: 'replaced' },
  withdrawn: { shape: 'lost', kind: 'invalid', words: 'withdrawn' },
};
