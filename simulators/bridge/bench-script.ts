import type { BenchCommand } from '../bench-command.ts';
import { PARTS } from '../engine/parts.ts';
import { VESSEL_LINES } from '../engine/rig.ts';
import type { Scenario } from '../scenarios.ts';

/** What a person does at an instant of the script. */
export interface BenchAct {
  readonly atMs: number;
  readonly command: BenchCommand;
}

const hyphened = (name: string): string => name.replaceAll(' ', '-');

/** The words of a script and what each does. */
export const SCRIPT_WORDS: ReadonlyMap<string, BenchCommand> = new Map<string, BenchCommand>([
  ['off', { kind: 'key', at: 'off' }],
  ['on', { kind: 'key', at: 'on' }],
  ['crank', { kind: 'key', at: 'crank' }],
  ['idle', { kind: 'pedal', at: 'idle' }],
  ['high-idle', { kind: 'pedal', at: 'high idle' }],
  ['load', { kind: 'pedal', at: 'load' }],
  ['raise-rail', { kind: 'raise rail', on: true }],
  ['lower-rail', { kind: 'raise rail', on: false }],
  ['block-ports', { kind: 'rail ports', blocked: true }],
  ['open-ports', { kind: 'rail ports', blocked: false }],
  ['block-injection', { kind: 'injection', blocked: true }],
  ['allow-injection', { kind: 'injection', blocked: false }],
  ['fit-valve', { kind: 'test valve', fitted: true }],
  ['remove-valve', { kind: 'test valve', fitted: false }],
  ...VESSEL_LINES.map((into) => [`line-${hyphened(into)}`, { kind: 'line', into }] as const),
  ['line-tank', { kind: 'line', into: null }],
  ['empty', { kind: 'empty vessel' }],
  ['prime', { kind: 'prime' }],
  ...PARTS.map((part) => [`replace-${hyphened(part)}`, { kind: 'replace', part }] as const),
]);

/** Two cranks of 15 s with a rest between them, as the crank delivery test asks. */
const TWO_CRANKS = 'on@0 crank@3 on@18 crank@26 on@41 off@44';
/** Starts, idles, high idle, idles again, off. */
const A_DRIVE = 'on@0 crank@2 on@4 high-idle@15 idle@25 off@35';

/** What is done where no script is given: an engine that stands ready for the test is cranked twice, another is started. */
export const defaultScript = ({ rig }: Scenario): string => (rig.testValve ? TWO_CRANKS : A_DRIVE);

/** The script goes on for so long after its last word, ms: run-down, and controllers that fall asleep. */
const REST_MS = 4000;

/** How long a script lasts, ms. */
export const scriptMs = (acts: readonly BenchAct[]): number => (acts.at(-1)?.atMs ?? 0) + REST_MS;

/**
 * A script such as `on@0 crank@2 on@17 off@20`: words of `SCRIPT_WORDS` with seconds, in the order of time, set off by blanks or commas.
 * What cannot be read gives a sentence that says what, and the remedy.
 */
export function parseScript(text: string): readonly BenchAct[] | { readonly mistake: string } {
  const acts: BenchAct[] = [];
  for (const each of text.split(/[\s,]+/).filter(Boolean)) {
    const act = parseAct(each);
    if ('mistake' in act) return act;
    const before = acts.at(-1);
    if (before && act.atMs < before.atMs)
      return { mistake: `'${each}' comes after a later time; write the script in the order of time` };
    acts.push(act);
  }
  return acts.length > 0 ? acts : { mistake: `the script is empty; write for example '${TWO_CRANKS}'` };
}

function parseAct(text: string): BenchAct | { readonly mistake: string } {
  const [, word = '', seconds] = /^([a-z-]+)@(\d+(?:\.\d+)?)$/.exec(text) ?? [];
  if (seconds === undefined)
    return { mistake: `'${text}' is not a word with a time; write for example crank@3` };
  const command = SCRIPT_WORDS.get(word);
  if (!command)
    return { mistake: `'${word}' is nothing that can be done; use ${[...SCRIPT_WORDS.keys()].join(', ')}` };
  return { atMs: Math.round(Number(seconds) * 1000), command };
}
